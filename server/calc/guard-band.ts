import { settle, show } from "./figures.ts";
import type { Result, Worked } from "./result.ts";
import { answer, refuse, refuseUnusable } from "./result.ts";

export type Decision = "conforming" | "not conforming" | "not proven";

export interface ToleranceLimits {
  readonly lower?: number | undefined;
  readonly upper?: number | undefined;
}

export interface GuardBand extends Worked {
  readonly decision: Decision;
  readonly rule: "guarded" | "simple";
  /** The limits drawn in by the uncertainty: a reading within them proves conformity. */
  readonly acceptance: ToleranceLimits;
  /** True where the uncertainty leaves no reading that could prove conformity. */
  readonly acceptanceEmpty: boolean;
  /** Distance from the reading to the nearest limit; negative outside. */
  readonly margin: number;
}

/**
 * Decision whether a reading proves that it is inside its limits.
 *
 * Guarded (ISO 14253-1): conforming when the reading and its whole uncertainty lie inside the limits, not conforming when
 * they lie wholly outside, otherwise not proven. Simple: the reading alone decides. A value equal to a limit is inside it.
 * @param reading in the unit of the limits
 * @param limits lower, upper or both, lower not above upper
 * @param expandedUncertainty U of the reading (k = 2), zero or more, in the same unit
 * @param rule "guarded" or "simple"
 * @returns refused without a limit, with limits crossed, or with a negative uncertainty
 * Source: ISO 14253-1, as restated by several secondary pages (standard not seen).
 */
export function guardBand(
  reading: number,
  limits: ToleranceLimits,
  expandedUncertainty: number,
  rule: "guarded" | "simple",
): Result<GuardBand> {
  const { lower, upper } = limits;
  if (lower === undefined && upper === undefined) return refuse("There is no limit to decide against.");
  const bad = refuseUnusable({
    reading,
    uncertainty: expandedUncertainty,
    limit: lower ?? 0,
    "upper limit": upper ?? 0,
  });
  if (bad !== undefined) return bad;
  if (expandedUncertainty < 0) return refuse(`The uncertainty must not be negative, it is ${expandedUncertainty}.`);
  if (lower !== undefined && upper !== undefined && lower > upper) {
    return refuse(`The lower limit ${show(lower, 9)} is above the upper limit ${show(upper, 9)}.`);
  }
  const band = rule === "guarded" ? expandedUncertainty : 0;
  const acceptLower = lower === undefined ? undefined : settle(lower + band);
  const acceptUpper = upper === undefined ? undefined : settle(upper - band);
  const acceptanceEmpty = acceptLower !== undefined && acceptUpper !== undefined && acceptLower > acceptUpper;
  const margin = settle(
    Math.min(
      lower === undefined ? Number.POSITIVE_INFINITY : reading - lower,
      upper === undefined ? Number.POSITIVE_INFINITY : upper - reading,
    ),
  );
  const provenOutside = margin < settle(-band);
  const decision: Decision = margin >= settle(band) ? "conforming" : provenOutside ? "not conforming" : "not proven";

  const span = (low: number | undefined, high: number | undefined): string =>
    low === undefined
      ? `max ${show(high ?? 0, 9)}`
      : high === undefined
        ? `min ${show(low, 9)}`
        : `${show(low, 9)}..${show(high, 9)}`;
  const steps =
    rule === "simple"
      ? [`Simple rule: ${show(reading, 9)} against ${span(lower, upper)}: ${decision}.`]
      : [
          acceptanceEmpty
            ? `The limits ${span(lower, upper)} are narrower than twice the uncertainty ${show(expandedUncertainty)}: no reading with this instrument can prove conformity.`
            : `Limits ${span(lower, upper)} drawn in by the uncertainty ${show(expandedUncertainty)}: ${span(acceptLower, acceptUpper)}.`,
          `${show(reading, 9)} is ${show(Math.abs(margin))} ${margin < 0 ? "outside" : "inside"} its nearest limit: ${decision} (ISO 14253-1).`,
        ];
  return answer({
    decision,
    rule,
    acceptance: { lower: acceptLower, upper: acceptUpper },
    acceptanceEmpty,
    margin,
    steps,
  });
}
