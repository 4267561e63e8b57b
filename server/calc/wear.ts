import { settle, show } from "./figures.ts";
import { linearFit } from "./linear-fit.ts";
import type { Result, Worked } from "./result.ts";
import { answer, refuse, refuseNotPositive, refuseUnusable } from "./result.ts";
import { studentT } from "./student-t.ts";

export interface WearShare extends Worked {
  /** From the edge of the new limits to the wear limit. */
  readonly allowance_mm: number;
  /** Of the allowance; zero while the reading is still within the new limits. */
  readonly used_mm: number;
  /** Of the allowance; negative once the reading is past the wear limit. */
  readonly left_mm: number;
  /** used / allowance: 0 new, 1 at the wear limit, above 1 past it. */
  readonly share: number;
  readonly withinNew: boolean;
}

export interface WearReading {
  readonly hours_h: number;
  readonly size_mm: number;
}

export interface WearRate extends Worked {
  readonly rate_mm_per_h: number;
  readonly rateLow_mm_per_h: number;
  readonly rateHigh_mm_per_h: number;
  readonly confidence: number;
  readonly readings: number;
}

export interface WearForecast extends Worked {
  readonly rate_mm_per_h: number;
  /** Hours from the last reading until the line meets the wear limit. */
  readonly left_h: number;
  /** Ends of the interval for left_h; the shorter end is the one to plan by. */
  readonly leftLow_h: number;
  readonly leftHigh_h: number;
  readonly confidence: number;
}

/** A forecast reaches at most this many times as far as the readings do. Common practice, no source. */
const reachOfForecast = 2;

/**
 * Wear used as a share of the allowance between the edge of the new limits and the wear limit.
 * @param reading_mm the size measured, greater than zero
 * @param newEdge_mm the edge of the new limits on the side that wears: the greatest new size of a bore, the least of a pin
 * @param wearLimit_mm the wear limit, greater than newEdge_mm for a bore, smaller for a pin
 * @returns refused when the two limits are equal or a size is not greater than zero
 * Source: definition; common practice, no source.
 */
export function wearShare(reading_mm: number, newEdge_mm: number, wearLimit_mm: number): Result<WearShare> {
  const bad = refuseNotPositive({ reading: reading_mm, "new limit": newEdge_mm, "wear limit": wearLimit_mm });
  if (bad !== undefined) return bad;
  if (newEdge_mm === wearLimit_mm)
    return refuse("The new limit and the wear limit are the same; there is no allowance.");
  const grows = wearLimit_mm > newEdge_mm;
  const allowance_mm = settle(Math.abs(wearLimit_mm - newEdge_mm));
  const past = settle(grows ? reading_mm - newEdge_mm : newEdge_mm - reading_mm);
  const used_mm = Math.max(0, past);
  const share = used_mm / allowance_mm;
  return answer({
    allowance_mm,
    used_mm,
    left_mm: settle(allowance_mm - used_mm),
    share,
    withinNew: past <= 0,
    steps: [
      `Allowance: from ${show(newEdge_mm, 9)} mm (new) to ${show(wearLimit_mm, 9)} mm (wear limit) = ${show(allowance_mm)} mm.`,
      past <= 0
        ? `${show(reading_mm, 9)} mm is within the new limits: none of the allowance is used.`
        : `${show(reading_mm, 9)} mm has used ${show(used_mm)} mm, ${show(share * 100, 3)} % of the allowance.`,
    ],
  });
}

/**
 * Wear rate from sizes at known hours, with an interval by Student's t.
 * @param readings three or more, at two or more different hours; sizes in mm, hours of running
 * @param confidence share inside the interval, 0.5 to 0.999, by default 0.95
 * @returns refused with fewer readings: two points have a slope but no spread, so no interval
 * Source: ordinary least squares with the interval of the slope, t on n - 2 degrees of freedom (NIST/SEMATECH e-Handbook).
 */
export function wearRate(readings: readonly WearReading[], confidence = 0.95): Result<WearRate> {
  if (readings.length < 3) {
    return refuse(`A wear rate with an interval needs three readings or more; there are ${readings.length}.`);
  }
  const fit = linearFit(readings.map((reading) => ({ x: reading.hours_h, y: reading.size_mm })));
  if (!fit.ok) return fit;
  const student = studentT(confidence, fit.count - 2);
  if (!student.ok) return student;
  const half = student.t * fit.slopeError;
  const perHundred = (rate: number): string => show(rate * 100, 3);
  return answer({
    rate_mm_per_h: fit.slope,
    rateLow_mm_per_h: fit.slope - half,
    rateHigh_mm_per_h: fit.slope + half,
    confidence,
    readings: fit.count,
    steps: [
      `Least-squares line through ${fit.count} readings: ${perHundred(fit.slope)} mm in 100 h.`,
      `Standard error ${perHundred(fit.slopeError)} mm in 100 h; t for ${show(confidence * 100)} % and ${fit.count - 2} degrees of freedom is ${show(student.t, 4)}.`,
      `Interval ${perHundred(fit.slope - half)} to ${perHundred(fit.slope + half)} mm in 100 h.`,
    ],
  });
}

/**
 * Hours left until the wear line meets its limit, with an interval.
 *
 * The interval is where the confidence band of the line meets the limit (Fieller), so that it is longer on the far side
 * and widens with every hour of extrapolation.
 * @param readings four or more sizes at known hours (two degrees of freedom), last one not past the limit
 * @param wearLimit_mm the wear limit
 * @param confidence share inside the interval, 0.5 to 0.999, by default 0.95
 * @returns refused with too few readings, a rate that cannot be told from none, wear away from the limit, a limit
 *   already passed, or a forecast that reaches more than twice as far as the readings do
 * Source: inverse prediction from a straight line (Fieller's interval); the least counts are common practice, no source.
 */
export function wearForecast(
  readings: readonly WearReading[],
  wearLimit_mm: number,
  confidence = 0.95,
): Result<WearForecast> {
  const bad = refuseUnusable({ "wear limit": wearLimit_mm });
  if (bad !== undefined) return bad;
  if (readings.length < 4) {
    return refuse(`A forecast needs four readings at known hours or more; there are ${readings.length}.`);
  }
  const fit = linearFit(readings.map((reading) => ({ x: reading.hours_h, y: reading.size_mm })));
  if (!fit.ok) return fit;
  const student = studentT(confidence, fit.count - 2);
  if (!student.ok) return student;
  const hours = readings.map((reading) => reading.hours_h);
  const last_h = Math.max(...hours);
  const span_h = last_h - Math.min(...hours);
  const margin = student.t * fit.slopeError;
  if (Math.abs(fit.slope) <= margin) {
    return refuse(
      `The rate of ${show(fit.slope * 100, 3)} mm in 100 h cannot be told from none (interval of ${show(margin * 100, 3)} either way), so there is no forecast.`,
    );
  }
  const atLast = fit.intercept + fit.slope * last_h;
  const gap = wearLimit_mm - atLast;
  if (gap !== 0 && Math.sign(gap) !== Math.sign(fit.slope)) {
    return refuse(
      `The line stands at ${show(atLast, 7)} mm and does not move towards the limit of ${show(wearLimit_mm, 7)} mm: the limit is passed or lies on the other side.`,
    );
  }
  // Where |line - limit| equals the half width of the band: a quadratic in the distance from the mean of the hours.
  const rise = wearLimit_mm - (fit.intercept + fit.slope * fit.meanX);
  const a = fit.slope ** 2 - margin ** 2;
  const spread = (student.t * fit.residual) ** 2 / fit.count;
  const root = Math.sqrt(Math.max(0, (fit.slope * rise) ** 2 - a * (rise ** 2 - spread)));
  const ends = [(fit.slope * rise - root) / a, (fit.slope * rise + root) / a].map((end) => end + fit.meanX - last_h);
  const left_h = gap / fit.slope;
  if (left_h > reachOfForecast * span_h) {
    return refuse(
      `The limit lies ${show(left_h, 3)} h ahead, more than twice the ${show(span_h, 4)} h that the readings cover, so there is no forecast.`,
    );
  }
  const leftLow_h = Math.max(0, Math.min(...ends));
  const leftHigh_h = Math.max(...ends);
  return answer({
    rate_mm_per_h: fit.slope,
    left_h,
    leftLow_h,
    leftHigh_h,
    confidence,
    steps: [
      `Least-squares line through ${fit.count} readings: ${show(fit.slope * 100, 3)} mm in 100 h; ${show(atLast, 7)} mm at ${show(last_h)} h.`,
      `${show(Math.abs(gap), 3)} mm to the limit of ${show(wearLimit_mm, 7)} mm at that rate: ${show(left_h, 3)} h.`,
      `The ${show(confidence * 100)} % band of the line meets the limit between ${show(leftLow_h, 3)} and ${show(leftHigh_h, 3)} h from the last reading.`,
      "A straight line is assumed; wear often quickens near the end, so plan by the shorter figure.",
    ],
  });
}
