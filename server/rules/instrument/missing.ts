import { readingsOfBlock } from "../../totals/readings-of-block.ts";
import { counted, spotOf, WORK } from "../limit-wording.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly feature: string;
  readonly count: number;
}

const SHOP =
  'engine-type Curlew-9\ninstrument BG-2 "Bore gauge"\n  calibrated 2026-01-10 until 2027-01-10\nengine C9-0412 Curlew-9\njob J26-014 engine C9-0412\n';

export default rule<(typeof WORK)[number], Found>({
  id: "instrument/missing",
  severity: "warning",
  on: WORK,
  reads: ["readings", "unread"],
  page: {
    what: "Readings name no instrument.",
    why: "Without it nobody can tell whether the gauge was in calibration, and when one fails at calibration these readings are not found.",
    remedy: "Add `with` and the instrument's number, on the line, in the heading of the table, or on a line above.",
    faulty: [{ text: `${SHOP}entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.031 mm\n` }],
    sound: [
      { text: `${SHOP}entry E1 2026-02-19 inspect job J26-014\n  with BG-2\n  measure cylinder.bore[3] 98.031 mm\n` },
    ],
  },
  check(block, ask, report) {
    if (block.unread.includes("with")) return;
    for (const { feature, readings, has } of readingsOfBlock(block, ask)) {
      if (!has.unnamed) continue;
      const open = readings.filter(
        (one) =>
          one.instrument === "" &&
          one.status !== "superseded" &&
          (one.result === "value" || one.result === "below" || one.result === "go" || one.result === "no-go"),
      );
      const first = open[0];
      if (first) report(spotOf(first), { feature, count: open.length }, { place: feature });
    }
  },
  say: ({ feature, count }) =>
    `${counted(count, "readings")} of ${feature} ${count === 1 ? "names" : "name"} no instrument, so nobody can tell whether the gauge was good. Add: with, and its number.`,
});
