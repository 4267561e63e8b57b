/**
 * Cam ring of a radial row: lobes and speed.
 */
import { show } from "./figures.ts";
import { answer, type Result, refuse, type Worked } from "./result.ts";

export interface CamRing extends Worked {
  /** Lobes of each track. */
  lobes: number;
  /** Turns of the ring for one turn of the crank: 1 / `denominator`. */
  denominator: number;
}

/**
 * Lobes and speed of the cam ring of one row.
 * @param cylinders cylinders of the row, odd, 3 or more
 * @param turning direction of the ring against the crankshaft
 * Source: opposite (n-1)/2 lobes at 1/(n-1) of crank speed; same direction (n+1)/2 lobes at 1/(n+1); experts123.com on cam
 *   lobes of radials.
 */
export function camRing(cylinders: number, turning: "with-crank" | "against-crank"): Result<CamRing> {
  if (!Number.isInteger(cylinders) || cylinders < 3 || cylinders % 2 === 0) {
    return refuse(`A cam ring serves a row with an odd number of cylinders, three or more, not ${show(cylinders)}.`);
  }
  const denominator = turning === "with-crank" ? cylinders + 1 : cylinders - 1;
  const lobes = denominator / 2;
  return answer({
    lobes,
    denominator,
    steps: [
      `${cylinders} cylinders, ring turning ${turning === "with-crank" ? "with" : "against"} the crank: ${denominator} / 2 = ${lobes} lobes at 1/${denominator} of crank speed.`,
    ],
  });
}
