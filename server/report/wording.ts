/** How reports and hovers write figures, so that a hover and the command say the same in the same words. */
import type { Bounds } from "../facts/types.ts";
import { formatDuration } from "../quantity/civil-date.ts";
import type { Measure } from "../quantity/compare.ts";

export type Row = readonly [label: string, value: string];

/** `40 N.m`: a measure as it was written. */
export function measureText(measure: Measure): string {
  return `${measure.text} ${measure.unit.spelling}`;
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
