import { routeSteps, stepOfBlock, stepsAfter } from "../../totals/route-steps.ts";
import { WORK } from "../limit-wording.ts";
import { onRoute } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly skipped: string;
  readonly step: string;
  readonly route: string;
  readonly block: string;
}

const SHOP = onRoute("inspect", "build after inspect", "close after build");
const entry = (name: string, day: string, step: string): string => `entry ${name} ${day} ${step} job J26-014\n`;

export default rule<(typeof WORK)[number], Found>({
  id: "route/step-skipped",
  severity: "error",
  on: WORK,
  reads: ["step"],
  page: {
    what: "A step was begun, and a step that the route puts before it has no work at all. A release wants every step of the route that does not come after it.",
    why: "The order of a route is there because one step covers up what another should have seen.",
    remedy:
      "Do the step, or record in it why there was nothing to do. An entry with the wrong step word shows up here too: correct the word.",
    faulty: [{ text: `${SHOP}${entry("E1", "2026-02-19", "inspect")}${entry("E2", "2026-02-27", "close")}` }],
    sound: [
      {
        text: `${SHOP}${entry("E1", "2026-02-19", "inspect")}${entry("E2", "2026-02-27", "build")}${entry("E3", "2026-02-28", "close")}`,
      },
    ],
  },
  check(block, ask, report) {
    if (block.job === "") return;
    const steps = ask.total(routeSteps, block.job);
    const step = stepOfBlock(steps, block.ref);
    // Said once, where the later step begins.
    if (!step || step.blocks[0]?.ref !== block.ref) return;
    const skipped = steps.steps.filter((one) => step.after.includes(one.name) && one.blocks.length === 0);
    if (block.kind === "release") {
      const after = stepsAfter(steps.steps, step.name);
      for (const one of steps.steps) {
        if (one.blocks.length > 0 || one.name === step.name || after.has(one.name) || skipped.includes(one)) continue;
        const told = steps.steps.some(
          (later) => later.name !== step.name && later.after.includes(one.name) && later.blocks.length > 0,
        );
        if (!told) skipped.push(one);
      }
    }
    for (const one of skipped) {
      report(
        { at: 0, role: block.kind === "entry" ? "step" : block.kind === "run" ? "name" : "job" },
        { skipped: one.name, step: step.name, route: steps.route, block: block.name },
        { related: [{ ref: steps.routeRef, spot: { at: one.at, role: "name" }, says: "The step that has no work" }] },
      );
    }
  },
  say: ({ skipped, step, route, block }) =>
    `Step ${step} was begun in ${block}, and step ${skipped}, which route ${route} puts before it, has no work. What it should have seen is covered up: do it, or record why there was nothing to do.`,
});
