import { settle, show } from "./figures.ts";
import type { Result, Worked } from "./result.ts";
import { answer, refuse, refuseNotPositive } from "./result.ts";

export interface WrenchRange extends Worked {
  readonly verdict: "inside" | "below a fifth" | "below its least setting" | "above its greatest setting";
  /** Setting over the greatest setting. */
  readonly share: number;
}

/** Below this share of its greatest setting the accuracy of a wrench is not stated. Source: TM 1-1500-204-23-9 p. 139. */
export const leastShareOfRange = 0.2;

/**
 * Whether a wrench is used where its accuracy is stated: from a fifth of its greatest setting to the greatest.
 * @param dial_Nm setting on the dial (not the torque at the fastener), greater than zero
 * @param greatest_Nm greatest setting of the wrench, greater than zero
 * @param least_Nm least setting marked on the wrench, where it is above a fifth of the greatest
 * @returns refused when a figure is not greater than zero or the least is above the greatest
 * Source: US Army TM 1-1500-204-23-9 p. 139 (4 % from 20 to 100 % of range).
 */
export function wrenchRange(dial_Nm: number, greatest_Nm: number, least_Nm?: number): Result<WrenchRange> {
  const bad = refuseNotPositive({ "dial setting": dial_Nm, "greatest setting": greatest_Nm });
  if (bad !== undefined) return bad;
  if (least_Nm !== undefined) {
    const badLeast = refuseNotPositive({ "least setting": least_Nm });
    if (badLeast !== undefined) return badLeast;
    if (least_Nm > greatest_Nm) return refuse("The least setting is above the greatest setting.");
  }
  const share = dial_Nm / greatest_Nm;
  // Settled first, so that exactly a fifth counts as inside: 3 x 0.2 is a little more than 0.6 in binary.
  const belowFifth = dial_Nm < settle(greatest_Nm * leastShareOfRange);
  const verdict =
    dial_Nm > greatest_Nm
      ? ("above its greatest setting" as const)
      : belowFifth
        ? ("below a fifth" as const)
        : least_Nm !== undefined && dial_Nm < least_Nm
          ? ("below its least setting" as const)
          : ("inside" as const);
  return answer({
    verdict,
    share,
    steps: [
      `${show(dial_Nm)} N.m on the dial is ${show(share * 100, 3)} % of the greatest setting ${show(greatest_Nm)} N.m: ${verdict === "inside" ? "inside the range" : verdict}.`,
    ],
  });
}
