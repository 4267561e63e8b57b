import { formatDate } from "../../quantity/civil-date.ts";
import { routeSteps, stepOfBlock } from "../../totals/route-steps.ts";
import { WORK } from "../limit-wording.ts";
import { onRoute } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly step: string;
  readonly began: string;
  readonly before: string;
  readonly beforeBegan: string;
  readonly beforeIn: string;
  readonly route: string;
}

const SHOP = onRoute("inspect", "build after inspect");
const shop = (inspect: string, build: string): string =>
  `${SHOP}entry E1 ${inspect} inspect job J26-014\nentry E2 ${build} build job J26-014\n`;

export default rule<(typeof WORK)[number], Found>({
  id: "route/out-of-order",
  severity: "warning",
  on: WORK,
  reads: ["step"],
  page: {
    what: "A step was begun on an earlier day than a step that the route puts before it. Going back to an earlier step later on is no fault.",
    why: "An inspection after the building up sees less than one before it. Often a date is wrong.",
    remedy: "Correct the date that is wrong, or have the order accepted with the reason.",
    faulty: [{ text: shop("2026-02-27", "2026-02-19") }],
    sound: [{ text: shop("2026-02-19", "2026-02-19") }],
  },
  check(block, ask, report) {
    if (block.job === "") return;
    const steps = ask.total(routeSteps, block.job);
    const step = stepOfBlock(steps, block.ref);
    const own = step?.blocks[0];
    if (!step || !own || own.ref !== block.ref || own.date === undefined) return;
    for (const before of steps.steps) {
      const first = before.blocks[0];
      // Within one day the order of files says nothing certain.
      if (!step.after.includes(before.name) || first?.date === undefined || first.date <= own.date) continue;
      report(
        { at: 0, role: "date" },
        {
          step: step.name,
          began: formatDate(own.date),
          before: before.name,
          beforeBegan: formatDate(first.date),
          beforeIn: first.ref.slice(first.ref.lastIndexOf("/") + 1),
          route: steps.route,
        },
        {
          related: [
            { ref: first.ref, spot: { at: 0, role: "date" }, says: `Where step ${before.name} begins` },
            { ref: steps.routeRef, spot: { at: step.at }, says: "The order of the route" },
          ],
        },
      );
    }
  },
  say: ({ step, began, before, beforeBegan, beforeIn, route }) =>
    `Step ${step} was begun on ${began}, before step ${before} (${beforeBegan}, ${beforeIn}), which route ${route} puts first. Correct the date that is wrong, or have the order accepted with its reason.`,
});
