import { placeText } from "../../facts/place.ts";
import { scopeOf } from "../../facts/refs.ts";
import { type ComputedFigure, figuresOut } from "../../totals/computed-limits.ts";
import { jobContext } from "../../totals/job-context.ts";
import { workedLines } from "../../totals/limits-for.ts";
import { featuresIn } from "../../totals/readings-of-block.ts";
import { limitLine, sourceText, spotOf, textOf, WORK } from "../limit-wording.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly figure: ComputedFigure;
  readonly stat: string;
  readonly source: string;
}

const SHOP = `engine-type Curlew-9
limits Curlew-9 revision C from 2025-11-01
  limit cylinder.bore[1..9] wear max 98.070 mm
  limit taper cylinder.bore wear max 0.030 mm ref "4-3"
engine C9-0412 Curlew-9
job J26-014 engine C9-0412 limits C
`;

export default rule<(typeof WORK)[number], Found>({
  id: "limit/statistic-out-of-limit",
  severity: "error",
  on: WORK,
  reads: ["readings"],
  page: {
    what: "The taper, out-of-round, mean or spread of a set of readings lies outside its limit.",
    why: "A bore can be inside its limit at every place and still be so tapered that the rings cannot follow it. Taper runs along one axis over the levels, out-of-round across the axes of one level, spread over all places that the limit names.",
    remedy: "Rework or replace the part and measure again, or have a concession signed.",
    faulty: [
      {
        text: `${SHOP}entry E1 2026-02-19 inspect job J26-014\n  grid cylinder.bore/mm head.thrust head.axial skirt.thrust skirt.axial\n  3 98.012 98.010 98.043 98.020\n`,
      },
    ],
    sound: [
      {
        text: `${SHOP}entry E1 2026-02-19 inspect job J26-014\n  grid cylinder.bore/mm head.thrust head.axial skirt.thrust skirt.axial\n  3 98.012 98.010 98.042 98.020\n`,
      },
    ],
  },
  check(block, ask, report) {
    const scope = scopeOf(block);
    const context = ask.total(jobContext, scope);
    const limits = ask.limits(context.type, context.revision);
    if (!limits) return;
    const features = featuresIn(block.readings);
    for (const line of workedLines(limits).statistics) {
      if (!features.includes(line.place.feature)) continue;
      const figures = ask.total(figuresOut, `${scope}|${line.at}`).filter((one) => one.last.ref === block.ref);
      if (figures.length === 0) continue;
      // Of the axes or levels of one part only the worst is said.
      const said = new Set<string>();
      for (const figure of [...figures].sort((a, b) => Number.parseFloat(b.excess) - Number.parseFloat(a.excess))) {
        if (said.has(figure.path)) continue;
        said.add(figure.path);
        report(
          spotOf(figure.last),
          { figure, stat: line.stat, source: sourceText(limits, line.reference) },
          { place: placeText(figure.feature, figure.path), related: limitLine(limits, line) },
        );
      }
    }
  },
  say({ figure, stat, source }) {
    const bound = figure.bound
      ? `${figure.excess} ${figure.end === "low" ? "under" : "over"} the ${figure.boundKind} of ${textOf(figure.bound)}`
      : "outside its limit";
    return `The ${stat} of ${placeText(figure.feature, figure.path)} is ${figure.text} (${figure.working}), ${bound} (${source}), so it must not be released as it is. Rework or replace the part and measure again.`;
  },
});
