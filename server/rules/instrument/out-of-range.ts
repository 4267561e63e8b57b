import { placeText } from "../../facts/place.ts";
import type { InstrumentBlock } from "../../facts/types.ts";
import { insideRange, type Measure } from "../../quantity/compare.ts";
import { readingsOfBlock } from "../../totals/readings-of-block.ts";
import { boundText, spotOf, textOf, WORK } from "../limit-wording.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly place: string;
  readonly measure: Measure;
  readonly instrument: string;
  readonly end: Measure;
  readonly way: "below" | "above";
}

const SHOP = `engine-type Curlew-9
instrument BG-2 "Bore gauge 50 to 100 mm"
  range 50..100 mm
  calibrated 2026-01-10 until 2027-01-10
engine C9-0412 Curlew-9
job J26-014 engine C9-0412
`;

export default rule<(typeof WORK)[number], Found>({
  id: "instrument/out-of-range",
  severity: "error",
  on: WORK,
  reads: ["readings"],
  page: {
    what: "A reading lies outside what its instrument can measure.",
    why: "Either another instrument took it than the one named, or the figure is a slip, or the gauge was driven past its end, where it was not calibrated.",
    remedy: "Name the instrument that was used, correct the figure, or measure again.",
    faulty: [
      { text: `${SHOP}entry E1 2026-02-19 inspect job J26-014\n  measure crank.journal[1] 100.01 mm with BG-2\n` },
    ],
    sound: [
      { text: `${SHOP}entry E1 2026-02-19 inspect job J26-014\n  measure crank.journal[1] 100.00 mm with BG-2\n` },
    ],
  },
  check(block, ask, report) {
    for (const { feature, readings } of readingsOfBlock(block, ask)) {
      let gauge: InstrumentBlock | undefined;
      for (const one of readings) {
        const { measure } = one;
        if (one.result !== "value" || one.status === "superseded" || !measure || one.instrument === "") continue;
        // Readings of a table share their gauge.
        if (gauge?.name !== one.instrument) gauge = ask.instrument(one.instrument);
        const instrument = gauge;
        const low = instrument?.range?.low;
        const high = instrument?.range?.high;
        if (!instrument || (low ?? high)?.unit.dimension !== measure.unit.dimension) continue;
        const where = insideRange(measure, low, high);
        const end = where === "below" ? low : high;
        if (where === "inside" || !end) continue;
        const place = placeText(feature, one.path);
        report(
          spotOf(one),
          { place, measure, instrument: one.instrument, end, way: where },
          {
            place,
            related: [
              {
                ref: instrument.ref,
                spot: { at: 0 },
                says: `${one.instrument} measures ${instrument.range?.text ?? ""}`,
              },
            ],
          },
        );
      }
    }
  },
  say: ({ place, measure, instrument, end, way }) =>
    `${place} is ${textOf(measure)}, and ${instrument} measures ${way === "above" ? "up to" : "from"} ${boundText(end, measure.unit)}, so the reading cannot be its own. Name the instrument that was used, or measure again.`,
});
