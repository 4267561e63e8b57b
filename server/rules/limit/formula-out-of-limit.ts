import { placeText } from "../../facts/place.ts";
import { scopeOf } from "../../facts/refs.ts";
import { type ComputedFigure, figuresNotNew, figuresOut } from "../../totals/computed-limits.ts";
import { jobContext } from "../../totals/job-context.ts";
import { isNamedBy, workedLines } from "../../totals/limits-for.ts";
import { featuresIn } from "../../totals/readings-of-block.ts";
import { limitLine, sourceText, spotOf, textOf, WORK } from "../limit-wording.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly figure: ComputedFigure;
  readonly source: string;
  /** Step that builds to new limits, where only those are broken. */
  readonly step: string;
  readonly newText: string;
}

const SHOP = `engine-type Curlew-9
limits Curlew-9 revision C from 2025-11-01
  limit piston.fit[1..9] = greatest cylinder.bore - greatest piston.skirt new 0.105..0.142 mm wear max 0.230 mm ref "4-6"
engine C9-0412 Curlew-9
job J26-014 engine C9-0412 limits C
`;

export default rule<(typeof WORK)[number], Found>({
  id: "limit/formula-out-of-limit",
  severity: "error",
  on: WORK,
  reads: ["readings", "step"],
  page: {
    what: "A clearance or other figure that limits work out from readings lies outside its limit.",
    why: "Each part may be inside its own limits and the pair still be too loose or too tight. The figure is worked out exactly from the readings that speak now, so a clearance equal to its limit is inside it.",
    remedy:
      "Pair the parts otherwise, rework or replace one of them and measure again, or have a concession of the figure signed.",
    faulty: [
      {
        text: `${SHOP}entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.100 mm\n  measure piston.skirt[3] 97.869 mm\n`,
      },
    ],
    sound: [
      {
        text: `${SHOP}entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.100 mm\n  measure piston.skirt[3] 97.870 mm\n`,
      },
    ],
  },
  check(block, ask, report) {
    const scope = scopeOf(block);
    const context = ask.total(jobContext, scope);
    const limits = ask.limits(context.type, context.revision);
    if (!limits) return;
    const features = featuresIn(block.readings);
    const step = ask.route(context.route)?.steps.find((one) => one.name === block.step);
    for (const line of workedLines(limits).formulas) {
      if (!line.formula.some((term) => features.includes(term.place.feature))) continue;
      const isBuilt =
        step?.needs.some(
          (need) => need.kind === "limits" && need.which === "new" && isNamedBy(line.place.feature, need.features),
        ) ?? false;
      for (const figure of ask.total(isBuilt ? figuresNotNew : figuresOut, `${scope}|${line.at}`)) {
        if (figure.last.ref !== block.ref || !(figure.verdict === "out" || (isBuilt && figure.outsideNew))) continue;
        const parts = figure.parts.filter(
          (part) => part.ref !== figure.last.ref || part.at !== figure.last.at || part.cell !== figure.last.cell,
        );
        report(
          spotOf(figure.last),
          {
            figure,
            source: sourceText(limits, line.reference),
            step: figure.verdict === "out" ? "" : block.step,
            newText: line.newLimits?.text ?? "",
          },
          {
            place: placeText(figure.feature, figure.path),
            severity: figure.verdict === "out" ? "error" : "warning",
            related: [
              ...limitLine(limits, line),
              ...parts.slice(0, 2).map((part) => ({ ref: part.ref, spot: spotOf(part), says: part.place })),
            ],
          },
        );
      }
    }
  },
  say({ figure, source, step, newText }) {
    const place = placeText(figure.feature, figure.path);
    const is = `${place} is ${figure.text} (${figure.working})`;
    if (step !== "")
      return `${is}: inside its wear limits but not new, ${newText} (${source}). Step ${step} builds to new limits: pair or replace the parts, or accept it with the reason.`;
    const bound = figure.bound
      ? `${figure.excess} ${figure.end === "low" ? "under" : "over"} the ${figure.boundKind} of ${textOf(figure.bound)}`
      : "outside its limit";
    return `${is}, ${bound} (${source}), so the parts must not run together. Pair them otherwise, rework or replace one, and measure again.`;
  },
});
