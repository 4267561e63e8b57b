import { formatDate } from "../../quantity/civil-date.ts";
import { calibrationOn, usesOf } from "../../totals/instrument-uses.ts";
import { spotOfUse, WORK } from "../limit-wording.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly standard: string;
  readonly state: "never" | "not-yet" | "lapsed" | "failed";
  readonly day: string;
  readonly on: string;
}

const SHOP = `engine-type Curlew-9
instrument BG-2 "Bore gauge"
  calibrated 2026-01-10 until 2027-01-10
instrument RG-98 "Ring gauge 98 mm"
  calibrated 2024-01-10 until 2026-01-10
engine C9-0412 Curlew-9
job J26-014 engine C9-0412
`;

export default rule<(typeof WORK)[number], Found>({
  id: "instrument/standard-out-of-calibration",
  severity: "error",
  on: WORK,
  reads: ["readings", "date"],
  page: {
    what: "A gauge was set on a ring, block or bar that was not in calibration on that day.",
    why: "A comparing gauge is as good as what it was set on: an error of the standard is in every reading.",
    remedy: "Set it on a standard in calibration and measure again, or add the standard's calibration.",
    faulty: [
      {
        text: `${SHOP}entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.031 mm with BG-2 set on RG-98\n`,
      },
    ],
    sound: [
      {
        text: `${SHOP.replace("until 2026-01-10", "until 2027-01-10")}entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.031 mm with BG-2 set on RG-98\n`,
      },
    ],
  },
  check(block, ask, report) {
    const { date } = block;
    if (date === undefined) return;
    for (const use of usesOf(block, ask).standards) {
      const standard = ask.instrument(use.instrument);
      if (!standard || standard.unread.includes("calibrated")) continue;
      const { state, at, day } = calibrationOn(standard, date);
      if (state === "good") continue;
      report(
        spotOfUse(use),
        { standard: use.instrument, state, day: day === undefined ? "" : formatDate(day), on: formatDate(date) },
        { related: [{ ref: standard.ref, spot: { at }, says: "The standard" }] },
      );
    }
  },
  say({ standard, state, day, on }) {
    const why =
      state === "never"
        ? "has no calibration on record"
        : state === "lapsed"
          ? `was calibrated until ${day}`
          : state === "failed"
            ? `failed at calibration on ${day}`
            : `was first calibrated on ${day}`;
    return `${standard}, on which the gauge was set on ${on}, ${why}, so its error is in every reading. Set the gauge on a standard in calibration and measure again.`;
  },
});
