import type { Result } from "./result.ts";
import { answer, refuse } from "./result.ts";

/** Lanczos coefficients (g = 7, nine terms) of the logarithm of the gamma function. */
const lanczos = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
];

function logGamma(x: number): number {
  const shifted = x - 1;
  let sum = lanczos[0] ?? 0;
  for (let index = 1; index < lanczos.length; index += 1) sum += (lanczos[index] ?? 0) / (shifted + index);
  const top = shifted + 7.5;
  return 0.5 * Math.log(2 * Math.PI) + (shifted + 0.5) * Math.log(top) - top + Math.log(sum);
}

/** Continued fraction of the incomplete beta function, by the method of Lentz. */
function betaFraction(x: number, a: number, b: number): number {
  const tiny = 1e-300;
  const away = (value: number): number => (Math.abs(value) < tiny ? tiny : value);
  let c = 1;
  let d = 1 / away(1 - ((a + b) * x) / (a + 1));
  let fraction = d;
  for (let m = 1; m <= 1000; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / away(1 + even * d);
    c = away(1 + even / c);
    fraction *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / away(1 + odd * d);
    c = away(1 + odd / c);
    const change = d * c;
    fraction *= change;
    if (Math.abs(change - 1) < 1e-16) break;
  }
  return fraction;
}

/** Regularised incomplete beta function I_x(a, b) for x in 0..1. */
function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x));
  return x < (a + 1) / (a + b + 2) ? (front * betaFraction(x, a, b)) / a : 1 - (front * betaFraction(1 - x, b, a)) / b;
}

/** Share of Student's distribution beyond t on one side, for t of zero or more. */
function upperTail(t: number, degreesOfFreedom: number): number {
  return 0.5 * incompleteBeta(degreesOfFreedom / (degreesOfFreedom + t * t), degreesOfFreedom / 2, 0.5);
}

/**
 * The factor t that puts a two-sided interval of the given confidence around an estimate.
 * @param confidence share inside the interval, 0.5 to 0.999
 * @param degreesOfFreedom whole number of 1 or more
 * @returns refused outside those ranges
 * Source: Student's distribution; checked against printed tables (NIST/SEMATECH e-Handbook copy) and SciPy.
 */
export function studentT(confidence: number, degreesOfFreedom: number): Result<{ readonly t: number }> {
  if (!(confidence >= 0.5 && confidence <= 0.999)) {
    return refuse(`The confidence must lie between 0.5 and 0.999, not ${confidence}.`);
  }
  if (!Number.isInteger(degreesOfFreedom) || degreesOfFreedom < 1) {
    return refuse(`The degrees of freedom must be a whole number of 1 or more, not ${degreesOfFreedom}.`);
  }
  const tail = (1 - confidence) / 2;
  let low = 0;
  let high = 1;
  while (upperTail(high, degreesOfFreedom) > tail) high *= 2;
  // Bisection to the last bit: the tail falls steadily with t, and a hover can afford sixty halvings.
  for (let round = 0; round < 200; round += 1) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (upperTail(middle, degreesOfFreedom) > tail) low = middle;
    else high = middle;
  }
  return answer({ t: (low + high) / 2 });
}
