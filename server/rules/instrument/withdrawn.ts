import { formatDate } from "../../quantity/civil-date.ts";
import { usesOf } from "../../totals/instrument-uses.ts";
import { counted, spotOfUse, WORK } from "../limit-wording.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly instrument: string;
  readonly since: string;
  readonly reason: string;
  readonly on: string;
  readonly uses: string;
}

const SHOP = `engine-type Curlew-9
instrument BG-2 "Bore gauge"
  calibrated 2026-01-10 until 2027-01-10
  withdrawn 2026-02-20 "Dropped"
engine C9-0412 Curlew-9
job J26-014 engine C9-0412
`;

export default rule<(typeof WORK)[number], Found>({
  id: "instrument/withdrawn",
  severity: "error",
  on: WORK,
  reads: ["readings", "torques", "compressions", "checks", "date"],
  page: {
    what: "Something was measured with an instrument on or after the day on which it was taken out of service.",
    why: "It was withdrawn for a reason, and its calibration no longer speaks for it.",
    remedy: "Measure again with another instrument, or correct which one was used.",
    faulty: [
      { text: `${SHOP}entry E1 2026-02-20 inspect job J26-014\n  measure cylinder.bore[3] 98.031 mm with BG-2\n` },
    ],
    sound: [
      { text: `${SHOP}entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.031 mm with BG-2\n` },
    ],
  },
  check(block, ask, report) {
    const { date } = block;
    if (date === undefined) return;
    const { instruments, standards } = usesOf(block, ask);
    for (const use of [...instruments, ...standards]) {
      const instrument = ask.instrument(use.instrument);
      const gone = instrument?.withdrawn;
      if (!instrument || !gone || date < gone.on) continue;
      report(
        spotOfUse(use),
        {
          instrument: use.instrument,
          since: formatDate(gone.on),
          reason: gone.reason,
          on: formatDate(date),
          uses: counted(use.count, use.what),
        },
        { related: [{ ref: instrument.ref, spot: { at: gone.at }, says: "Taken out of service" }] },
      );
    }
  },
  say: ({ instrument, since, reason, on, uses }) =>
    `${instrument} was taken out of service on ${since}${reason === "" ? "" : ` (${reason})`} and was used on ${on}, so ${uses} with it count for nothing. Measure again with another instrument, or correct which one was used.`,
});
