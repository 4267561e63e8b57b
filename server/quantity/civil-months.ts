import { Temporal } from "temporal-polyfill";
import type { CivilDate } from "./civil-date.ts";
import { datePartsOf, parseDate } from "./civil-date.ts";

/**
 * Months and years of the calendar. A month that is too short for the day ends on its last day:
 * one month after 31 January is 28 or 29 February. Kept apart from `civil-date.ts` because the
 * calendar library costs start-up time.
 */

function plainDateOf(date: CivilDate): Temporal.PlainDate {
  const { year, month, day } = datePartsOf(date);
  return new Temporal.PlainDate(year, month, day);
}

function civilDateOf(date: Temporal.PlainDate): CivilDate {
  const civil = parseDate(date.toString());
  if (civil === undefined) throw new RangeError(`${date.toString()} is outside the years 0000 to 9999`);
  return civil;
}

/**
 * The date some calendar months later, or earlier for a negative count.
 *
 * @param months a whole number of months
 * @throws {RangeError} if the result is outside the years 0000 to 9999
 */
export function addMonths(date: CivilDate, months: number): CivilDate {
  const key = `${date}|${months}`;
  let later = kept.get(key);
  if (later === undefined) {
    later = civilDateOf(plainDateOf(date).add({ months }));
    if (kept.size >= KEPT_AT_MOST) kept.clear();
    kept.set(key, later);
  }
  return later;
}

/** A fleet asks for the same days and intervals again and again, and the calendar does not change. */
const kept = new Map<string, CivilDate>();
const KEPT_AT_MOST = 4096;

/**
 * The date some calendar years later; 29 February becomes 28 February in a common year.
 *
 * @param years a whole number of years
 * @throws {RangeError} if the result is outside the years 0000 to 9999
 */
export function addYears(date: CivilDate, years: number): CivilDate {
  return civilDateOf(plainDateOf(date).add({ years }));
}

/**
 * Whole calendar months from `from` to `to`, counted so that it agrees with {@link addMonths}: a month
 * is complete on the day that adding it gives, so from 30 November to 28 February are three. (The
 * library's own difference says two there, and would call a task not due on its due date.)
 *
 * @returns whole months towards zero; negative if `to` is earlier
 */
export function ageInMonths(from: CivilDate, to: CivilDate): number {
  const [start, end] = [datePartsOf(from), datePartsOf(to)];
  const months = (end.year - start.year) * 12 + end.month - start.month;
  const reached = addMonths(from, months);
  if (to >= from) return reached > to ? months - 1 : months;
  return reached < to ? months + 1 : months;
}
