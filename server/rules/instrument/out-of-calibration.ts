import { formatDate } from "../../quantity/civil-date.ts";
import { calibrationOn, usesOf } from "../../totals/instrument-uses.ts";
import { counted, spotOfUse, WORK } from "../limit-wording.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly instrument: string;
  readonly state: "not-yet" | "lapsed" | "failed";
  readonly day: string;
  readonly on: string;
  readonly uses: string;
}

const SHOP = `engine-type Curlew-9
instrument BG-2 "Bore gauge"
  calibrated 2025-01-10 until 2026-01-10 "certificate 881"
engine C9-0412 Curlew-9
job J26-014 engine C9-0412
`;

export default rule<(typeof WORK)[number], Found>({
  id: "instrument/out-of-calibration",
  severity: "error",
  on: WORK,
  reads: ["readings", "torques", "compressions", "checks", "date"],
  page: {
    what: "Something was measured with an instrument that was not in calibration on that day.",
    why: "What the gauge showed that day is not known to be true. It does not matter that it was calibrated later: a calibration speaks for the days from its own on.",
    remedy:
      "Measure again with an instrument in calibration, or add the calibration that is missing from the instrument's block.",
    faulty: [
      { text: `${SHOP}entry E1 2026-01-11 inspect job J26-014\n  measure cylinder.bore[3] 98.031 mm with BG-2\n` },
    ],
    sound: [
      { text: `${SHOP}entry E1 2026-01-10 inspect job J26-014\n  measure cylinder.bore[3] 98.031 mm with BG-2\n` },
    ],
  },
  check(block, ask, report) {
    const { date } = block;
    if (date === undefined) return;
    for (const use of usesOf(block, ask).instruments) {
      const instrument = ask.instrument(use.instrument);
      if (!instrument || instrument.unread.includes("calibrated")) continue;
      const { state, at, day } = calibrationOn(instrument, date);
      if (state === "good" || state === "never") continue;
      report(
        spotOfUse(use),
        {
          instrument: use.instrument,
          state,
          day: day === undefined ? "" : formatDate(day),
          on: formatDate(date),
          uses: counted(use.count, use.what),
        },
        {
          related: [
            { ref: instrument.ref, spot: { at }, says: state === "failed" ? "The failure" : "The calibration" },
          ],
        },
      );
    }
  },
  say({ instrument, state, day, on, uses }) {
    const why =
      state === "lapsed"
        ? `was calibrated until ${day}`
        : state === "failed"
          ? `failed at calibration on ${day}`
          : `was first calibrated on ${day}`;
    return `${instrument} ${why} and was used on ${on}, so ${uses} with it count for nothing. Measure again with an instrument in calibration, or add its calibration.`;
  },
});
