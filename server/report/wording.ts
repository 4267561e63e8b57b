/** How reports and hovers write figures, so that a hover and the command say the same in the same words. */
import type { Bounds } from "../facts/types.ts";
import { formatDuration } from "../quantity/civil-date.ts";
import { difference, exactIn, type Measure } from "../quantity/compare.ts";
import { decimalsIn, decimalsOf, formatExact, inOtherFamily } from "../quantity/format.ts";

export type Row = readonly [label: string, value: string];

/** `40 N.m`: a measure as it was written. */
export function measureText(measure: Measure): string {
  return `${measure.text} ${measure.unit.spelling}`;
}

/** `98.012 mm (3.85874 in)`: as written, and in the other family of units where there is another. */
export function inBoth(measure: Measure): string {
  const other = inOtherFamily(measure);
  return other === "" ? measureText(measure) : `${measureText(measure)} (${other})`;
}

/**
 * How far two quantities are apart, exactly, with every digit that either was written with.
 * @param b of the dimension of `a`
 */
export function apart(a: Measure, b: Measure): string {
  const gap = difference(a, b);
  const digits = Math.max(decimalsOf(a.text), Math.min(decimalsIn(b, a.unit), 6));
  return `${formatExact(gap.exact.abs(), digits)} ${a.unit.spelling}`;
}

/** A bound, and in the unit of the reading too where it was written in another. */
export function boundIn(bound: Measure, unit: Measure["unit"]): string {
  if (bound.unit === unit || bound.unit.factor.equals(unit.factor)) return measureText(bound);
  return `${measureText(bound)} (${formatExact(exactIn(bound, unit), Math.min(decimalsIn(bound, unit) + 1, 6))} ${unit.spelling})`;
}

/** Bounds as written; `""` for none. */
export function boundsText(bounds: Bounds | undefined): string {
  return bounds?.text ?? "";
}

/** `1 place`, `3 places`. @param one the word for one of them */
export function count(n: number, one: string, many = `${one}s`): string {
  return `${n} ${n === 1 ? one : many}`;
}

/** `a, b, c and 4 more`. */
export function few(names: readonly string[], most = 6): string {
  if (names.length <= most) return names.join(", ");
  return `${names.slice(0, most).join(", ")} and ${names.length - most} more`;
}

/** `813 of 900`. */
export function share(part: number, whole: number): string {
  return `${part} of ${whole}`;
}

/** Running time as hours are counted: `1 h 45 min`. @param time_s seconds */
export function duration(time_s: number): string {
  return formatDuration(time_s);
}

/** A figure that was read from a log: as many decimals as tell it apart from its neighbours, no more. */
export function figure(value: number, decimals: number): string {
  return Number.isNaN(value) ? "not known" : value.toFixed(decimals).replace(/^-(?=0(\.0+)?$)/u, "");
}

/** Decimals with which a double that was read from text was written. */
export function decimalsOfDouble(value: number): number {
  const text = String(value);
  const point = text.indexOf(".");
  return point < 0 || text.includes("e") ? 0 : text.length - point - 1;
}

/** Leaves out rows that say nothing. */
export function said(...rows: readonly (Row | undefined | false | "")[]): Row[] {
  return rows.filter((row): row is Row => Array.isArray(row) && row[1] !== "");
}
