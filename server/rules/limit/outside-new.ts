import { placeText } from "../../facts/place.ts";
import type { Measure } from "../../quantity/compare.ts";
import { isNamedBy } from "../../totals/limits-for.ts";
import { lineOf, readingsOfBlock } from "../../totals/readings-of-block.ts";
import { ROUTED } from "../example-shops.ts";
import { limitLine, sourceText, spotOf, textOf, WORK } from "../limit-wording.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly place: string;
  readonly measure: Measure;
  readonly bounds: string;
  readonly source: string;
  /** The step that asks for new limits, or "" where a new part was fitted. */
  readonly step: string;
}

export default rule<(typeof WORK)[number], Found>({
  id: "limit/outside-new",
  severity: "warning",
  on: WORK,
  reads: ["readings", "step"],
  page: {
    what: "A reading is inside its wear limits but not inside the limits of a new part, where new limits are asked for.",
    why: "Wear limits say what may stay in an engine that is running. A step that builds to new limits, or a part just fitted as new, leaves no wear to run through until the next overhaul.",
    remedy: "Fit a part within the new limits, or accept the finding with the reason.",
    faulty: [
      { text: `${ROUTED}entry E1 2026-02-27 build job J26-014\n  measure cylinder.bore[3] 98.040 mm with BG-2\n` },
      {
        text: `${ROUTED}entry E1 2026-02-19 inspect job J26-014\n  fit "CB-1" serial "7" source "stock" at cylinder[3]\n  measure cylinder.bore[3] 98.040 mm with BG-2\n`,
      },
    ],
    sound: [
      {
        text: `${ROUTED}entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.040 mm with BG-2\nentry E2 2026-02-27 build job J26-014\n  measure cylinder.bore[4] 98.022 mm with BG-2\n`,
      },
    ],
  },
  check(block, ask, report) {
    for (const { feature, context, limits, readings, has } of readingsOfBlock(block, ask)) {
      if (!has.outsideNew) continue;
      const step = ask.route(context.route)?.steps.find((one) => one.name === block.step);
      const asked =
        step?.needs.some(
          (need) => need.kind === "limits" && need.which === "new" && isNamedBy(feature, need.features),
        ) ?? false;
      for (const one of readings) {
        if (
          !one.outsideNew ||
          one.verdict === "out" ||
          one.status === "superseded" ||
          !one.measure ||
          !(asked || one.onNewPart)
        )
          continue;
        const line = lineOf(limits, one);
        if (!line?.newLimits) continue;
        const place = placeText(feature, one.path);
        report(
          spotOf(one),
          {
            place,
            measure: one.measure,
            bounds: line.newLimits.text,
            source: sourceText(limits, line.reference),
            step: asked ? block.step : "",
          },
          { place, related: limitLine(limits, line) },
        );
      }
    }
  },
  say: ({ place, measure, bounds, source, step }) =>
    `${place} is ${textOf(measure)}: inside its wear limits but not new, ${bounds} (${source}). ${step === "" ? "A new part was fitted here, and it should measure as one." : `Step ${step} builds to new limits.`} Fit a part that does, or accept it with the reason.`,
});
