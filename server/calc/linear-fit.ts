import type { Result } from "./result.ts";
import { answer, refuse } from "./result.ts";

export interface LinearPoint {
  readonly x: number;
  readonly y: number;
}

export interface LinearFit {
  readonly count: number;
  readonly slope: number;
  readonly intercept: number;
  /** Standard deviation of the points about the line, on count - 2 degrees of freedom. */
  readonly residual: number;
  readonly slopeError: number;
  readonly interceptError: number;
  readonly meanX: number;
  readonly sumSquaresX: number;
}

/**
 * Straight line through points by least squares, with the standard errors of its slope and intercept.
 * @param points three or more, at two or more different x, all finite
 * @returns refused with fewer points or one x only
 * Source: ordinary least squares; checked against the certified values of NIST's Norris data set.
 */
export function linearFit(points: readonly LinearPoint[]): Result<LinearFit> {
  const count = points.length;
  if (points.some((point) => !Number.isFinite(point.x) || !Number.isFinite(point.y))) {
    return refuse("A point of the line is not a number.");
  }
  if (count < 3) return refuse(`A line with a spread needs three readings or more; there are ${count}.`);
  const meanX = points.reduce((sum, point) => sum + point.x, 0) / count;
  const meanY = points.reduce((sum, point) => sum + point.y, 0) / count;
  // Sums about the means: sums of plain squares would lose the digits that the readings differ in.
  let sumSquaresX = 0;
  let sumProducts = 0;
  for (const point of points) {
    sumSquaresX += (point.x - meanX) ** 2;
    sumProducts += (point.x - meanX) * (point.y - meanY);
  }
  if (sumSquaresX === 0) return refuse("All readings stand at the same hours, so there is no rate.");
  const slope = sumProducts / sumSquaresX;
  const intercept = meanY - slope * meanX;
  let sumResiduals = 0;
  for (const point of points) sumResiduals += (point.y - meanY - slope * (point.x - meanX)) ** 2;
  const residual = Math.sqrt(sumResiduals / (count - 2));
  return answer({
    count,
    slope,
    intercept,
    residual,
    slopeError: residual / Math.sqrt(sumSquaresX),
    interceptError: residual * Math.sqrt(1 / count + (meanX * meanX) / sumSquaresX),
    meanX,
    sumSquaresX,
  });
}
