import type Fraction from "fraction.js";
import { exact, isShortDecimal, parseDecimal } from "./decimal.ts";
import type { Unit } from "./units.ts";
import { differenceUnit, findUnit } from "./units.ts";

/**
 * Comparison of written quantities.
 *
 * A reading that equals its limit is inside it, also in the other unit family and after a
 * subtraction, so the last word is always exact. Doubles decide when two values are so far apart
 * that no rounding can have turned them round, which is nearly always.
 */

/** A written number with its unit. */
export interface Measure {
  /** The number as a double, in `unit`. */
  readonly value: number;
  /** The number as it was written. */
  readonly text: string;
  readonly unit: Unit;
}

/** Order of two values: below, equal, above. */
export type Order = -1 | 0 | 1;

/** Where a value lies in a range whose ends belong to it. */
export type Place = "inside" | "below" | "above";

/**
 * Far above what rounding can do (a few parts in 1e16 for each of at most five operations), far below
 * any difference that a record states.
 */
const CLEAR_GAP = 1e-9;
const TINY = 1e-280;

/**
 * Reads a number and a unit.
 *
 * @param text the number as written
 * @param unitSpelling the unit as written
 * @returns the measure, or `undefined` if the number is malformed or the unit unknown
 */
export function measure(text: string, unitSpelling: string): Measure | undefined {
  const value = parseDecimal(text);
  if (Number.isNaN(value)) return undefined;
  const unit = findUnit(unitSpelling);
  return unit === undefined ? undefined : { value, text, unit };
}

/**
 * Compares two written quantities exactly, in whatever units they were written.
 *
 * @returns -1 if `a` is less, 0 if both are the same quantity, 1 if `a` is greater
 * @throws {RangeError} if the dimensions differ
 */
export function compareMeasures(a: Measure, b: Measure): Order {
  return a.unit === b.unit && a.text === b.text ? 0 : compareFast(a.value, a.unit, () => a.text, b);
}

/**
 * Compares a bare number with a written bound; the text of the number is asked for only when the
 * doubles are too near each other to decide.
 *
 * @param value the number as a double, as {@link parseDecimal} gives it
 * @param unit the unit of `value`
 * @param text gives the number as written
 * @param bound the bound
 * @returns -1 if the value is below the bound, 0 if equal, 1 if above
 * @throws {RangeError} if the dimensions differ
 */
export function compareFast(value: number, unit: Unit, text: () => string, bound: Measure): Order {
  const other = bound.unit;
  if (unit === other) {
    // Both doubles are the nearest to what was written, so an order between them is an order between the texts.
    const clear = CLEAR_GAP * (Math.abs(value) + Math.abs(bound.value));
    const gap = value - bound.value;
    if (gap > clear) return 1;
    if (gap < -clear) return -1;
    const written = text();
    if (written === bound.text) return 0;
    if (isShortDecimal(written) && isShortDecimal(bound.text)) return gap > 0 ? 1 : gap < 0 ? -1 : 0;
    return orderOf(exact(written).compare(exact(bound.text)));
  }
  if (unit.dimension !== other.dimension) throw mismatch(unit, other);
  const left = value * unit.factorNumber;
  const right = bound.value * other.factorNumber;
  // The offsets belong to the yardstick: near absolute zero a sum is much smaller than its terms.
  const scale = Math.abs(left) + Math.abs(right) + Math.abs(unit.offsetNumber) + Math.abs(other.offsetNumber);
  const gap = left + unit.offsetNumber - (right + other.offsetNumber);
  // Below the normal range of doubles a product has too few digits left to decide anything.
  if (scale > TINY) {
    if (gap > CLEAR_GAP * scale) return 1;
    if (gap < -CLEAR_GAP * scale) return -1;
  }
  return orderOf(toBase(exact(text()), unit).compare(toBase(exact(bound.text), other)));
}

function mismatch(a: Unit, b: Unit): RangeError {
  return new RangeError(`${a.spelling} is ${a.dimension}, ${b.spelling} is ${b.dimension}: they cannot be compared`);
}

function orderOf(sign: number): Order {
  return sign < 0 ? -1 : sign > 0 ? 1 : 0;
}

function toBase(value: Fraction, unit: Unit): Fraction {
  return value.mul(unit.factor).add(unit.offset);
}

/**
 * The exact value of a measure in another unit.
 *
 * @param m the measure
 * @param unit the unit wanted
 * @throws {RangeError} if the dimensions differ
 */
export function exactIn(m: Measure, unit: Unit): Fraction {
  return convertExact(exact(m.text), m.unit, unit);
}

/**
 * Converts an exact number between units of one dimension.
 *
 * @param value the number in `from`
 * @throws {RangeError} if the dimensions differ
 */
export function convertExact(value: Fraction, from: Unit, to: Unit): Fraction {
  if (from === to) return value;
  if (from.dimension !== to.dimension) throw mismatch(from, to);
  return toBase(value, from).sub(to.offset).div(to.factor);
}

/** Slope and shift between two units, both rounded once from exact values. */
interface Conversion {
  readonly slope: number;
  readonly shift: number;
}

const conversions = new WeakMap<Unit, WeakMap<Unit, Conversion>>();

function conversionBetween(from: Unit, to: Unit): Conversion {
  const known = conversions.get(from)?.get(to);
  if (known !== undefined) return known;
  if (from.dimension !== to.dimension) throw mismatch(from, to);
  const conversion = {
    slope: from.factor.div(to.factor).valueOf(),
    shift: from.offset.sub(to.offset).div(to.factor).valueOf(),
  };
  const row = conversions.get(from) ?? new WeakMap<Unit, Conversion>();
  conversions.set(from, row.set(to, conversion));
  return conversion;
}

/**
 * Converts a double between units of one dimension, for showing and drawing (never for a verdict).
 *
 * @param value the number in `from`
 * @returns the number in `to`, within two roundings of the exact result
 * @throws {RangeError} if the dimensions differ
 */
export function convertNumber(value: number, from: Unit, to: Unit): number {
  if (from === to) return value;
  const conversion = conversionBetween(from, to);
  return value * conversion.slope + conversion.shift;
}

/**
 * Where a measure lies in a range; both ends belong to the range, an end that is absent is open.
 *
 * @param m the measure
 * @param low the least allowed value
 * @param high the greatest allowed value
 * @throws {RangeError} if the dimensions differ
 */
export function insideRange(m: Measure, low?: Measure, high?: Measure): Place {
  if (low !== undefined && compareMeasures(m, low) < 0) return "below";
  if (high !== undefined && compareMeasures(m, high) > 0) return "above";
  return "inside";
}

/**
 * Compares `a - b` with a bound for the difference, exactly, without building fractions where doubles
 * are clear. Says the same as {@link compareExact} of {@link difference}.
 *
 * @param a the greater reading of a fit (the bore)
 * @param b the lesser one (the piston), in any unit of the dimension of `a`
 * @param bound the bound for the difference
 * @returns -1 if the difference is below the bound, 0 if equal, 1 if above
 * @throws {RangeError} if the dimensions differ
 */
export function compareDifference(a: Measure, b: Measure, bound: Measure): Order {
  const unit = a.unit;
  if (unit.offsetNumber === 0 && b.unit.dimension === unit.dimension && bound.unit.dimension === unit.dimension) {
    const first = a.value * unit.factorNumber;
    const second = b.value * b.unit.factorNumber;
    const third = bound.value * bound.unit.factorNumber;
    const scale = Math.abs(first) + Math.abs(second) + Math.abs(third);
    const gap = first - second - third;
    if (scale > TINY && Math.abs(gap) > CLEAR_GAP * scale) return gap > 0 ? 1 : -1;
  }
  const exactly = difference(a, b);
  return compareExact(exactly.exact, exactly.unit, bound);
}

/** An exact value that was computed, with the unit that it is in. */
export interface ExactValue {
  readonly exact: Fraction;
  readonly unit: Unit;
}

/**
 * `a - b`, exactly, in the unit of `a`. Two temperatures of a scale differ by a step of degrees, so
 * their difference is in `dC` or `dF`.
 *
 * @throws {RangeError} if the dimensions differ
 */
export function difference(a: Measure, b: Measure): ExactValue {
  const unit = differenceUnit(a.unit);
  return { exact: exact(a.text).sub(exactIn(b, a.unit)), unit };
}

/**
 * Compares a computed exact value with a written bound.
 *
 * A bound for a difference of temperatures may be written on a scale (`max 30 C`): next to a
 * difference it can only mean the step, so it is taken without the offset.
 *
 * @param value the exact value in `unit`
 * @param unit its unit
 * @param bound the bound
 * @returns -1 if the value is below the bound, 0 if equal, 1 if above
 * @throws {RangeError} if the dimensions differ
 */
export function compareExact(value: Fraction, unit: Unit, bound: Measure): Order {
  const isStep = unit.dimension === "temperature-difference" && bound.unit.dimension === "temperature";
  const boundUnit = isStep ? differenceUnit(bound.unit) : bound.unit;
  return orderOf(value.compare(convertExact(exact(bound.text), boundUnit, unit)));
}
