/**
 * Drive ratio of a magneto and of its distributor.
 */
import { show } from "./figures.ts";
import { answer, type Result, refuse, type Worked } from "./result.ts";

/**
 * Turns of a magneto for one turn of the crankshaft of a four-stroke engine.
 * @param cylinders sparks wanted in two turns of the crank: the cylinders that this magneto serves
 * @param poles sparks of the magneto in one turn: poles of a rotating magnet, one spark a pole
 * @returns the ratio as a number and as a fraction in lowest terms; the distributor always turns at half crank speed
 * Source: cylinders / (2 x poles), powerplant mechanics' text (from memory); distributor at half crank speed,
 *   enginehistory.org, magnetos, and US Army TM 9-8000 para 15-13.
 */
export function magnetoRatio(
  cylinders: number,
  poles: number,
): Result<{ ratio: number; numerator: number; denominator: number; distributorRatio: number } & Worked> {
  if (!Number.isInteger(cylinders) || cylinders < 1) return refuse(`${show(cylinders)} is no number of cylinders.`);
  if (!Number.isInteger(poles) || poles < 1) return refuse(`${show(poles)} is no number of poles.`);
  let a = cylinders;
  let b = 2 * poles;
  while (b !== 0) [a, b] = [b, a % b];
  const numerator = cylinders / a;
  const denominator = (2 * poles) / a;
  const ratio = cylinders / (2 * poles);
  return answer({
    ratio,
    numerator,
    denominator,
    distributorRatio: 0.5,
    steps: [
      `${cylinders} sparks in two turns of the crank, ${poles} in one turn of the magneto: ${cylinders} / (2 x ${poles}) = ${numerator}/${denominator} of crank speed.`,
      "The distributor turns at half crank speed.",
    ],
  });
}
