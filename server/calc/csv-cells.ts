/**
 * Reading single cells of a data logger's file from its bytes: numbers, clock times and dates.
 */

const zero = 48;
const nine = 57;
const colon = 58;
const point = 46;
const minus = 45;
const plus = 43;
const blank = 32;

/** Powers of ten that binary floating point holds exactly. */
const powersOfTen = Float64Array.from({ length: 23 }, (_unused, power) => 10 ** power);

/**
 * Value of a decimal from its digits. With at most 15 digits both parts are exact, so one division rounds correctly.
 * @param digits the digits as a whole number, below 10^15
 * @param decimals how many of them stand behind the point, 0 to 22
 */
export function scaleDecimal(digits: number, decimals: number): number {
  return decimals === 0 ? digits : digits / powersOfTen[decimals];
}

/** Text of a cell, with quotes taken off, doubled quotes undone and blanks at both ends trimmed. */
export function cellText(bytes: Uint8Array, start: number, end: number): string {
  const text = new TextDecoder().decode(bytes.subarray(start, end)).trim();
  if (text.length >= 2 && text.startsWith('"') && text.endsWith('"'))
    return text.slice(1, -1).replaceAll('""', '"').trim();
  return text;
}

/**
 * A number as loggers write it: sign, digits with a point (or comma), exponent. NaN for anything else.
 * @param text trimmed text
 * @param decimal the decimal mark of the file
 */
export function parseDecimal(text: string, decimal: "." | ","): number {
  const plain = decimal === "," ? text.replace(",", ".") : text;
  if (!/^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/.test(plain)) return Number.NaN;
  return Number(plain);
}

/** Days since 1970-01-01 of a date of the Gregorian calendar, NaN when there is no such day. */
export function civilDay(year: number, month: number, day: number): number {
  if (month < 1 || month > 12 || day < 1) return Number.NaN;
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const length = month === 2 ? (leap ? 29 : 28) : month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
  if (day > length) return Number.NaN;
  // Years counted from March put the leap day at the end, so that the months before it have fixed lengths.
  const shifted = month > 2 ? year : year - 1;
  const era = Math.floor(shifted / 400);
  const yearOfEra = shifted - era * 400;
  const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + day - 1;
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * 146_097 + dayOfEra - 719_468;
}

/** How the time column is written. */
export type TimeKind = "elapsed" | "clock" | "date-time";

/** Kind of a time cell by its look; elapsed when it has no colon. */
export function timeKindOf(text: string): TimeKind {
  if (!text.includes(":")) return "elapsed";
  return /^\d{4}-\d{2}-\d{2}[T ]/.test(text) ? "date-time" : "clock";
}

/**
 * Seconds of a clock time `hh:mm`, `hh:mm:ss` or `hh:mm:ss.fff` in bytes, NaN when it is none. 24:00 is not a time.
 * @param bytes the file
 * @param start first byte of the cell
 * @param end byte after the cell
 */
export function clockSeconds(bytes: Uint8Array, start: number, end: number): number {
  let at = start;
  let stop = end;
  while (at < stop && bytes[at] === blank) at++;
  while (stop > at && bytes[stop - 1] === blank) stop--;
  let field = 0;
  let digits = 0;
  let value = 0;
  let fraction = 0;
  let scale = 0;
  let hours = 0;
  let minutes = 0;
  for (; at < stop; at++) {
    const code = bytes[at];
    if (code >= zero && code <= nine) {
      if (scale > 0) {
        fraction = fraction * 10 + (code - zero);
        if (++scale > 10) return Number.NaN;
      } else {
        value = value * 10 + (code - zero);
        if (++digits > 2) return Number.NaN;
      }
    } else if (code === colon && scale === 0 && digits > 0 && field < 2) {
      if (field === 0) hours = value;
      else minutes = value;
      field++;
      value = 0;
      digits = 0;
    } else if (code === point && field === 2 && scale === 0 && digits > 0) {
      scale = 1;
    } else {
      return Number.NaN;
    }
  }
  if (digits === 0 || field === 0 || scale === 1) return Number.NaN;
  let seconds = value;
  if (field === 1) {
    minutes = value;
    seconds = 0;
  }
  if (hours > 23 || minutes > 59 || seconds > 59) return Number.NaN;
  const part = scale > 1 ? scaleDecimal(fraction, scale - 1) : 0;
  return hours * 3600 + minutes * 60 + seconds + part;
}

/**
 * Seconds since 1970-01-01 00:00 of `yyyy-mm-dd hh:mm[:ss[.fff]]`, a `T` or a blank between, an ending `Z` allowed and
 * no other zone. NaN when it is none. Only the order of year, month, day is read: others cannot be told apart.
 */
export function dateTimeSeconds(bytes: Uint8Array, start: number, end: number): number {
  let at = start;
  while (at < end && bytes[at] === blank) at++;
  if (end - at < 16) return Number.NaN;
  const year = digitsAt(bytes, at, 4);
  const month = digitsAt(bytes, at + 5, 2);
  const day = digitsAt(bytes, at + 8, 2);
  const between = bytes[at + 10];
  if (bytes[at + 4] !== minus || bytes[at + 7] !== minus || (between !== blank && between !== 84)) return Number.NaN;
  let stop = end;
  if (bytes[stop - 1] === 90) stop--;
  return civilDay(year, month, day) * 86_400 + clockSeconds(bytes, at + 11, stop);
}

function digitsAt(bytes: Uint8Array, at: number, count: number): number {
  let value = 0;
  for (let index = 0; index < count; index++) {
    const code = bytes[at + index];
    if (!(code >= zero && code <= nine)) return Number.NaN;
    value = value * 10 + (code - zero);
  }
  return value;
}

/** Codes that the row reader shares with this file. */
export const codes = {
  zero,
  nine,
  point,
  minus,
  plus,
  blank,
  comma: 44,
  semicolon: 59,
  tab: 9,
  quote: 34,
  lf: 10,
  cr: 13,
} as const;
