import { calibrationOn, usesOf } from "../../totals/instrument-uses.ts";
import { counted, spotOfUse, WORK } from "../limit-wording.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly instrument: string;
  readonly uses: string;
}

const START = 'engine-type Curlew-9\ninstrument BG-2 "Bore gauge"\n';
const REST =
  "engine C9-0412 Curlew-9\njob J26-014 engine C9-0412\nentry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.031 mm with BG-2\n";

export default rule<(typeof WORK)[number], Found>({
  id: "instrument/never-calibrated",
  severity: "error",
  on: WORK,
  reads: ["readings", "torques", "compressions", "checks", "date"],
  page: {
    what: "Something was measured with an instrument for which no calibration is recorded at all.",
    why: "A reading is worth what its gauge is worth.",
    remedy: "Add the `calibrated` line to the instrument's block, or measure again with one that has it.",
    faulty: [{ text: `${START}${REST}` }],
    sound: [{ text: `${START}  calibrated 2026-01-10 until 2027-01-10\n${REST}` }],
  },
  check(block, ask, report) {
    if (block.date === undefined) return;
    for (const use of usesOf(block, ask).instruments) {
      const instrument = ask.instrument(use.instrument);
      if (
        !instrument ||
        instrument.unread.includes("calibrated") ||
        calibrationOn(instrument, block.date).state !== "never"
      )
        continue;
      report(
        spotOfUse(use),
        { instrument: use.instrument, uses: counted(use.count, use.what) },
        { related: [{ ref: instrument.ref, spot: { at: 0 }, says: "The instrument" }] },
      );
    }
  },
  say: ({ instrument, uses }) =>
    `${instrument} has no calibration on record, so ${uses} with it count for nothing. Add its calibration, or measure again with an instrument that has one.`,
});
