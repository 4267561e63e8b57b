import { show } from "../../calc/figures.ts";
import { leastRatio, uncertaintyRatio } from "../../calc/uncertainty-ratio.ts";
import { placeText } from "../../facts/place.ts";
import { convertNumber, type Measure } from "../../quantity/compare.ts";
import { serviceEnds } from "../../totals/limits-for.ts";
import { uncertaintyAt } from "../../totals/reading-verdict.ts";
import { lineOf, readingsOfBlock } from "../../totals/readings-of-block.ts";
import { limitLine, sourceText, spotOf, textOf, WORK } from "../limit-wording.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly place: string;
  readonly instrument: string;
  /** What the ratio is worked out from: the uncertainty, or the resolution where none is stated. */
  readonly by: "uncertainty" | "resolution";
  readonly figure: Measure;
  readonly span: string;
  readonly ratio: number;
  readonly source: string;
}

const SHOP = `engine-type Curlew-9
limits Curlew-9 revision C from 2025-11-01
  limit tappet.bore[1..9] 18.000..18.020 mm ref "5-1"
instrument BG-9 "Bore gauge"
  uncertainty 0.0025 mm
  calibrated 2026-01-10 until 2027-01-10
engine C9-0412 Curlew-9
job J26-014 engine C9-0412 limits C
entry E1 2026-02-19 inspect job J26-014
  measure tappet.bore[1] 18.010 mm with BG-9
`;

export default rule<(typeof WORK)[number], Found>({
  id: "instrument/too-coarse",
  severity: "information",
  on: WORK,
  reads: ["readings"],
  page: {
    what: "The instrument is coarse for the tolerance: the span of the limits is less than four times the band of its uncertainty.",
    why: "Below four to one much of the tolerance is taken up by doubt; below one to one no reading can prove anything. Ratio: span of the limits over twice the expanded uncertainty (ANSI/NCSL Z540.3, as restated by secondary pages), or over twice the resolution where no uncertainty is stated.",
    remedy: "Use a finer instrument for this feature.",
    faulty: [{ text: SHOP.replace("0.0025", "0.0026") }],
    sound: [{ text: SHOP }],
  },
  check(block, ask, report) {
    for (const { feature, limits, readings } of readingsOfBlock(block, ask)) {
      const said = new Set<string>();
      let lastGauge = "";
      let lastLimit = -2;
      for (const one of readings) {
        const { measure } = one;
        if (one.result !== "value" || one.status === "superseded" || !measure || one.instrument === "") continue;
        // Readings of a table share gauge and limit.
        if (one.instrument === lastGauge && one.limitAt === lastLimit) continue;
        lastGauge = one.instrument;
        lastLimit = one.limitAt;
        const key = `${one.instrument}|${one.limitAt}`;
        if (said.has(key)) continue;
        said.add(key);
        const line = lineOf(limits, one);
        const ends = line && serviceEnds(line);
        const gauge = ask.instrument(one.instrument);
        if (
          !gauge ||
          !ends?.low ||
          !ends.high ||
          ends.low.unit.dimension !== measure.unit.dimension ||
          ends.high.unit.dimension !== measure.unit.dimension
        )
          continue;
        const stated = uncertaintyAt(gauge, measure);
        const step =
          gauge.resolution?.unit.dimension === measure.unit.dimension
            ? convertNumber(gauge.resolution.value, gauge.resolution.unit, measure.unit)
            : undefined;
        const figure = stated === undefined ? gauge.resolution : gauge.uncertainty;
        const band = stated ?? step;
        if (band === undefined || !figure) continue;
        const low = convertNumber(ends.low.value, ends.low.unit, measure.unit);
        const high = convertNumber(ends.high.value, ends.high.unit, measure.unit);
        // Nearly every gauge is far fine enough: only one that is near it or coarser is worked out with settled figures.
        if (high - low > 2 * band * leastRatio * (1 + 1e-6) + 1e-6) continue;
        const worked = uncertaintyRatio(low, high, band);
        if (!worked.ok || worked.enough) continue;
        const place = placeText(feature, one.path);
        report(
          spotOf(one),
          {
            place,
            instrument: one.instrument,
            by: stated === undefined ? "resolution" : "uncertainty",
            figure,
            span: `${show(high - low, 4)} ${measure.unit.spelling}`,
            ratio: worked.ratio,
            source: line ? sourceText(limits, line.reference) : "",
          },
          {
            place: feature,
            severity: worked.ratio < 1 ? "warning" : "information",
            related: [
              ...(line ? limitLine(limits, line) : []),
              { ref: gauge.ref, spot: { at: 0 }, says: one.instrument },
            ],
          },
        );
      }
    }
  },
  say: ({ place, instrument, by, figure, span, ratio, source }) =>
    `${instrument} has ${by === "uncertainty" ? "an uncertainty" : "a resolution"} of ${textOf(figure)}, and the limits of ${place} span ${span} (${source}): ${show(ratio, 3)} to 1, where ${leastRatio} to 1 is wanted. ${ratio < 1 ? "No reading with it can prove anything; use a finer one." : "Use a finer instrument where there is one."}`,
});
