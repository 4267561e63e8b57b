/**
 * The steps of a job's route: which blocks of work serve each, in which order, and whose signatures each still wants.
 *
 * Entries name their step. Runs serve the step `stand`, releases `release`, dispatches `pack`; where a route has no step of that name, runs serve the step that
 * needs a run-in, or `run`, releases the one that needs `no open defect`, and dispatches `dispatch`.
 *
 * A signature covers the block in which it stands and no other. So each block of a step wants one of the roles that do the work, and every role that the
 * route marks `independent`: a second pair of eyes looks at each sheet. A role that does the work and is asked for along with others must be found at
 * least once in the step (stores and fitter both sign a receipt, though not each sheet of it). Common practice, no source.
 */
import type { Ask, Total, WorkHead } from "../checking/ask.ts";
import type { At, Need, RouteBlock, RouteStep, WorkBlock } from "../facts/types.ts";
import type { CivilDate } from "../quantity/civil-date.ts";
import { jobContext } from "./job-context.ts";

export interface StepBlock {
  readonly ref: string;
  readonly kind: WorkHead["kind"];
  readonly date: CivilDate | undefined;
  /** Position among the job's blocks of work. */
  readonly order: number;
  readonly signed: boolean;
  /** Roles that are to sign this block and have not. */
  readonly missing: readonly MissingRole[];
}

export interface MissingRole {
  /** Any one of these serves. */
  readonly roles: readonly string[];
  readonly independent: boolean;
}

export interface StepState {
  readonly name: string;
  /** Line of the step in the route. */
  readonly at: At;
  readonly after: readonly string[];
  readonly blocks: readonly StepBlock[];
  /** Position of the first and last block; -1 while nothing was done. */
  readonly first: number;
  readonly last: number;
  /** Every signature that the step asks for is there. False while nothing was done. */
  readonly signed: boolean;
  /** The last signature of the step. */
  readonly lastSign: { readonly ref: string; readonly at: At; readonly order: number } | undefined;
}

export interface RouteSteps {
  readonly scope: string;
  /** `""` where the job names no route that is known. */
  readonly route: string;
  readonly routeRef: string;
  readonly steps: readonly StepState[];
  /** The last release of the job, which takes the place of earlier ones, and the first dispatch. */
  readonly release: { readonly ref: string; readonly order: number; readonly date: CivilDate | undefined } | undefined;
  readonly dispatch: { readonly ref: string; readonly order: number; readonly date: CivilDate | undefined } | undefined;
}

const needs = (step: RouteStep, kind: Need["kind"]): boolean => step.needs.some((need) => need.kind === kind);

/** The step of the route that a block of work serves; `""` where the route has none. */
export function stepNameOf(
  head: Pick<WorkHead, "kind" | "step">,
  route: Pick<RouteBlock, "steps"> | undefined,
): string {
  const steps = route?.steps ?? [];
  if (steps.some((step) => step.name === head.step)) return head.step;
  const other = (name: string, kind: Need["kind"] | undefined): string =>
    (steps.find((step) => step.name === name) ?? (kind && steps.find((step) => needs(step, kind))))?.name ?? "";
  if (head.kind === "run") return other("run", "run-in");
  if (head.kind === "release") return other("release", "no-open-defect");
  return head.kind === "dispatch" ? other("dispatch", undefined) : "";
}

/** The steps that come after one, directly or through others. */
export function stepsAfter(steps: readonly Pick<StepState, "name" | "after">[], name: string): ReadonlySet<string> {
  const found = new Set<string>();
  let grew = true;
  while (grew) {
    grew = false;
    for (const step of steps) {
      if (!found.has(step.name) && step.after.some((before) => before === name || found.has(before))) {
        found.add(step.name);
        grew = true;
      }
    }
  }
  return found;
}

interface Signed {
  readonly role: string;
  readonly at: At;
}

function missingIn(roles: readonly Extract<Need, { kind: "sign" }>[], signs: readonly Signed[]): MissingRole[] {
  const missing: MissingRole[] = [];
  const has = (role: string): boolean => signs.some((sign) => sign.role === role);
  const doers = roles.filter((need) => !need.independent).map((need) => need.role);
  if (doers.length > 0 && !doers.some(has)) missing.push({ roles: doers, independent: false });
  for (const need of roles)
    if (need.independent && !has(need.role)) missing.push({ roles: [need.role], independent: true });
  return missing;
}

function stateOf(
  step: RouteStep,
  heads: readonly { readonly head: WorkHead; readonly order: number }[],
  signsOf: (ref: string) => readonly Signed[],
): StepState {
  const roles = step.needs.filter((need) => need.kind === "sign");
  let lastSign: StepState["lastSign"];
  const blocks = heads.map(({ head, order }): StepBlock => {
    const signs = signsOf(head.ref);
    for (const { at } of signs) lastSign = { ref: head.ref, at, order };
    return {
      ref: head.ref,
      kind: head.kind,
      date: head.date,
      order,
      signed: signs.length > 0,
      missing: missingIn(roles, signs),
    };
  });
  const final = blocks.at(-1);
  if (final) {
    // A role that nobody signed in anywhere in the step is asked for in its last block.
    const everywhere = new Set(heads.flatMap(({ head }) => signsOf(head.ref).map((sign) => sign.role)));
    const wanted = roles.filter((need) => !need.independent && !everywhere.has(need.role)).map((need) => need.role);
    const kept = final.missing.filter((one) => one.independent);
    const none = final.missing.filter((one) => !one.independent && !wanted.some((role) => one.roles.includes(role)));
    blocks[blocks.length - 1] = {
      ...final,
      missing: [...none, ...wanted.map((role) => ({ roles: [role], independent: false })), ...kept],
    };
  }
  return {
    name: step.name,
    at: step.at,
    after: step.after,
    blocks,
    first: blocks[0]?.order ?? -1,
    last: final?.order ?? -1,
    signed: blocks.length > 0 && blocks.every((block) => block.missing.length === 0),
    lastSign,
  };
}

/** Key: a job's name. Work in service has no route and is answered with no steps. */
export const routeSteps: Total<RouteSteps> = {
  name: "route-steps",
  compute(scope: string, ask: Ask): RouteSteps {
    const name = ask.total(jobContext, scope).route;
    const route = name === "" ? undefined : ask.route(name);
    const byStep = new Map<string, { head: WorkHead; order: number }[]>();
    let release: RouteSteps["release"];
    let dispatch: RouteSteps["dispatch"];
    for (const [order, head] of ask.work(scope).entries()) {
      if (head.kind === "release") release = { ref: head.ref, order, date: head.date };
      if (head.kind === "dispatch") dispatch ??= { ref: head.ref, order, date: head.date };
      const step = stepNameOf(head, route);
      const list = byStep.get(step);
      if (list) list.push({ head, order });
      else byStep.set(step, [{ head, order }]);
    }
    const signs = new Map<string, Signed[]>();
    if (route) {
      for (const { block, fact } of ask.facts(scope, "signs")) {
        const list = signs.get(block.ref);
        if (list) list.push({ role: fact.role, at: fact.at });
        else signs.set(block.ref, [{ role: fact.role, at: fact.at }]);
      }
    }
    return {
      scope,
      route: route ? name : "",
      routeRef: route?.ref ?? "",
      release,
      dispatch,
      steps: (route?.steps ?? []).map((step) =>
        stateOf(step, byStep.get(step.name) ?? [], (ref) => signs.get(ref) ?? []),
      ),
    };
  },
};

/** The step to which a block belongs. */
export function stepOfBlock(steps: RouteSteps, ref: string): StepState | undefined {
  return steps.steps.find((step) => step.blocks.some((block) => block.ref === ref));
}

/**
 * What closed the door behind a block: a later block of another step that is signed, the release or the dispatch. Until then what a block still wants is
 * work to do; afterwards it is missing.
 * @param order position of the block
 */
export function passedBy(steps: RouteSteps, own: string, order: number): string {
  for (const door of [steps.release, steps.dispatch]) if (door && door.order > order) return door.ref;
  for (const step of steps.steps) {
    if (step.name === own) continue;
    const later = step.blocks.find((block) => block.order > order && block.signed);
    if (later) return later.ref;
  }
  return "";
}

/**
 * The position of a release among the blocks of work of its job, where it is the one that speaks: a job that was released again is judged by its last
 * release. Blocks of one job share the name `release`, so their days tell them apart.
 *
 * @returns -1 for a release that a later one took the place of
 */
export function positionOfRelease(block: Pick<WorkBlock, "job" | "date">, ask: Ask): number {
  const work = ask.work(block.job);
  const last = work.findLastIndex((head) => head.kind === "release");
  return work[last]?.date === block.date ? last : -1;
}
