import { settle, show } from "./figures.ts";
import type { Result, Worked } from "./result.ts";
import { answer, refuse, refuseNotPositive, refuseUnusable } from "./result.ts";

export interface UncertaintyRatio extends Worked {
  /** Tolerance span over twice the expanded uncertainty. */
  readonly ratio: number;
  /** True at a ratio of four or more. */
  readonly enough: boolean;
}

/** The ratio that is commonly asked of a gauge. Source: ANSI/NCSL Z540.3, as restated by isobudgets.com and mhforce.com. */
export const leastRatio = 4;

/**
 * Tolerance to uncertainty ratio of a gauge for a two-sided tolerance.
 * @param lower lower limit
 * @param upper upper limit, above the lower, in the same unit
 * @param expandedUncertainty U (k = 2), greater than zero, in the same unit
 * @returns refused when the limits have no span: a one-sided limit has no ratio
 * Source: ANSI/NCSL Z540.3 (span of the tolerance over twice the 95 % expanded uncertainty), as restated by mhforce.com.
 */
export function uncertaintyRatio(lower: number, upper: number, expandedUncertainty: number): Result<UncertaintyRatio> {
  const bad =
    refuseUnusable({ "lower limit": lower, "upper limit": upper }) ??
    refuseNotPositive({ uncertainty: expandedUncertainty });
  if (bad !== undefined) return bad;
  const span = settle(upper - lower);
  if (span <= 0) return refuse("The upper limit must be above the lower limit for a ratio.");
  const ratio = settle(span / (2 * expandedUncertainty));
  const enough = ratio >= leastRatio;
  return answer({
    ratio,
    enough,
    steps: [
      `Span ${show(upper, 9)} - ${show(lower, 9)} = ${show(span)}, over twice the uncertainty ${show(expandedUncertainty)} = ${show(ratio, 3)}.`,
      enough ? "Four or more: fine enough for this tolerance." : "Below four: coarse for this tolerance.",
    ],
  });
}
