import { placeText } from "../../facts/place.ts";
import { compareMeasures, type Measure } from "../../quantity/compare.ts";
import { serviceEnds } from "../../totals/limits-for.ts";
import { lineOf, readingsOfBlock } from "../../totals/readings-of-block.ts";
import { BORES } from "../example-shops.ts";
import { apart, boundText, limitLine, sourceText, spotOf, textOf, WORK } from "../limit-wording.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly place: string;
  readonly measure: Measure;
  readonly bound: Measure;
  readonly limit: string;
  readonly source: string;
  readonly instrument: string;
  readonly uncertainty: string;
  /** `<0.02`: a bound, not a figure. */
  readonly isBound: boolean;
}

export default rule<(typeof WORK)[number], Found>({
  id: "limit/not-proven",
  severity: "warning",
  on: WORK,
  reads: ["readings"],
  page: {
    what: "A reading is inside its limit by less than the uncertainty of the gauge that took it.",
    why: "The part may as well be outside: the gauge cannot tell. ISO 14253-1 counts a part as proven only when the reading and its whole uncertainty lie inside the limit. A shop that decides by the bare figure says `decision simple`.",
    remedy: "Measure with a finer gauge, or accept the finding with the reason.",
    faulty: [
      { text: `${BORES}entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.068 mm with BG-2\n` },
    ],
    sound: [
      { text: `${BORES}entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.067 mm with BG-2\n` },
      {
        text: `shop "Saltmarsh Engine Works"\n  decision simple\n${BORES}entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.068 mm with BG-2\n`,
      },
    ],
  },
  check(block, ask, report) {
    for (const { feature, limits, readings, has } of readingsOfBlock(block, ask)) {
      if (!has.notProven) continue;
      for (const one of readings) {
        if (!one.notProven || one.status === "superseded" || !one.measure || !one.bound) continue;
        const line = lineOf(limits, one);
        if (!line) continue;
        const place = placeText(feature, one.path);
        const gauge = one.instrument === "" ? undefined : ask.instrument(one.instrument);
        report(
          spotOf(one),
          {
            place,
            measure: one.measure,
            bound: one.bound,
            limit: serviceEnds(line)?.kind ?? "limit",
            source: sourceText(limits, line.reference),
            instrument: one.instrument,
            uncertainty: gauge?.uncertainty ? textOf(gauge.uncertainty) : "",
            isBound: one.result === "below",
          },
          {
            place,
            related: [
              ...limitLine(limits, line),
              ...(gauge
                ? [
                    {
                      ref: gauge.ref,
                      spot: { at: 0 },
                      says: `${one.instrument}, uncertain by ${gauge.uncertainty ? textOf(gauge.uncertainty) : "an unknown amount"}`,
                    },
                  ]
                : []),
            ],
          },
        );
      }
    }
  },
  say: ({ place, measure, bound, limit, source, instrument, uncertainty, isBound }) =>
    isBound
      ? `${place} is below ${textOf(measure)}, which does not show that it keeps the ${limit} of ${boundText(bound, measure.unit)} (${source}). Measure it, or accept it with the reason.`
      : `${place} is ${textOf(measure)}, ${compareMeasures(measure, bound) === 0 ? "exactly at" : `${apart(measure, bound)} inside`} the ${limit} of ${boundText(bound, measure.unit)} (${source}), and ${instrument} is uncertain by ${uncertainty}, so it is not proven (ISO 14253-1). Measure with a finer gauge, or accept it with the reason.`,
});
