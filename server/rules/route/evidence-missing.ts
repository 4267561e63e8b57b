import { mayBeUnread } from "../../totals/later-steps.ts";
import { stepEvidence } from "../../totals/route-progress.ts";
import { passedBy, routeSteps, stepOfBlock } from "../../totals/route-steps.ts";
import { few, WORK } from "../limit-wording.ts";
import { onRoute } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly step: string;
  readonly route: string;
  readonly missing: readonly string[];
  /** The block that closed the step behind it, or "". */
  readonly passed: string;
}

const SHOP = onRoute("close needs tool-count; wire-locking; sign fitter", "release after close");
const entry = (lines: string): string =>
  `entry E1 2026-04-15 close job J26-014\n${lines}  sign fitter ATH 2026-04-15\n`;

export default rule<(typeof WORK)[number], Found>({
  id: "route/evidence-missing",
  severity: "error",
  on: WORK,
  reads: ["step"],
  page: {
    what: "A step is signed, or the job went on past it, and a photo, check, task, table or run that the route asks of it is not there. A check counts from the first block of its step on, also where it was made in a later one; one found at fault counts once it is ok.",
    why: "The route asks for evidence so that nobody has to remember. It is work to do while the step is the last one; once a later step is signed, or the job is released, it is an error. Limits and torques that a step asks for have findings of their own.",
    remedy: "Do what is missing and record it, in an entry of the step or a later one.",
    faulty: [
      {
        text: `${SHOP}${entry("  check tool-count ok\n")}release 2026-04-20 J26-014 by CNO "Carried out"\n  sign certifier CNO 2026-04-20\n`,
      },
    ],
    sound: [{ text: `${SHOP}${entry("  check tool-count ok\n  check wire-locking ok\n")}` }],
  },
  check(block, ask, report) {
    if (block.job === "") return;
    const steps = ask.total(routeSteps, block.job);
    const step = stepOfBlock(steps, block.ref);
    if (!step) return;
    const signed = step.signed && step.lastSign !== undefined ? step.lastSign : undefined;
    // Said once: at the last signature of the step, or at its last block.
    if ((signed?.ref ?? step.blocks.at(-1)?.ref) !== block.ref) return;
    const passed = passedBy(steps, step.name, step.last);
    if (!signed && passed === "") return;
    const missing = ask.total(stepEvidence, block.job).find((one) => one.step === step.name)?.missing ?? [];
    if (missing.length === 0 || mayBeUnread(block.job, "", ["check", "done", "photo", "compression", "locked"], ask))
      return;
    report(
      signed
        ? { at: signed.at, role: "role" }
        : { at: 0, role: block.kind === "entry" || block.kind === "run" ? "name" : "job" },
      { step: step.name, route: steps.route, missing, passed: passed.slice(passed.lastIndexOf("/") + 1) },
      {
        severity: passed === "" ? "hint" : "error",
        related: [{ ref: steps.routeRef, spot: { at: step.at }, says: "What the step asks for" }],
      },
    );
  },
  say: ({ step, route, missing, passed }) =>
    passed === ""
      ? `Step ${step} of route ${route} is signed and still wants: ${few(missing)}. Record it while the work is open.`
      : `Step ${step} of route ${route} lacks ${few(missing)}, and the job went on with ${passed}. What was not shown is not known: do it and record it.`,
});
