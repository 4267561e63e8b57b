import { settle, show } from "./figures.ts";
import type { Result, Worked } from "./result.ts";
import { answer, refuse, refuseNotPositive, refuseUnusable } from "./result.ts";

export interface TorqueWithDrag extends Worked {
  readonly drag_Nm: number;
  /** Limits at the wrench: the limits of the table with the drag added to both. */
  readonly finalLow_Nm: number;
  readonly finalHigh_Nm: number;
  /** Undefined where no least drag is known; false when the nut turns too easily to be used again. */
  readonly reusable: boolean | undefined;
}

export interface TorqueApart extends Worked {
  readonly reading_Nm: number;
  readonly drag_Nm: number;
  /** What is left of the reading to clamp the joint. */
  readonly clamping_Nm: number;
}

/**
 * Limits at the wrench for a self-locking fastener: table limits and measured drag added, each shown apart.
 * @param low_Nm least torque of the table, greater than zero
 * @param high_Nm greatest torque of the table, not below the least
 * @param drag_Nm drag measured while the nut turns, before it touches, zero or more
 * @param leastDrag_Nm least drag of a nut that may be used again, where the data name one
 * @returns refused when the limits are crossed or the drag is negative
 * Source: AC 43.13-1B para 7-40 (final torque is the table value and the drag; not above the greatest and the drag) and
 * table 7-2 (a nut below the least drag is not used again); US Army TM 1-1500-204-23-6 p. 94 (tare torque).
 */
export function torqueWithDrag(
  low_Nm: number,
  high_Nm: number,
  drag_Nm: number,
  leastDrag_Nm?: number,
): Result<TorqueWithDrag> {
  const bad =
    refuseNotPositive({ "least torque": low_Nm, "greatest torque": high_Nm }) ?? refuseUnusable({ drag: drag_Nm });
  if (bad !== undefined) return bad;
  if (low_Nm > high_Nm)
    return refuse(`The least torque ${show(low_Nm)} N.m is above the greatest ${show(high_Nm)} N.m.`);
  if (drag_Nm < 0) return refuse("The drag must not be negative.");
  if (leastDrag_Nm !== undefined && !(leastDrag_Nm > 0)) return refuse("The least drag must be greater than zero.");
  const finalLow_Nm = settle(low_Nm + drag_Nm);
  const finalHigh_Nm = settle(high_Nm + drag_Nm);
  const reusable = leastDrag_Nm === undefined ? undefined : drag_Nm >= leastDrag_Nm;
  const steps = [
    `Table ${show(low_Nm)} to ${show(high_Nm)} N.m and drag ${show(drag_Nm)} N.m: ${show(finalLow_Nm)} to ${show(finalHigh_Nm)} N.m at the wrench.`,
  ];
  if (leastDrag_Nm !== undefined) {
    steps.push(
      reusable === true
        ? `Drag is not below the least of ${show(leastDrag_Nm)} N.m.`
        : `Drag is below the least of ${show(leastDrag_Nm)} N.m: the nut is not used again.`,
    );
  }
  return answer({ drag_Nm, finalLow_Nm, finalHigh_Nm, reusable, steps });
}

/**
 * A reading at the wrench taken apart into drag and the torque that clamps.
 * @param reading_Nm final reading, greater than zero and not below the drag
 * @param drag_Nm drag measured before the nut touched, zero or more
 * @returns refused when the drag is negative or above the reading
 * Source: as torqueWithDrag, solved for the table value.
 */
export function torqueApart(reading_Nm: number, drag_Nm: number): Result<TorqueApart> {
  const bad = refuseNotPositive({ reading: reading_Nm }) ?? refuseUnusable({ drag: drag_Nm });
  if (bad !== undefined) return bad;
  if (drag_Nm < 0) return refuse("The drag must not be negative.");
  if (drag_Nm > reading_Nm) {
    return refuse(
      `A drag of ${show(drag_Nm)} N.m is above the reading of ${show(reading_Nm)} N.m; one of them is wrong.`,
    );
  }
  const clamping_Nm = settle(reading_Nm - drag_Nm);
  return answer({
    reading_Nm,
    drag_Nm,
    clamping_Nm,
    steps: [
      `${show(reading_Nm)} N.m at the wrench - ${show(drag_Nm)} N.m drag = ${show(clamping_Nm)} N.m that clamps.`,
    ],
  });
}
