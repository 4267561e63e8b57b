/**
 * Trends of readings that come singly over the years: drift, step, and deviation from a base.
 *
 * No limit is invented here. The results are figures and plain words; whether a drift matters is for the maker's data and
 * for people to say.
 */
import { settle, show } from "./figures.ts";
import { answer, type Refused, type Result, refuse, type Worked } from "./result.ts";

/** Middle value of figures that are already in order. */
function middleOfSorted(sorted: ArrayLike<number>): number {
  const half = sorted.length >>> 1;
  return sorted.length % 2 === 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
}

function median(values: readonly number[]): number {
  return middleOfSorted([...values].sort((a, b) => a - b));
}

/**
 * Point of the standard normal distribution below which a share lies, for shares above one half.
 * Source: rational approximation 26.2.23 of Abramowitz and Stegun as a start (error 4.5e-4), one step of Halley with the
 * series of the distribution itself; better than 1e-9 for the shares used here.
 */
function normalPoint(share: number): number {
  const t = Math.sqrt(-2 * Math.log(1 - share));
  let x = t - (2.515517 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
  for (let turn = 0; turn < 2; turn++) {
    // Distribution by its power series, which converges fast for the few sigmas needed.
    let term = x;
    let sum = x;
    for (let k = 1; k < 200 && Math.abs(term) > 1e-17; k++) {
      term *= (x * x) / (2 * k + 1);
      sum += term;
    }
    const density = Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
    const error = 0.5 + density * sum - share;
    const newton = error / density;
    x -= newton / (1 + (x * newton) / 2);
  }
  return x;
}

/** Sum of k (k - 1) (2 k + 5) over groups of equal values, the correction for ties. */
function tieTerm(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  let total = 0;
  let run = 1;
  for (let index = 1; index <= sorted.length; index++) {
    if (index < sorted.length && sorted[index] === sorted[index - 1]) {
      run++;
      continue;
    }
    if (run > 1) total += run * (run - 1) * (2 * run + 5);
    run = 1;
  }
  return total;
}

/** Whole number nearest to a value; halves go to the even one, as the programs do with which this is compared. */
function roundHalfEven(value: number): number {
  const floor = Math.floor(value);
  const rest = value - floor;
  if (rest !== 0.5) return Math.round(value);
  return floor % 2 === 0 ? floor : floor + 1;
}

const mostPoints = 2000;

function refusePoints(x: readonly number[], y: readonly number[], least: number): Refused | undefined {
  if (x.length !== y.length)
    return refuse(`A trend needs as many readings as places on the axis, not ${y.length} and ${x.length}.`);
  if (x.length < least) return refuse(`A trend needs at least ${least} readings; there are ${x.length}.`);
  if (x.length > mostPoints)
    return refuse(`A trend is taken of at most ${mostPoints} readings; there are ${x.length}.`);
  if (x.some((value) => !Number.isFinite(value)) || y.some((value) => !Number.isFinite(value)))
    return refuse("A reading of the trend is not a number.");
  return undefined;
}

export interface Drift extends Worked {
  /** Change of the reading for one unit of the axis. */
  slope: number;
  /** Value of the line at zero of the axis. */
  intercept: number;
  /** Interval of the slope; undefined with fewer than five readings, which cannot carry one. */
  interval: { from: number; until: number; confidence: number } | undefined;
  /** `rising` or `falling` when the interval leaves out zero, `none` when it holds it, `unknown` without an interval. */
  direction: "rising" | "falling" | "none" | "unknown";
  words: string;
}

/**
 * Robust slope: the middle of the slopes between every two readings (Theil and Sen), with the interval of Sen. Up to
 * three readings in ten may be wild without moving it far.
 * @param x places on the axis (hours, days), at least two different
 * @param y readings
 * @param confidence share of the interval, 0.5 up to 0.999
 * @param names words for the sentence: unit of the axis, name and unit of the reading
 * @returns slope, intercept (middle of y - slope x) and interval; a refusal below three readings
 * Source: Sen, Journal of the American Statistical Association 63 (1968); large-sample interval with correction for ties.
 */
export function drift(
  x: readonly number[],
  y: readonly number[],
  confidence = 0.95,
  names: { axis?: string; reading?: string } = {},
): Result<Drift> {
  const bad = refusePoints(x, y, 3);
  if (bad) return bad;
  if (!(confidence >= 0.5 && confidence <= 0.999))
    return refuse(`A confidence of ${show(confidence)} is outside 0.5 to 0.999.`);
  const n = x.length;
  const slopes = new Float64Array((n * (n - 1)) / 2);
  let count = 0;
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      if (x[i] !== x[j]) slopes[count++] = (y[j] - y[i]) / (x[j] - x[i]);
    }
  }
  if (count === 0) return refuse("All readings stand at one place of the axis, so there is no trend.");
  const sorted = slopes.subarray(0, count).sort();
  const slope = middleOfSorted(sorted);
  const intercept = median(y.map((value, index) => value - slope * x[index]));
  let interval: Drift["interval"];
  let direction: Drift["direction"] = "unknown";
  if (n >= 5) {
    const variance = (n * (n - 1) * (2 * n + 5) - tieTerm(x) - tieTerm(y)) / 18;
    const reach = normalPoint((1 + confidence) / 2) * Math.sqrt(Math.max(0, variance));
    const low = Math.max(roundHalfEven((count - reach) / 2) - 1, 0);
    const high = Math.min(roundHalfEven((count + reach) / 2), count - 1);
    interval = { from: sorted[low], until: sorted[high], confidence };
    direction = interval.from > 0 ? "rising" : interval.until < 0 ? "falling" : "none";
  }
  const axis = names.axis ?? "unit";
  const reading = names.reading ?? "The reading";
  const words =
    direction === "unknown"
      ? `${reading} changes by ${show(slope, 3)} per ${axis} over ${n} readings; too few to say whether that is a drift.`
      : direction === "none"
        ? `${reading} shows no clear drift over ${n} readings.`
        : `${reading} is ${direction} by ${show(Math.abs(slope), 3)} per ${axis} over ${n} readings.`;
  return answer({
    slope,
    intercept,
    interval,
    direction,
    words,
    steps: [
      `Middle of ${count} slopes between ${n} readings: ${show(slope, 4)} per ${axis}.`,
      interval
        ? `${show(100 * confidence)} % interval: ${show(interval.from, 4)} to ${show(interval.until, 4)} per ${axis}.`
        : "Fewer than five readings carry no interval.",
    ],
  });
}

export interface Step extends Worked {
  /** Number of readings before the step: the step lies between this reading and the next. */
  after: number;
  /** Middle of the readings before and behind, and their difference. */
  before: number;
  behind: number;
  change: number;
  /** Largest rank statistic and the approximate probability of one as large without any step. */
  statistic: number;
  probability: number;
  /** True when the probability is at most the level asked for. */
  clear: boolean;
  words: string;
}

/**
 * Looks for one step in a series by ranks (Pettitt), which a single wild reading does not set off.
 * @param y readings in order, eight or more
 * @param level probability up to which a step is called clear, 0.05 when left out
 * @param name the reading, for the sentence
 * @returns the likeliest place; a steady drift also gives a step in its middle, so look at both
 * Source: Pettitt, Applied Statistics 28 (1979); probability 2 exp(-6 K^2 / (n^3 + n^2)), formula as given in public
 *   program texts.
 */
export function step(y: readonly number[], level = 0.05, name = "The reading"): Result<Step> {
  const bad = refusePoints(
    y.map((_value, index) => index),
    y,
    8,
  );
  if (bad) return bad;
  const n = y.length;
  let sum = 0;
  let statistic = -1;
  let after = 1;
  for (let t = 0; t < n - 1; t++) {
    for (let j = 0; j < n; j++) sum += Math.sign(y[t] - y[j]);
    if (Math.abs(sum) > statistic) {
      statistic = Math.abs(sum);
      after = t + 1;
    }
  }
  const probability = Math.min(1, 2 * Math.exp((-6 * statistic * statistic) / (n ** 3 + n ** 2)));
  const before = median(y.slice(0, after));
  const behind = median(y.slice(after));
  const change = settle(behind - before);
  const clear = probability <= level && change !== 0;
  const words = clear
    ? `${name} steps ${change > 0 ? "up" : "down"} by ${show(Math.abs(change), 3)} after reading ${after}: ${show(before, 4)} before, ${show(behind, 4)} behind.`
    : `${name} shows no clear step over ${n} readings.`;
  return answer({
    after,
    before,
    behind,
    change,
    statistic,
    probability,
    clear,
    words,
    steps: [
      `Largest rank statistic ${show(statistic)} after reading ${after} of ${n}; probability without a step about ${show(probability, 2)}.`,
      `Middle before ${show(before, 4)}, behind ${show(behind, 4)}, change ${show(change, 4)}.`,
    ],
  });
}

export interface Deviation extends Worked {
  base: number;
  lowest: number;
  highest: number;
  /** Reading less base, and reading over base (NaN for a base of zero). */
  difference: number;
  ratio: number;
  /** Difference in units of the base's own scatter (1.4826 x middle deviation); undefined when the base does not scatter. */
  scatters: number | undefined;
  /** Outside everything seen in the base. */
  outside: "above" | "below" | "inside";
  words: string;
}

/**
 * Deviation of a reading from a base of the same engine.
 * @param base readings that make the base, three or more
 * @param reading the reading that is looked at
 * @param name the reading, for the sentence
 * @returns a refusal for a base of fewer than three: one or two samples are no base
 * Source: judge deviation from a base of at least three samples: aopa.org, December 2005, A&P article; scatter by the
 *   middle absolute deviation.
 */
export function deviationFromBase(base: readonly number[], reading: number, name = "The reading"): Result<Deviation> {
  if (base.length < 3) return refuse(`A base needs at least three samples; there are ${base.length}.`);
  if (!Number.isFinite(reading) || base.some((value) => !Number.isFinite(value)))
    return refuse("A reading of the base is not a number.");
  const middle = median(base);
  const lowest = Math.min(...base);
  const highest = Math.max(...base);
  const scatter = 1.482602218505602 * median(base.map((value) => Math.abs(value - middle)));
  const difference = settle(reading - middle);
  const ratio = middle === 0 ? Number.NaN : reading / middle;
  const outside = reading > highest ? "above" : reading < lowest ? "below" : "inside";
  const range = `${base.length} samples from ${show(lowest, 4)} to ${show(highest, 4)}, middle ${show(middle, 4)}`;
  const words =
    outside === "inside"
      ? `${name}, ${show(reading, 4)}, lies inside its base (${range}).`
      : `${name}, ${show(reading, 4)}, lies ${outside} its base by ${show(Math.abs(outside === "above" ? reading - highest : lowest - reading), 3)} (${range}).`;
  return answer({
    base: middle,
    lowest,
    highest,
    difference,
    ratio,
    scatters: scatter > 0 ? difference / scatter : undefined,
    outside,
    words,
    steps: [
      `Base: ${range}; scatter ${show(scatter, 3)}.`,
      `Difference: ${show(reading, 4)} - ${show(middle, 4)} = ${show(difference, 4)}.`,
    ],
  });
}

/**
 * Metal in the oil for each hour since the oil was changed, so that samples after different times can be compared.
 * @param metal_ppm content in ppm, 0 or more
 * @param sinceChange_h running time since the change, h
 * Source: plain division (common practice); oil that was added thins the sample, which this does not undo.
 */
export function metalRate(metal_ppm: number, sinceChange_h: number): Result<{ rate_ppmph: number } & Worked> {
  if (!Number.isFinite(metal_ppm) || metal_ppm < 0)
    return refuse(`A metal content of ${show(metal_ppm)} ppm cannot be.`);
  if (!(sinceChange_h > 0))
    return refuse(`The time since the oil change must be greater than zero, not ${show(sinceChange_h)} h.`);
  const rate_ppmph = metal_ppm / sinceChange_h;
  return answer({
    rate_ppmph,
    steps: [`${show(metal_ppm, 4)} ppm / ${show(sinceChange_h, 4)} h = ${show(rate_ppmph, 3)} ppm/h.`],
  });
}
