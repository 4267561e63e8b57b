/**
 * How far a job is along its route: for each step what it needs, what of it is there and what is missing, on which days it was done.
 *
 * Evidence (checks, tasks, tables) counts from the first block of its step on, also when it was given in a later one: a check made late is made. Of checks with one name
 * and place the last one counts. Limits count as measured wherever in the job they were; torques, when nothing took them away before the step ended.
 */
import type { Ask, Total } from "../checking/ask.ts";
import { pathsOf } from "../facts/place.ts";
import type { At, Need, RouteStep } from "../facts/types.ts";
import type { CivilDate } from "../quantity/civil-date.ts";
import { featureCoverage } from "./coverage.ts";
import { defectStates } from "./defect-states.ts";
import { jobContext } from "./job-context.ts";
import { isNamedBy } from "./limits-for.ts";
import { openings } from "./openings.ts";
import { orderOfWork } from "./place-events.ts";
import { historyKey } from "./place-history.ts";
import { routeSteps, type StepState } from "./route-steps.ts";
import { scheduleOf } from "./run-context.ts";

export interface NeedState {
  readonly kind: Need["kind"];
  /** As the route says it: `photo 4`, `sign inspector independent`, `leak-check`. */
  readonly text: string;
  readonly met: boolean;
  /** What is not there, in words; empty when met. */
  readonly missing: readonly string[];
}

export interface StepProgress {
  readonly name: string;
  readonly at: At;
  readonly after: readonly string[];
  readonly refs: readonly string[];
  /** Days on which it was worked on, in order. */
  readonly days: readonly CivilDate[];
  readonly started: boolean;
  readonly signed: boolean;
  /** Started, and every need met. */
  readonly done: boolean;
  readonly needs: readonly NeedState[];
}

export interface RouteProgress {
  readonly scope: string;
  readonly route: string;
  readonly routeRef: string;
  readonly steps: readonly StepProgress[];
  readonly stepsDone: number;
  /** Step that comes next: the first one not done whose predecessors are; `""` when all are done. */
  readonly next: string;
}

/** What the route writes for a need. */
export function needText(need: Need): string {
  switch (need.kind) {
    case "photo":
      return `photo ${need.count}`;
    case "limits":
      return `limits ${need.which} ${need.features.join(", ")}`;
    case "torque":
      return `torque ${need.features.length === 0 ? "all" : need.features.join(", ")}`;
    case "sign":
      return `sign ${need.role}${need.independent ? " independent" : ""}`;
    case "run-in":
      return `run-in ${need.type}`;
    case "no-open-defect":
      return "no open defect";
    case "evidence":
      return need.name;
  }
}

/** Tables and lines that serve as evidence by their own word. */
const BY_WORD = {
  compression: "compressions",
  locking: "locked",
  "crack-test": "crackTests",
  "oil-sample": "samples",
  magneto: "magnetos",
} as const;

/** What a step misses of one piece of evidence: nothing when it is there. */
function evidenceMissing(
  name: string,
  from: number,
  scope: string,
  order: ReadonlyMap<string, number>,
  ask: Ask,
): readonly string[] {
  const counts = (given: { readonly block: { readonly ref: string } }): boolean =>
    (order.get(given.block.ref) ?? 0) >= from;
  const last = new Map<string, boolean>();
  for (const one of ask.facts(scope, "checks"))
    if (one.fact.name === name && counts(one)) last.set(one.fact.place?.text ?? "", one.fact.ok);
  if (last.size > 0) {
    const faults = [...last].filter(([, ok]) => !ok).map(([place]) => (place === "" ? name : `${name} ${place}`));
    return faults.map((fault) => `${fault} (found at fault, not yet ok)`);
  }
  if (ask.facts(scope, "done").some((one) => one.fact.task === name && counts(one))) return [];
  const member = Object.hasOwn(BY_WORD, name) ? BY_WORD[name as keyof typeof BY_WORD] : undefined;
  if (member && ask.facts(scope, member).some((one: { readonly block: { readonly ref: string } }) => counts(one)))
    return [];
  return [name];
}

function photosMissing(count: number, step: StepState, isFirst: boolean, scope: string, ask: Ask): readonly string[] {
  const refs = new Set(step.blocks.map((block) => block.ref));
  // Pictures with the order itself count for the first step, where the engine comes in.
  const given =
    ask.facts(scope, "photos").filter((one) => refs.has(one.block.ref)).length +
    (isFirst ? (ask.job(scope)?.photos.length ?? 0) : 0);
  return given >= count ? [] : [`${count - given} of ${count} photos`];
}

function runInMissing(name: string, scope: string, ask: Ask): readonly string[] {
  for (const head of ask.work(scope)) {
    if (head.kind !== "run") continue;
    const run = ask.workBlock(head.ref);
    const schedule = run && scheduleOf(ask, run);
    if (schedule && (schedule.name === name || schedule.block?.name === name || schedule.block?.type === name))
      return [];
  }
  return [`a run on schedule ${name}`];
}

/** Needs that stand in the steps' own lines: photos, checks, tasks, tables, a run on the schedule. */
const EVIDENCE: ReadonlySet<Need["kind"]> = new Set(["photo", "evidence", "run-in"]);

export interface StepEvidence {
  readonly step: string;
  readonly missing: readonly string[];
}

function missingOf(
  need: Need,
  step: StepState,
  isFirst: boolean,
  scope: string,
  order: ReadonlyMap<string, number>,
  ask: Ask,
): readonly string[] {
  switch (need.kind) {
    case "photo":
      return photosMissing(need.count, step, isFirst, scope, ask);
    case "run-in":
      return runInMissing(need.type, scope, ask);
    case "evidence":
      return evidenceMissing(need.name, step.first < 0 ? Number.POSITIVE_INFINITY : step.first, scope, order, ask);
    default:
      return [];
  }
}

/** Key: a job's name. For each step that was begun, what of its photos, checks, tasks, tables and runs is missing. */
export const stepEvidence: Total<readonly StepEvidence[]> = {
  name: "step-evidence",
  compute(scope: string, ask: Ask): readonly StepEvidence[] {
    const { route: name, steps } = ask.total(routeSteps, scope);
    const route = name === "" ? undefined : ask.route(name);
    if (!route) return [];
    const order = orderOfWork(scope, ask);
    return steps.flatMap((step, i) => {
      if (step.first < 0) return [];
      const asked = route.steps[i]?.needs.filter((need) => EVIDENCE.has(need.kind)) ?? [];
      return [{ step: step.name, missing: asked.flatMap((need) => missingOf(need, step, i === 0, scope, order, ask)) }];
    });
  },
};

/** Key: `scope|feature`. When each fastener was last torqued: position of the block, line. */
export const lastTorques: Total<ReadonlyMap<string, readonly [order: number, at: At]>> = {
  name: "last-torques",
  compute(key: string, ask: Ask) {
    const bar = key.indexOf("|");
    const scope = key.slice(0, bar);
    const order = orderOfWork(scope, ask);
    const last = new Map<string, readonly [number, At]>();
    for (const { block, fact } of ask.torques(scope, key.slice(bar + 1))) {
      for (const path of pathsOf(fact.place)) last.set(path, [order.get(block.ref) ?? 0, fact.at]);
    }
    return last;
  },
};

function torquesMissing(features: readonly string[], step: StepState, scope: string, ask: Ask): readonly string[] {
  const { type, revision } = ask.total(jobContext, scope);
  const counts = new Map<string, number>();
  const opened = ask
    .total(openings, scope)
    .map((one) => ({ what: one.what, order: one.opened.order, at: one.opened.at }));
  const end = step.last < 0 ? Number.POSITIVE_INFINITY : step.last;
  for (const limit of ask.limits(type, revision)?.torques ?? []) {
    const { feature } = limit.place;
    if (features.length > 0 && !isNamedBy(feature, features)) continue;
    const last = ask.total(lastTorques, historyKey(scope, feature));
    const disturbed = opened.findLast(
      (one) => (feature === one.what || feature.startsWith(`${one.what}.`)) && one.order <= end,
    );
    for (const path of pathsOf(limit.place)) {
      let torque = last.get(path);
      for (let prefix = path; !torque && prefix !== ""; torque = last.get(prefix))
        prefix = prefix.slice(0, Math.max(0, prefix.lastIndexOf("/")));
      const counted =
        torque &&
        !(disturbed && (torque[0] < disturbed.order || (torque[0] === disturbed.order && torque[1] < disturbed.at)));
      if (!counted) counts.set(feature, (counts.get(feature) ?? 0) + 1);
    }
  }
  return [...counts].map(([feature, count]) => `${count} of ${feature}`);
}

function limitsMissing(features: readonly string[], scope: string, ask: Ask): readonly string[] {
  const { type, revision } = ask.total(jobContext, scope);
  const named = new Set(
    (ask.limits(type, revision)?.limits ?? [])
      .filter((line) => line.stat === "value" && line.formula.length === 0)
      .map((line) => line.place.feature),
  );
  const missing: string[] = [];
  for (const feature of named) {
    if (!isNamedBy(feature, features)) continue;
    const open = ask
      .total(featureCoverage, historyKey(scope, feature))
      .reduce((sum, line) => sum + line.missing.length + line.todo.length, 0);
    if (open > 0) missing.push(`${open} of ${feature}`);
  }
  return missing;
}

function signsMissing(need: Extract<Need, { kind: "sign" }>, step: StepState): readonly string[] {
  if (step.blocks.length === 0) return [need.role];
  return step.blocks.flatMap((block) =>
    block.missing.some((one) => one.roles.includes(need.role) && one.independent === need.independent)
      ? [`${need.role} in ${block.ref}`]
      : [],
  );
}

function progressOf(
  step: StepState,
  line: RouteStep,
  isFirst: boolean,
  scope: string,
  order: ReadonlyMap<string, number>,
  ask: Ask,
): StepProgress {
  const states = line.needs.map((need): NeedState => {
    let missing: readonly string[];
    switch (need.kind) {
      case "sign":
        missing = signsMissing(need, step);
        break;
      case "torque":
        missing = torquesMissing(need.features, step, scope, ask);
        break;
      case "limits":
        missing = limitsMissing(need.features, scope, ask);
        break;
      case "no-open-defect":
        missing = ask
          .total(defectStates, scope)
          .filter((defect) => defect.standing === "open")
          .map((defect) => `defect ${defect.name}`);
        break;
      default:
        missing = missingOf(need, step, isFirst, scope, order, ask);
    }
    return { kind: need.kind, text: needText(need), met: missing.length === 0, missing };
  });
  const days = [...new Set(step.blocks.map((block) => block.date).filter((date) => date !== undefined))];
  const started = step.first >= 0;
  return {
    name: step.name,
    at: step.at,
    after: step.after,
    refs: step.blocks.map((block) => block.ref),
    days,
    started,
    signed: step.signed,
    done: started && states.every((need) => need.met),
    needs: states,
  };
}

/** Key: a job's name. */
export const routeProgress: Total<RouteProgress> = {
  name: "route-progress",
  compute(scope: string, ask: Ask): RouteProgress {
    const { route: name, routeRef, steps } = ask.total(routeSteps, scope);
    const route = name === "" ? undefined : ask.route(name);
    const order: ReadonlyMap<string, number> = route ? orderOfWork(scope, ask) : new Map<string, number>();
    const progress = steps.flatMap((step, i) => {
      const line = route?.steps[i];
      return line ? [progressOf(step, line, i === 0, scope, order, ask)] : [];
    });
    const done = new Set(progress.filter((step) => step.done).map((step) => step.name));
    const known = new Set(progress.map((step) => step.name));
    const next = progress.find(
      (step) => !step.done && step.after.every((before) => done.has(before) || !known.has(before)),
    );
    return { scope, route: name, routeRef, steps: progress, stepsDone: done.size, next: next?.name ?? "" };
  },
};
