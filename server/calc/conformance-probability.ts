import { show } from "./figures.ts";
import type { ToleranceLimits } from "./guard-band.ts";
import { normalBelow } from "./normal-distribution.ts";
import type { Result, Worked } from "./result.ts";
import { answer, refuse, refuseUnusable } from "./result.ts";

export interface ConformanceProbability extends Worked {
  /** Probability that the true value lies inside the limits, 0 to 1. */
  readonly probability: number;
  readonly below: number;
  readonly above: number;
}

/**
 * Probability that the true value lies inside its limits, given one reading and its standard uncertainty.
 *
 * A normal distribution about the reading is assumed, and nothing is assumed about the parts beforehand.
 * @param reading in the unit of the limits
 * @param standardUncertainty u of the reading (half of U at k = 2), greater than zero, in the same unit
 * @param limits lower, upper or both, lower not above upper
 * @returns refused without a limit, with limits crossed, or with an uncertainty that is not greater than zero
 * Source: JCGM 106:2012, clause 7.
 */
export function conformanceProbability(
  reading: number,
  standardUncertainty: number,
  limits: ToleranceLimits,
): Result<ConformanceProbability> {
  const { lower, upper } = limits;
  if (lower === undefined && upper === undefined) return refuse("There is no limit to conform to.");
  const bad = refuseUnusable({
    reading,
    uncertainty: standardUncertainty,
    limit: lower ?? 0,
    "upper limit": upper ?? 0,
  });
  if (bad !== undefined) return bad;
  if (standardUncertainty <= 0) return refuse("The standard uncertainty must be greater than zero.");
  if (lower !== undefined && upper !== undefined && lower > upper)
    return refuse("The lower limit is above the upper limit.");
  const below = lower === undefined ? 0 : normalBelow((lower - reading) / standardUncertainty);
  const above = upper === undefined ? 0 : normalBelow((reading - upper) / standardUncertainty);
  const probability = Math.max(0, 1 - below - above);
  const steps: string[] = [];
  if (lower !== undefined) {
    steps.push(
      `Below ${show(lower, 9)}: z = (${show(lower, 9)} - ${show(reading, 9)}) / ${show(standardUncertainty)} = ${show((lower - reading) / standardUncertainty, 4)}, probability ${show(below, 3)}.`,
    );
  }
  if (upper !== undefined) {
    steps.push(
      `Above ${show(upper, 9)}: z = (${show(reading, 9)} - ${show(upper, 9)}) / ${show(standardUncertainty)} = ${show((reading - upper) / standardUncertainty, 4)}, probability ${show(above, 3)}.`,
    );
  }
  steps.push(`Inside the limits with probability ${show(probability, 3)} (JCGM 106, normal distribution).`);
  return answer({ probability, below, above, steps });
}
