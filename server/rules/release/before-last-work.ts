import { formatDate } from "../../quantity/civil-date.ts";
import { positionOfRelease, routeSteps, stepOfBlock, stepsAfter } from "../../totals/route-steps.ts";
import { few } from "../limit-wording.ts";
import { JOB, RELEASE } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly on: string;
  readonly later: readonly string[];
}

/** Steps that follow a release where the route does not say so. */
const AFTERWARDS: ReadonlySet<string> = new Set(["pack", "preserve", "preservation", "store", "storage", "dispatch"]);

const later = (step: string): string => `${JOB}${RELEASE}entry E9 2026-04-21 ${step} job J26-014\n`;

export default rule<"release", Found>({
  id: "release/before-last-work",
  severity: "error",
  on: ["release"],
  page: {
    what: "Work of the job is dated after its release. Steps that the route puts after the release, packing and storing, and the dispatch do not count.",
    why: "A release speaks of the engine as it was on that day. What was done to it afterwards nobody released.",
    remedy:
      "Release it again after the last work, or correct the date that is wrong. Of several releases of a job the last one is judged.",
    faulty: [{ text: later("close") }],
    sound: [{ text: later("pack") }],
  },
  check(block, ask, report) {
    const { date } = block;
    if (date === undefined) return;
    const steps = ask.total(routeSteps, block.job);
    const after = stepsAfter(steps.steps, stepOfBlock(steps, block.ref)?.name ?? "release");
    if (positionOfRelease(block, ask) < 0) return;
    const found = ask.work(block.job).filter((head) => {
      if (head.kind === "release" || head.kind === "dispatch" || head.date === undefined || head.date <= date)
        return false;
      return !after.has(stepOfBlock(steps, head.ref)?.name ?? head.step) && !AFTERWARDS.has(head.step);
    });
    if (found.length === 0) return;
    report(
      { at: 0, role: "date" },
      { on: formatDate(date), later: found.map((head) => `${head.name} of ${formatDate(head.date ?? date)}`) },
      {
        related: found
          .slice(0, 6)
          .map((head) => ({ ref: head.ref, spot: { at: 0, role: "date" }, says: "Work after the release" })),
      },
    );
  },
  say: ({ on, later: found }) =>
    `The job was released on ${on}, before ${few(found)}. Nobody released what was done afterwards: release it again, or correct the date.`,
});
