/**
 * Magneto check: drop of speed on each magneto, and the split between them.
 */
import { settle, show } from "./figures.ts";
import { answer, type Result, refuse, refuseNotPositive, refuseUnusable, type Worked } from "./result.ts";

export interface MagnetoLimits {
  /** Greatest drop on either magneto, rpm. */
  greatestDrop_rpm?: number;
  /** Greatest difference between the two drops, rpm. */
  greatestSplit_rpm?: number;
  /** Where the limits stand: the engine's or the aircraft's manual. */
  source: string;
}

export interface MagnetoCheck extends Worked {
  left_rpm: number;
  right_rpm: number;
  split_rpm: number;
  /** Undefined without that limit. A drop equal to its limit is inside it. */
  leftWithin: boolean | undefined;
  rightWithin: boolean | undefined;
  splitWithin: boolean | undefined;
  /** Magnetos without any drop: the other one may not be switched off at all, so the switch must be proved. */
  withoutDrop: ("left" | "right")[];
}

/**
 * Drop and split from the two drops that the operator noted.
 * @param left_rpm fall of speed when running on the left magneto alone, rpm, 0 or more
 * @param right_rpm the same for the right one
 * @param at_rpm speed with both on, at which the check was made, rpm
 * @param limits from the manual of this engine; there is no universal one
 * @throws never; refuses a rise of speed and a drop greater than the speed itself
 * Source: common practice; the limits come in with their own source.
 */
export function magnetoCheck(
  left_rpm: number,
  right_rpm: number,
  at_rpm: number,
  limits?: MagnetoLimits,
): Result<MagnetoCheck> {
  const bad =
    refuseUnusable({ "left drop": left_rpm, "right drop": right_rpm }) ?? refuseNotPositive({ "check speed": at_rpm });
  if (bad) return bad;
  for (const [side, drop] of [
    ["left", left_rpm],
    ["right", right_rpm],
  ] as const) {
    if (drop < 0) return refuse(`The ${side} magneto shows a rise of ${show(-drop)} rpm; a drop was expected.`);
    if (drop >= at_rpm)
      return refuse(`The ${side} drop of ${show(drop)} rpm is not below the check speed of ${show(at_rpm)} rpm.`);
  }
  const split_rpm = settle(Math.abs(left_rpm - right_rpm));
  const withoutDrop: ("left" | "right")[] = [];
  if (left_rpm === 0) withoutDrop.push("left");
  if (right_rpm === 0) withoutDrop.push("right");
  const within = (value: number, limit: number | undefined) => (limit === undefined ? undefined : value <= limit);
  const steps = [
    `Drops at ${show(at_rpm)} rpm: left ${show(left_rpm)}, right ${show(right_rpm)}; split ${show(split_rpm)} rpm.`,
  ];
  if (limits) {
    const words = [
      limits.greatestDrop_rpm === undefined ? "" : `drop at most ${show(limits.greatestDrop_rpm)} rpm`,
      limits.greatestSplit_rpm === undefined ? "" : `split at most ${show(limits.greatestSplit_rpm)} rpm`,
    ].filter((word) => word !== "");
    steps.push(`Limits (${limits.source}): ${words.join(", ") || "none"}.`);
  }
  return answer({
    left_rpm,
    right_rpm,
    split_rpm,
    leftWithin: within(left_rpm, limits?.greatestDrop_rpm),
    rightWithin: within(right_rpm, limits?.greatestDrop_rpm),
    splitWithin: within(split_rpm, limits?.greatestSplit_rpm),
    withoutDrop,
    steps,
  });
}

/**
 * Drops from three speeds that were read: on both, on the left alone, on the right alone.
 * @param both_rpm speed on both magnetos
 * @param onLeft_rpm speed on the left alone
 * @param onRight_rpm speed on the right alone
 * @param limits as above
 */
export function magnetoCheckFromSpeeds(
  both_rpm: number,
  onLeft_rpm: number,
  onRight_rpm: number,
  limits?: MagnetoLimits,
): Result<MagnetoCheck> {
  const bad = refuseNotPositive({
    "speed on both": both_rpm,
    "speed on the left": onLeft_rpm,
    "speed on the right": onRight_rpm,
  });
  if (bad) return bad;
  return magnetoCheck(settle(both_rpm - onLeft_rpm), settle(both_rpm - onRight_rpm), both_rpm, limits);
}
