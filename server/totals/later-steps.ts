/** Whether a job has gone past a step of its route: work that a step asks for is to do while the step is open, and missing once a later one is signed. */
import type { Ask, Total } from "../checking/ask.ts";
import type { Need, RouteStep } from "../facts/types.ts";
import { jobContext } from "./job-context.ts";

/** Key: scope. Names of the route's steps that have a signature, in order of the route. */
export const signedSteps: Total<readonly string[]> = {
  name: "signed-steps",
  compute(scope: string, ask: Ask): readonly string[] {
    const steps = ask.route(ask.total(jobContext, scope).route)?.steps ?? [];
    const signed = new Set(ask.facts(scope, "signs").map(({ block }) => block.step));
    return steps.map((step) => step.name).filter((name) => signed.has(name));
  },
};

export interface StepNeed<K extends Need["kind"]> {
  readonly step: RouteStep;
  readonly need: Extract<Need, { kind: K }>;
  /** Name of a later step that was signed, or "". */
  readonly passedBy: string;
}

/** The needs of one kind over the steps of a job's route. */
export function needsOf<K extends Need["kind"]>(scope: string, kind: K, ask: Ask): readonly StepNeed<K>[] {
  const steps = ask.route(ask.total(jobContext, scope).route)?.steps ?? [];
  const signed = ask.total(signedSteps, scope);
  return steps.flatMap((step, position) => {
    const passedBy = steps.slice(position + 1).find((later) => signed.includes(later.name))?.name ?? "";
    return step.needs.flatMap((need) =>
      need.kind === kind ? [{ step, need: need as Extract<Need, { kind: K }>, passedBy }] : [],
    );
  });
}

/** Key: `ref`. Words of lines of a block that could not be read; kept apart from the block, which changes with each of its lines. */
const unreadOfBlock: Total<readonly string[]> = {
  name: "unread-of-block",
  compute: (ref, ask) => ask.workBlock(ref)?.unread ?? [],
};

/** Key: scope. Lines that could not be read anywhere in the work of a job, as `step|word`. */
export const unreadInScope: Total<readonly string[]> = {
  name: "unread-in-scope",
  compute: (scope, ask) => {
    const found = ask
      .work(scope)
      .flatMap((head) => ask.total(unreadOfBlock, head.ref).map((word) => `${head.step}|${word}`));
    return [...new Set(found)].sort();
  },
};

/**
 * Whether a line with one of these words could not be read in the work of a job: what seems missing may stand there.
 * @param step only in the work of this step; `""` for all
 */
export function mayBeUnread(scope: string, step: string, words: readonly string[], ask: Ask): boolean {
  return ask.total(unreadInScope, scope).some((one) => {
    const bar = one.lastIndexOf("|");
    return (step === "" || one.slice(0, bar) === step) && words.includes(one.slice(bar + 1));
  });
}
