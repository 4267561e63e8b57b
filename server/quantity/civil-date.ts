/**
 * Civil dates and times of day without zone, as plain numbers.
 *
 * A record names days, not instants. A day is held as the count of days from 1970-01-01, so that
 * dates compare with `<` and subtract to days. Months and years of the calendar are in
 * `civil-months.ts`, apart from here because that file loads a calendar library.
 */

declare const civilDateBrand: unique symbol;

/** Days since 1970-01-01, a whole number; earlier days are negative. */
export type CivilDate = number & { readonly [civilDateBrand]: true };

const DAYS_BEFORE_MONTH = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334] as const;
const DAYS_OF_MONTH = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;
const DAYS_0000_TO_1970 = 719528;

/** True if the year of the Gregorian calendar has a 29 February (ISO 8601, proleptic before 1582). */
export function isLeapYear(year: number): boolean {
  return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
}

/** Two digits at `at` as a number, or -1. */
function twoDigits(text: string, at: number): number {
  const tens = text.charCodeAt(at) - 48;
  const ones = text.charCodeAt(at + 1) - 48;
  return tens >= 0 && tens <= 9 && ones >= 0 && ones <= 9 ? tens * 10 + ones : -1;
}

/**
 * Day of a year, month and day of the month.
 *
 * @param year 0 to 9999
 * @param month 1 to 12
 * @param day 1 to the length of the month
 * @returns the date, or `undefined` if there is no such day
 */
export function civilDate(year: number, month: number, day: number): CivilDate | undefined {
  if (month < 1 || month > 12 || day < 1 || year < 0 || year > 9999) return undefined;
  const leap = isLeapYear(year);
  const length = month === 2 && leap ? 29 : (DAYS_OF_MONTH[month - 1] ?? 0);
  if (day > length) return undefined;
  const before = year - 1;
  // Leap days of the years 0 to `before`; year 0 is itself a leap year, and before it there is none.
  const leapDays = year === 0 ? 0 : 1 + Math.floor(before / 4) - Math.floor(before / 100) + Math.floor(before / 400);
  const monthStart = (DAYS_BEFORE_MONTH[month - 1] ?? 0) + (leap && month > 2 ? 1 : 0);
  return (year * 365 + leapDays + monthStart + day - 1 - DAYS_0000_TO_1970) as CivilDate;
}

/**
 * Reads a date.
 *
 * @param text `YYYY-MM-DD`, exactly ten characters
 * @returns the date, or `undefined` if the text is no date or the day does not exist
 */
export function parseDate(text: string): CivilDate | undefined {
  if (text.length !== 10 || text.charCodeAt(4) !== 45 || text.charCodeAt(7) !== 45) return undefined;
  const century = twoDigits(text, 0);
  const year = twoDigits(text, 2);
  const month = twoDigits(text, 5);
  const day = twoDigits(text, 8);
  if (century < 0 || year < 0 || month < 0 || day < 0) return undefined;
  return civilDate(century * 100 + year, month, day);
}

/** Year, month (1 to 12) and day of the month (1 to 31) of a date. */
export interface DateParts {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

/**
 * Year, month and day of a date.
 *
 * @param date any date from 0000-01-01 to 9999-12-31
 */
export function datePartsOf(date: CivilDate): DateParts {
  const days = date + DAYS_0000_TO_1970;
  let year = Math.floor(days / 365.2425);
  while (dayNumberOfYear(year + 1) <= days) year++;
  while (dayNumberOfYear(year) > days) year--;
  let left = days - dayNumberOfYear(year);
  let month = 1;
  for (; month < 12; month++) {
    const length = month === 2 && isLeapYear(year) ? 29 : (DAYS_OF_MONTH[month - 1] ?? 0);
    if (left < length) break;
    left -= length;
  }
  return { year, month, day: left + 1 };
}

/** Days from 0000-01-01 to the first day of `year`. */
function dayNumberOfYear(year: number): number {
  const before = year - 1;
  return year <= 0
    ? year * 365
    : year * 365 + 1 + Math.floor(before / 4) - Math.floor(before / 100) + Math.floor(before / 400);
}

function padded(value: number, width: number): string {
  return String(value).padStart(width, "0");
}

/**
 * Writes a date as `YYYY-MM-DD`.
 *
 * @param date any date from 0000-01-01 to 9999-12-31
 */
export function formatDate(date: CivilDate): string {
  const { year, month, day } = datePartsOf(date);
  return `${padded(year, 4)}-${padded(month, 2)}-${padded(day, 2)}`;
}

/**
 * The date some days later, or earlier for a negative count.
 *
 * @param days a whole number of days
 */
export function addDays(date: CivilDate, days: number): CivilDate {
  return (date + days) as CivilDate;
}

/**
 * Days from one date to another; negative if `to` is earlier.
 *
 * @returns whole days
 */
export function daysBetween(from: CivilDate, to: CivilDate): number {
  return to - from;
}

/**
 * Reads a time of day.
 *
 * @param text `HH:MM` or `HH:MM:SS`, 00:00 to 23:59:59
 * @returns seconds after midnight, or `undefined` if the text is no time
 */
export function parseTime(text: string): number | undefined {
  const withSeconds = text.length === 8;
  if ((!withSeconds && text.length !== 5) || text.charCodeAt(2) !== 58) return undefined;
  if (withSeconds && text.charCodeAt(5) !== 58) return undefined;
  const hours = twoDigits(text, 0);
  const minutes = twoDigits(text, 3);
  const seconds = withSeconds ? twoDigits(text, 6) : 0;
  if (hours < 0 || hours > 23 || minutes < 0 || minutes > 59 || seconds < 0 || seconds > 59) return undefined;
  return hours * 3600 + minutes * 60 + seconds;
}

/**
 * Writes a time of day, with seconds only where there are some. A count past midnight wraps round.
 *
 * @param seconds whole seconds after midnight
 */
export function formatTime(seconds: number): string {
  const ofDay = ((seconds % 86400) + 86400) % 86400;
  const rest = ofDay % 60;
  const clock = `${padded(Math.floor(ofDay / 3600), 2)}:${padded(Math.floor((ofDay % 3600) / 60), 2)}`;
  return rest === 0 ? clock : `${clock}:${padded(rest, 2)}`;
}

/**
 * Writes a duration as the language writes it: `1 h 45 min`, `30 s`, `-5 min`.
 *
 * @param seconds any number of seconds, rounded to whole ones
 */
export function formatDuration(seconds: number): string {
  const whole = Math.round(Math.abs(seconds));
  const sign = seconds < 0 && whole > 0 ? "-" : "";
  const parts: string[] = [];
  const hours = Math.floor(whole / 3600);
  const minutes = Math.floor((whole % 3600) / 60);
  const rest = whole % 60;
  if (hours > 0) parts.push(`${hours} h`);
  if (minutes > 0) parts.push(`${minutes} min`);
  if (rest > 0 || parts.length === 0) parts.push(`${rest} s`);
  return sign + parts.join(" ");
}
