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
  return civilDateOf(plainDateOf(date).add({ months }));
}

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
 * Whole calendar months from `from` to `to`; negative if `to` is earlier.
 *
 * @returns the greatest number of months whose addition does not pass `to`
 */
export function ageInMonths(from: CivilDate, to: CivilDate): number {
  return plainDateOf(from).until(plainDateOf(to), { largestUnit: "months" }).months;
}

