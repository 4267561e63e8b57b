import type Fraction from "fraction.js";
import type { Measure } from "./compare.ts";
import { convertNumber, exactIn } from "./compare.ts";
import type { Unit } from "./units.ts";
import { findUnit } from "./units.ts";

/**
 * Quantities as text: the same value in the other unit family, with as many digits as the written
 * number justifies and no more.
 */

/**
 * Decimal places of a written number. A fraction counts the places that its step needs: `5/16` steps
 * by 1/16 = 0.06, so two.
 *
 * @param text a well-formed number
 */
export function decimalsOf(text: string): number {
  const point = text.indexOf(".");
  if (point >= 0) return text.length - point - 1;
  const slash = text.indexOf("/");
  return slash >= 0 ? Math.ceil(Math.log10(Number(text.slice(slash + 1)))) : 0;
}

/**
 * Writes a double with a fixed count of decimals; a value that rounds to zero has no sign.
 *
 * @param x the value
 * @param digits decimal places, 0 to 100
 */
export function formatNumber(x: number, digits: number): string {
  return withoutZeroSign(x.toFixed(digits));
}

/**
 * Writes an exact number with a fixed count of decimals, halves away from zero.
 *
 * @param x the value
 * @param digits decimal places
 */
export function formatExact(x: Fraction, digits: number): string {
  const scale = 10n ** BigInt(digits);
  const doubled = (2n * x.n * scale) / x.d;
  const rounded = (doubled + 1n) / 2n;
  const text = rounded.toString().padStart(digits + 1, "0");
  const body = digits === 0 ? text : `${text.slice(0, -digits)}.${text.slice(-digits)}`;
  return withoutZeroSign(x.s < 0n ? `-${body}` : body);
}

function withoutZeroSign(text: string): string {
  return text.startsWith("-") && !/[1-9]/.test(text) ? text.slice(1) : text;
}

/**
 * Decimal places that a measure deserves in another unit: the last place is at most one step of what
 * was written, so nothing that was measured is lost and less than one digit is made up.
 *
 * @param m the measure as written
 * @param unit the unit wanted, of the same dimension
 */
export function decimalsIn(m: Measure, unit: Unit): number {
  const step = (10 ** -decimalsOf(m.text) * m.unit.factorNumber) / unit.factorNumber;
  // The tiny allowance keeps a step of exactly one place (mm to cm) from being taken as just below it.
  return Math.max(0, Math.ceil(-Math.log10(step) - 1e-9));
}

/**
 * Writes a measure in another unit.
 *
 * @param m the measure
 * @param unit the unit wanted
 * @param digits decimal places; without it, as many as the written number justifies
 * @returns number and unit, such as `3.85874 in`
 * @throws {RangeError} if the dimensions differ
 */
export function formatIn(m: Measure, unit: Unit, digits: number = decimalsIn(m, unit)): string {
  return `${formatExact(exactIn(m, unit), digits)} ${unit.spelling}`;
}

/** For each unit, the unit of the other family that a fitter would think in. */
const COUNTERPARTS: ReadonlyMap<string, string> = new Map([
  ["mm", "in"],
  ["cm", "in"],
  ["dm", "in"],
  ["um", "thou"],
  ["m", "ft"],
  ["km", "nmi"],
  ["in", "mm"],
  ["thou", "mm"],
  ["uin", "um"],
  ["ft", "m"],
  ["yd", "m"],
  ["nmi", "km"],
  ["mile", "km"],
  ["mm2", "in2"],
  ["cm2", "in2"],
  ["m2", "ft2"],
  ["in2", "cm2"],
  ["ft2", "m2"],
  ["L", "gal"],
  ["cL", "floz"],
  ["mL", "floz"],
  ["cm3", "in3"],
  ["mm3", "in3"],
  ["m3", "ft3"],
  ["in3", "cm3"],
  ["ft3", "m3"],
  ["gal", "L"],
  ["qt", "L"],
  ["pt", "L"],
  ["floz", "mL"],
  ["impgal", "L"],
  ["impqt", "L"],
  ["imppt", "L"],
  ["impfloz", "mL"],
  ["kg", "lb"],
  ["g", "oz"],
  ["lb", "kg"],
  ["oz", "g"],
  ["N", "lbf"],
  ["daN", "lbf"],
  ["kN", "lbf"],
  ["kgf", "lbf"],
  ["lbf", "N"],
  ["ozf", "N"],
  ["N.m", "lbf.ft"],
  ["N.cm", "lbf.in"],
  ["lbf.ft", "N.m"],
  ["lbf.in", "N.m"],
  ["ozf.in", "N.cm"],
  ["kgf.m", "N.m"],
  ["kgf.cm", "N.m"],
  ["kPa", "psi"],
  ["bar", "psi"],
  ["MPa", "psi"],
  ["Pa", "psi"],
  ["kgf/cm2", "psi"],
  ["psi", "kPa"],
  ["hPa", "inHg"],
  ["mbar", "inHg"],
  ["inHg", "hPa"],
  ["mmHg", "hPa"],
  ["torr", "hPa"],
  ["inH2O", "Pa"],
  ["mmH2O", "Pa"],
  ["C", "F"],
  ["F", "C"],
  ["K", "C"],
  ["dC", "dF"],
  ["dF", "dC"],
  ["C/min", "F/min"],
  ["F/min", "C/min"],
  ["dC/min", "dF/min"],
  ["dF/min", "dC/min"],
  ["m/s", "in/s"],
  ["in/s", "m/s"],
  ["km/h", "mph"],
  ["mph", "km/h"],
  ["kt", "km/h"],
  ["kW", "hp"],
  ["hp", "kW"],
  ["PS", "kW"],
  ["BTU", "kJ"],
  ["kJ", "BTU"],
  ["L/h", "gal/h"],
  ["gal/h", "L/h"],
  ["qt/h", "L/h"],
  ["impgal/h", "L/h"],
  ["L/min", "gal/min"],
  ["gal/min", "L/min"],
  ["kg/h", "lb/h"],
  ["lb/h", "kg/h"],
  ["g/kW.h", "lb/hp.h"],
  ["lb/hp.h", "g/kW.h"],
  ["kg/m3", "lb/gal"],
  ["g/cm3", "lb/gal"],
  ["lb/gal", "kg/m3"],
  ["g.mm", "oz.in"],
  ["oz.in", "g.mm"],
  ["N/mm", "lbf/in"],
  ["lbf/in", "N/mm"],
]);

/**
 * The unit of the other family (metric or inch) for a unit.
 *
 * @param unit any unit
 * @returns `undefined` where both families use the same (revolutions, hours, degrees of angle)
 */
export function counterpart(unit: Unit): Unit | undefined {
  const other = COUNTERPARTS.get(unit.preferred);
  return other === undefined ? undefined : findUnit(other);
}

/**
 * A measure in the unit of the other family, such as `38 N.m` to `28.0 lbf.ft`.
 *
 * @returns number and unit, or an empty text where both families use the same unit
 */
export function inOtherFamily(m: Measure): string {
  const unit = counterpart(m.unit);
  return unit === undefined ? "" : formatIn(m, unit);
}

/**
 * A double converted and written, for figures that were computed and have no text of their own.
 *
 * @param value the number in `from`
 * @param digits decimal places
 * @throws {RangeError} if the dimensions differ
 */
export function formatConverted(value: number, from: Unit, to: Unit, digits: number): string {
  return `${formatNumber(convertNumber(value, from, to), digits)} ${to.spelling}`;
}
