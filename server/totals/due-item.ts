/** What an item that is due looks like, and how it is put into words. */
import type { DueAmounts, MeasureDue } from "../calc/due.ts";
import type { Ask } from "../checking/ask.ts";
import type { At } from "../facts/types.ts";
import { type CivilDate, formatDate } from "../quantity/civil-date.ts";
import type { Measure } from "../quantity/compare.ts";

export type DueVerdict = "ahead" | "due-soon" | "overdue" | "beyond-tolerance" | "never-done" | "done" | "unknown";

export interface DoneAt {
  readonly date: CivilDate;
  readonly hours_h: number | undefined;
  readonly ref: string;
  readonly at: At;
}

export interface DueItem {
  readonly kind: "task" | "bulletin" | "life" | "deferral";
  /** The task, bulletin or defect, or the part and its serial. */
  readonly name: string;
  readonly title: string;
  /** Where it is laid down: block and line. */
  readonly ref: string;
  readonly at: At;
  readonly verdict: DueVerdict;
  /** The measure that decides, and all of them: hours, days since 1970-01-01, or cycles. */
  readonly governing: MeasureDue | undefined;
  readonly measures: readonly MeasureDue[];
  /** `25 h or 6 months`. */
  readonly interval: string;
  /** `5 h`, or "" for none. */
  readonly tolerance: string;
  readonly last: DoneAt | undefined;
  /** Where the count begins when it was never done: the overhaul, or the engine new. */
  readonly since: { readonly what: "overhaul" | "new" | "fitted" | "deferred"; readonly date: CivilDate } | undefined;
  /** Why the verdict is unknown. */
  readonly reason: string;
  /** Bulletins only. */
  readonly force: "" | "mandatory" | "recommended" | "optional";
}

/** Amounts as the computation of due points takes them. A month of notice or tolerance is taken as 30 days. */
export function amounts(values: readonly Measure[], monthsAsDays = false): DueAmounts & { readonly days?: number } {
  const found: { hours_h?: number; months?: number; days?: number; cycles?: number } = {};
  for (const { value, unit } of values) {
    if (unit.dimension === "calendar") {
      const months = value * unit.factorNumber;
      if (monthsAsDays) found.days = Math.round(30 * months);
      else found.months = months;
    } else if (unit.dimension === "time" && unit.factorNumber >= 86_400)
      found.days = (value * unit.factorNumber) / 86_400;
    else if (unit.dimension === "time") found.hours_h = (value * unit.factorNumber) / 3600;
    else if (unit.dimension.startsWith("count:")) found.cycles = value;
  }
  return found;
}

/** Intervals as written: `25 h or 6 months`. */
export const written = (values: readonly Measure[]): string =>
  values.map((value) => `${value.text} ${value.unit.spelling}`).join(" or ");

/** The notice of the shop: 10 h or 30 days where it says nothing. */
export function noticeOf(ask: Ask): { readonly hours_h: number; readonly days: number; readonly cycles: number } {
  const { hours_h, days, cycles } = amounts(ask.shop().notices, true);
  return { hours_h: hours_h ?? 10, days: days ?? 30, cycles: cycles ?? 10 };
}

/** `at 1210.0 h`, `on 2026-08-31`, `at 300 cycles`: where a measure is due. */
export function dueText(measure: MeasureDue): string {
  if (measure.measure === "calendar") return `on ${formatDate(measure.dueAt as CivilDate)}`;
  return measure.measure === "hours" ? `at ${hoursText(measure.dueAt)}` : `at ${measure.dueAt} cycles`;
}

/** `12.5 h`, `30 days`, `4 cycles`: an amount left or past, without its sign. */
export function leftText(measure: MeasureDue): string {
  const left = Math.abs(measure.left);
  if (measure.measure === "hours") return hoursText(left);
  const word = measure.measure === "calendar" ? "day" : "cycle";
  return `${left} ${word}${left === 1 ? "" : "s"}`;
}

function hoursText(hours_h: number): string {
  const hundredths = Math.round(hours_h * 100);
  return `${(hundredths / 100).toFixed(hundredths % 10 === 0 ? 1 : 2)} h`;
}
