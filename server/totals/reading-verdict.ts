/**
 * How one reading stands to its limits, exactly: a reading equal to a limit is inside it, in whatever units both are written, and so is a
 * reading whose distance from the limit equals the uncertainty of its gauge proven.
 */
import type { Bounds, InstrumentBlock, LimitLine, Reading } from "../facts/types.ts";
import { compareMeasures, convertNumber, exactIn, type Measure } from "../quantity/compare.ts";
import { type Ends, serviceEnds } from "./limits-for.ts";

export type Verdict =
  /** Within the new limits. */
  | "new"
  /** Within the limits that decide whether it may stay, but not new; or the limits do not tell new from worn. */
  | "in"
  | "out"
  /** No limit is known, or the reading holds no figure that could be compared. */
  | "none";

export interface Judgement {
  readonly verdict: Verdict;
  /** Whether the figure lies outside the new limits, where there are any. */
  readonly outsideNew: boolean;
  /** Inside, but nearer to the limit than the uncertainty of its gauge. */
  readonly notProven: boolean;
  /** The end that is broken, or the nearer end where it is not proven. */
  readonly end: "low" | "high" | undefined;
  readonly bound: Measure | undefined;
}

const NOTHING: Judgement = { verdict: "none", outsideNew: false, notProven: false, end: undefined, bound: undefined };

/** Far above rounding, far below any step of a gauge: relative to the sizes compared. */
const CLEAR = 1e-9;

/** Expanded uncertainty of a gauge at a reading, as double in the unit of the reading; undefined where none is stated or it is of another kind. */
export function uncertaintyAt(gauge: InstrumentBlock | undefined, reading: Measure): number | undefined {
  const u = gauge?.uncertainty;
  if (u === undefined) return undefined;
  if (u.unit.dimension === "ratio" && reading.unit.dimension !== "ratio")
    return Math.abs(reading.value) * u.value * u.unit.factorNumber;
  if (u.unit.dimension !== stepDimension(reading)) return undefined;
  return (u.value * u.unit.factorNumber) / reading.unit.factorNumber;
}

/** A step of a temperature scale may be written in degrees of a difference; its factor is that of the scale. */
function stepDimension(reading: Measure): string {
  return reading.unit.dimension === "temperature" ? "temperature-difference" : reading.unit.dimension;
}

/** Whether the distance between reading and bound is less than the uncertainty; exact where doubles cannot tell. */
function isNearer(reading: Measure, bound: Measure, u: Measure): boolean {
  const unit = reading.unit;
  const gap = Math.abs(reading.value - convertNumber(bound.value, bound.unit, unit));
  const isShare = u.unit.dimension === "ratio" && unit.dimension !== "ratio";
  const band = isShare
    ? Math.abs(reading.value) * u.value * u.unit.factorNumber
    : (u.value * u.unit.factorNumber) / unit.factorNumber;
  const slack = CLEAR * (Math.abs(reading.value) + band);
  if (gap > band + slack) return false;
  if (gap < band - slack) return true;
  const exactReading = exactIn(reading, unit);
  const exactGap = exactReading.sub(exactIn(bound, unit)).abs();
  const exactU = exactIn(u, u.unit).mul(u.unit.factor);
  const exactBand = isShare ? exactReading.abs().mul(exactU) : exactU.div(unit.factor);
  return exactGap.compare(exactBand) < 0;
}

function comparable(reading: Measure, bound: Measure | undefined): bound is Measure {
  return bound !== undefined && bound.unit.dimension === reading.unit.dimension;
}

function isOutside(reading: Measure, bounds: Bounds | undefined): boolean {
  if (!bounds) return false;
  if (comparable(reading, bounds.low) && compareMeasures(reading, bounds.low) < 0) return true;
  return comparable(reading, bounds.high) && compareMeasures(reading, bounds.high) > 0;
}

/**
 * Judges a reading.
 * @param line the limit that applies, or undefined
 * @param gauge the instrument, where it is known: its uncertainty makes the guard band
 * @param decision guarded counts the uncertainty (ISO 14253-1), simple does not
 * Source of the guard band: ISO 14253-1, as restated by several secondary pages (standard not seen).
 */
export function judgeReading(
  reading: Pick<Reading, "result" | "measure">,
  line: LimitLine | undefined,
  gauge: InstrumentBlock | undefined,
  decision: "guarded" | "simple",
): Judgement {
  const { result, measure } = reading;
  if (result === "no-go") return { ...NOTHING, verdict: "out" };
  if (result === "go") return { ...NOTHING, verdict: "in" };
  const ends = line === undefined ? undefined : serviceEnds(line);
  if (ends === undefined || line === undefined || measure === undefined) return NOTHING;
  if (!comparable(measure, ends.low) && !comparable(measure, ends.high)) return NOTHING;
  if (result === "below") return judgeBelow(measure, ends);
  if (result !== "value") return NOTHING;
  if (comparable(measure, ends.low) && compareMeasures(measure, ends.low) < 0) {
    return {
      verdict: "out",
      outsideNew: isOutside(measure, line.newLimits),
      notProven: false,
      end: "low",
      bound: ends.low,
    };
  }
  if (comparable(measure, ends.high) && compareMeasures(measure, ends.high) > 0) {
    return {
      verdict: "out",
      outsideNew: isOutside(measure, line.newLimits),
      notProven: false,
      end: "high",
      bound: ends.high,
    };
  }
  const outsideNew = isOutside(measure, line.newLimits);
  const verdict = line.newLimits !== undefined && !outsideNew ? "new" : "in";
  const u = gauge?.uncertainty;
  const usable =
    u !== undefined &&
    (u.unit.dimension === "ratio" ||
      u.unit.dimension === stepDimension(measure) ||
      u.unit.dimension === measure.unit.dimension);
  if (decision === "guarded" && usable && u !== undefined) {
    if (comparable(measure, ends.low) && isNearer(measure, ends.low, u))
      return { verdict, outsideNew, notProven: true, end: "low", bound: ends.low };
    if (comparable(measure, ends.high) && isNearer(measure, ends.high, u))
      return { verdict, outsideNew, notProven: true, end: "high", bound: ends.high };
  }
  return outsideNew ? WORN : verdict === "new" ? NEW : IN;
}

/** Nearly every reading is inside by a clear margin: these answers are shared. */
const NEW: Judgement = { ...NOTHING, verdict: "new" };
const IN: Judgement = { ...NOTHING, verdict: "in" };
const WORN: Judgement = { ...NOTHING, verdict: "in", outsideNew: true };

/** `<0.02 mm`: less than that, how much less is not known. */
function judgeBelow(bound: Measure, ends: Ends): Judgement {
  if (comparable(bound, ends.low) && compareMeasures(bound, ends.low) <= 0) {
    return { verdict: "out", outsideNew: false, notProven: false, end: "low", bound: ends.low };
  }
  const lowOpen = !comparable(bound, ends.low) || ends.low.value <= 0;
  if (!lowOpen) return { verdict: "in", outsideNew: false, notProven: true, end: "low", bound: ends.low };
  if (comparable(bound, ends.high) && compareMeasures(bound, ends.high) > 0) {
    return { verdict: "in", outsideNew: false, notProven: true, end: "high", bound: ends.high };
  }
  return { verdict: "in", outsideNew: false, notProven: false, end: undefined, bound: undefined };
}

/**
 * Whether two readings of one quantity disagree: by more than both uncertainties in quadrature allow, or, where none is stated, by more than
 * one step of the coarser of the two.
 * Source: the normalised error of ISO/IEC 17043 (difference over the root of the sum of squares), from memory; the step is common practice, no source.
 */
export function disagree(a: Measure, b: Measure, uA: number | undefined, uB: number | undefined): boolean {
  if (a.unit.dimension !== b.unit.dimension) return false;
  const gap = Math.abs(a.value - convertNumber(b.value, b.unit, a.unit));
  const scale = b.unit.factorNumber / a.unit.factorNumber;
  const allowed =
    uA === undefined && uB === undefined
      ? Math.max(stepOf(a), stepOf(b) * scale)
      : Math.hypot(uA ?? 0, (uB ?? 0) * scale);
  return gap > allowed * (1 + CLEAR) + CLEAR * Math.abs(a.value);
}

/** The last digit written, in the unit of the measure; a fraction's step is one over its denominator. */
export function stepOf(m: Measure): number {
  const slash = m.text.indexOf("/");
  if (slash >= 0) return 1 / Number(m.text.slice(slash + 1));
  const point = m.text.indexOf(".");
  return point < 0 ? 1 : 10 ** -(m.text.length - point - 1);
}
