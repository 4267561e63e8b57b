/** How rules name readings, limits and distances between them. */
import type { At, LimitLine } from "../facts/types.ts";
import { difference, exactIn, type Measure } from "../quantity/compare.ts";
import { decimalsIn, decimalsOf, formatExact } from "../quantity/format.ts";
import type { Related, Spot } from "./rule.ts";

/** The number as it was written, with its unit. */
export const textOf = (m: Measure): string => `${m.text} ${m.unit.spelling}`;

/** Where a reading stands: its cell, or the value of its `measure` line. */
export function spotOf(reading: { readonly at: At; readonly cell: number }): Spot {
  return reading.cell < 0 ? { at: reading.at, role: "value" } : { at: reading.at, cell: reading.cell };
}

/** How far two quantities of one kind are apart, in the unit of the first, with every digit that either was written with. */
export function apart(a: Measure, b: Measure): string {
  const gap = difference(a, b);
  const digits = Math.max(decimalsOf(a.text), Math.min(decimalsIn(b, a.unit), 6));
  return `${formatExact(gap.exact.abs(), digits)} ${a.unit.spelling}`;
}

/** A bound in the reading's own unit where it was written in another, in brackets behind what was written. */
export function boundText(bound: Measure, unit: Measure["unit"]): string {
  if (bound.unit === unit || bound.unit.factor.equals(unit.factor)) return textOf(bound);
  return `${textOf(bound)} (${formatExact(exactIn(bound, unit), Math.min(decimalsIn(bound, unit) + 1, 6))} ${unit.spelling})`;
}

/** `Curlew-9 revision C, ref 4-2`. */
export function sourceText(limits: { readonly type: string; readonly revision: string }, reference: string): string {
  return `${limits.type} revision ${limits.revision}${reference === "" ? "" : `, ref ${reference}`}`;
}

/** The limit's line, as a related place. */
export function limitLine(
  limits: { readonly ref: string },
  line: Pick<LimitLine, "at" | "reference">,
  says = "The limit",
): readonly Related[] {
  return limits.ref === "" ? [] : [{ ref: limits.ref, spot: { at: line.at }, says }];
}

/** The first few places, and how many more. */
export function few(places: readonly string[], most = 4): string {
  return places.length <= most
    ? places.join(", ")
    : `${places.slice(0, most).join(", ")} and ${places.length - most} more`;
}

/** Blocks in which work is recorded. */
export const WORK = ["entry", "run", "release", "dispatch"] as const;

/** Where an instrument was used: the reading's cell or value, or the field that names it. */
export function spotOfUse(use: { readonly at: At; readonly role: string; readonly cell: number }): Spot {
  return use.cell < 0 ? { at: use.at, role: use.role } : { at: use.at, cell: use.cell };
}

/** `1 reading`, `12 readings`. */
export function counted(count: number, plural: string): string {
  return `${count} ${count === 1 ? plural.replace(/s$/u, "") : plural}`;
}
