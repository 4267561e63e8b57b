import { show } from "./figures.ts";
import type { Result, Worked } from "./result.ts";
import { answer, refuse } from "./result.ts";

/** One pass over all fasteners: to a torque between limits, or through an angle between limits. */
export type TighteningStage =
  | { readonly by: "torque"; readonly low_Nm: number; readonly high_Nm: number }
  | { readonly by: "angle"; readonly low_deg: number; readonly high_deg: number };

export interface TighteningPlan {
  /** Fasteners in the order in which every stage takes them. */
  readonly order: readonly string[];
  readonly stages: readonly TighteningStage[];
}

/** One tightening as recorded, in the order in which it was done. Stages count from 1. */
export interface TighteningStep {
  readonly stage: number;
  readonly fastener: string;
  readonly torque_Nm?: number | undefined;
  readonly angle_deg?: number | undefined;
}

export type TighteningFault =
  | "unknown fastener"
  | "unknown stage"
  | "done twice"
  | "out of order"
  | "stage begun early"
  | "wrong measure"
  | "below its stage"
  | "above its stage"
  | "missing";

export interface TighteningFinding {
  readonly fault: TighteningFault;
  readonly stage: number;
  readonly fastener: string;
  /** Index into the recorded steps; undefined for a missing one. */
  readonly step: number | undefined;
  readonly says: string;
}

export interface TighteningCheck extends Worked {
  readonly complete: boolean;
  readonly findings: readonly TighteningFinding[];
}

function measureFault(stage: TighteningStage, done: TighteningStep): [TighteningFault, string] | undefined {
  const [value, low, high, unit] =
    stage.by === "torque"
      ? [done.torque_Nm, stage.low_Nm, stage.high_Nm, "N.m"]
      : [done.angle_deg, stage.low_deg, stage.high_deg, "deg"];
  if (value === undefined || !Number.isFinite(value))
    return ["wrong measure", `needs ${stage.by === "torque" ? "a torque" : "an angle"}`];
  if (value < low) return ["below its stage", `has ${show(value)} ${unit}, below ${show(low)}..${show(high)} ${unit}`];
  if (value > high) return ["above its stage", `has ${show(value)} ${unit}, above ${show(low)}..${show(high)} ${unit}`];
  return undefined;
}

/**
 * A recorded tightening held against its plan: every fastener in every stage, in order, within its limits.
 *
 * A stage begins early when its first fastener is turned before the stage before it is done. A fastener is out of order
 * when one that the plan takes later in the same stage was already done.
 * @param plan order of the fasteners and the stages, at least one of each, no fastener twice, limits not crossed
 * @param done what was recorded, in the order in which it was done
 * @returns refused when the plan itself is faulty; otherwise the findings, none when the record fulfils the plan
 * Source: common practice, no source; the plan is the engine maker's.
 */
export function checkTightening(plan: TighteningPlan, done: readonly TighteningStep[]): Result<TighteningCheck> {
  if (plan.order.length === 0 || plan.stages.length === 0) return refuse("The plan has no fasteners or no stages.");
  const place = new Map(plan.order.map((fastener, index) => [fastener, index] as const));
  if (place.size !== plan.order.length) return refuse("The plan names a fastener twice in its order.");
  for (const [index, stage] of plan.stages.entries()) {
    const [low, high] = stage.by === "torque" ? [stage.low_Nm, stage.high_Nm] : [stage.low_deg, stage.high_deg];
    if (!(low > 0) || !(high >= low) || !Number.isFinite(high)) {
      return refuse(`Stage ${index + 1} of the plan needs limits greater than zero, the lower first.`);
    }
  }

  const findings: TighteningFinding[] = [];
  const doneInStage: Set<string>[] = plan.stages.map(() => new Set());
  const furthest: number[] = plan.stages.map(() => -1);
  for (const [step, one] of done.entries()) {
    const report = (fault: TighteningFault, says: string): void => {
      findings.push({
        fault,
        stage: one.stage,
        fastener: one.fastener,
        step,
        says: `${one.fastener} in stage ${one.stage} ${says}.`,
      });
    };
    const stage = plan.stages[one.stage - 1];
    const inStage = doneInStage[one.stage - 1];
    if (stage === undefined || inStage === undefined) {
      report("unknown stage", `is not in the plan, which has ${plan.stages.length} stages`);
      continue;
    }
    const position = place.get(one.fastener);
    if (position === undefined) {
      report("unknown fastener", "is not in the order of the plan");
      continue;
    }
    if (inStage.has(one.fastener)) {
      report("done twice", "was tightened before in this stage");
      continue;
    }
    const before = doneInStage[one.stage - 2];
    if (before !== undefined && inStage.size === 0 && before.size < plan.order.length) {
      report(
        "stage begun early",
        `began with ${plan.order.length - before.size} fasteners of stage ${one.stage - 1} still to do`,
      );
    }
    const reached = furthest[one.stage - 1] ?? -1;
    if (position < reached) report("out of order", `came after ${plan.order[reached]}, which the plan takes later`);
    furthest[one.stage - 1] = Math.max(reached, position);
    const fault = measureFault(stage, one);
    if (fault !== undefined) report(...fault);
    inStage.add(one.fastener);
  }
  for (const [index, inStage] of doneInStage.entries()) {
    for (const fastener of plan.order) {
      if (inStage.has(fastener)) continue;
      findings.push({
        fault: "missing",
        stage: index + 1,
        fastener,
        step: undefined,
        says: `${fastener} was not tightened in stage ${index + 1}.`,
      });
    }
  }
  return answer({
    complete: findings.length === 0,
    findings,
    steps: [
      `${plan.order.length} fasteners in ${plan.stages.length} stages, in the order ${plan.order.join(", ")}.`,
      findings.length === 0
        ? "Every fastener was tightened in every stage, in order and within its limits."
        : `${findings.length} departures from the plan.`,
    ],
  });
}
