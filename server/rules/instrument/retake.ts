import { formatDate } from "../../quantity/civil-date.ts";
import { readingsOfBlock } from "../../totals/readings-of-block.ts";
import { counted, spotOf, WORK } from "../limit-wording.ts";
import type { Spot } from "../rule.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly instrument: string;
  readonly failed: string;
  readonly lastGood: string;
  readonly count: number;
}

const START = `engine-type Curlew-9
instrument BG-2 "Bore gauge"
  calibrated 2026-01-10 until 2027-01-10
`;
const REST =
  "engine C9-0412 Curlew-9\njob J26-014 engine C9-0412\nentry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.031 mm with BG-2\n";

export default rule<(typeof WORK)[number], Found>({
  id: "instrument/retake",
  severity: "error",
  on: WORK,
  reads: ["readings", "date"],
  page: {
    what: "An instrument failed at calibration, and readings that were taken with it since its last good one have not been taken again.",
    why: "Nobody knows on which day between the two calibrations the gauge went wrong, so every reading between them is in doubt.",
    remedy: "Measure the places again with a good instrument; the old readings are then kept and quiet.",
    faulty: [{ text: `${START}  failed 2026-04-02 "Reads 0.02 mm high"\n${REST}` }],
    sound: [
      { text: `${START}${REST}` },
      {
        text: `${START}  failed 2026-04-02 "Reads 0.02 mm high"\ninstrument BG-3 "Bore gauge"\n  calibrated 2026-01-10 until 2027-01-10\n${REST}entry E2 2026-04-03 inspect job J26-014\n  measure cylinder.bore[3] 98.011 mm with BG-3\n`,
      },
    ],
  },
  check(block, ask, report) {
    const doubted = new Map<string, { spot: Spot; count: number }>();
    for (const { readings, has } of readingsOfBlock(block, ask)) {
      if (!has.suspect) continue;
      for (const one of readings) {
        if (
          !one.suspect ||
          one.status === "superseded" ||
          (one.result !== "value" && one.result !== "below" && one.result !== "go" && one.result !== "no-go")
        )
          continue;
        const seen = doubted.get(one.instrument);
        if (seen) seen.count++;
        else doubted.set(one.instrument, { spot: spotOf(one), count: 1 });
      }
    }
    for (const [name, { spot, count }] of doubted) {
      const instrument = ask.instrument(name);
      const failure = instrument?.failures.find((one) => block.date === undefined || one.on >= block.date);
      if (!instrument || !failure) continue;
      const good = instrument.calibrations.filter((one) => one.on < failure.on).map((one) => one.on);
      const lastGood = good.sort((a, b) => a - b).at(-1);
      report(
        spot,
        {
          instrument: name,
          failed: formatDate(failure.on),
          lastGood: lastGood === undefined ? "" : formatDate(lastGood),
          count,
        },
        { related: [{ ref: instrument.ref, spot: { at: failure.at }, says: "The failure" }] },
      );
    }
  },
  say: ({ instrument, failed, lastGood, count }) =>
    `${instrument} failed at calibration on ${failed}; ${lastGood === "" ? "it has no good calibration before" : `its last good one is of ${lastGood}`}, so ${counted(count, "readings")} here ${count === 1 ? "is" : "are"} in doubt. Take ${count === 1 ? "it" : "them"} again with a good instrument.`,
});
