import fc from "fast-check";
import { Temporal } from "temporal-polyfill";
import { describe, expect, test } from "vitest";
import type { CivilDate } from "../../server/quantity/civil-date.ts";
import { datePartsOf, formatDate, parseDate } from "../../server/quantity/civil-date.ts";
import { addMonths, addYears, ageInMonths } from "../../server/quantity/civil-months.ts";

function dateOf(text: string): CivilDate {
  const date = parseDate(text);
  if (date === undefined) throw new Error(`no date ${text}`);
  return date;
}

const anyDate = fc.integer({ min: -30000, max: 60000 }).map((days) => days as CivilDate);

// A month that lacks the day ends on its last one: the rule `overflow: "constrain"` of the TC39 Temporal
// proposal, and the same as Python's dateutil relativedelta and PostgreSQL's interval arithmetic (from memory).
describe("months and years", () => {
  test.each([
    ["2026-01-31", 1, "2026-02-28"],
    ["2028-01-31", 1, "2028-02-29"],
    ["2026-03-31", 1, "2026-04-30"],
    ["2026-03-31", -1, "2026-02-28"],
    ["2026-08-31", 6, "2027-02-28"],
    ["2026-02-28", 1, "2026-03-28"],
    ["2026-12-15", 1, "2027-01-15"],
    ["2026-05-10", 0, "2026-05-10"],
    ["2026-05-10", -17, "2024-12-10"],
  ])("%s and %d months is %s", (from, months, to) => {
    expect(formatDate(addMonths(dateOf(from), months))).toBe(to);
  });

  test.each([
    ["2024-02-29", 1, "2025-02-28"],
    ["2024-02-29", 4, "2028-02-29"],
    ["2026-03-02", -26, "2000-03-02"],
  ])("%s and %d years is %s", (from, years, to) => {
    expect(formatDate(addYears(dateOf(from), years))).toBe(to);
  });

  test.each([
    ["2026-01-31", "2026-02-27", 0],
    ["2026-01-15", "2026-07-14", 5],
    ["2026-01-15", "2026-07-15", 6],
    ["2026-07-15", "2026-01-15", -6],
    ["2026-07-15", "2026-01-20", -5],
    ["2020-06-01", "2026-06-01", 72],
    ["2026-01-01", "2026-01-01", 0],
    ["2026-11-30", "2027-02-28", 3],
    ["2026-11-30", "2027-02-27", 2],
    ["2026-03-31", "2026-02-28", -1],
    ["2026-03-31", "2026-03-01", 0],
  ])("from %s to %s are %d whole months", (from, to, months) => {
    expect(ageInMonths(dateOf(from), dateOf(to))).toBe(months);
  });

  test("the day of the month is kept, or is the last of a shorter month", () => {
    fc.assert(
      fc.property(anyDate, fc.integer({ min: -240, max: 240 }), (date, months) => {
        const [from, to] = [datePartsOf(date), datePartsOf(addMonths(date, months))];
        expect(to.year * 12 + to.month).toBe(from.year * 12 + from.month + months);
        const lastDay = new Date(Date.UTC(to.year, to.month, 0)).getUTCDate();
        expect(to.day).toBe(Math.min(from.day, lastDay));
      }),
      { numRuns: 1000 },
    );
  });

  test("the whole months from one date to a later one do not pass it, one more would", () => {
    fc.assert(
      fc.property(anyDate, fc.nat(8000), (from, days) => {
        const to = (from + days) as CivilDate;
        const months = ageInMonths(from, to);
        expect(addMonths(from, months) <= to).toBe(true);
        expect(addMonths(from, months + 1) > to).toBe(true);
      }),
      { numRuns: 1000 },
    );
  });

  test("it is Temporal's difference, or one more where a short month completes the last one", () => {
    fc.assert(
      fc.property(anyDate, fc.nat(8000), (from, days) => {
        const to = (from + days) as CivilDate;
        const theirs = Temporal.PlainDate.from(formatDate(from)).until(formatDate(to), {
          largestUnit: "months",
        }).months;
        const end = Temporal.PlainDate.from(formatDate(to));
        const isCutShort = end.day === end.daysInMonth && datePartsOf(from).day > end.day;
        expect(ageInMonths(from, to)).toBe(theirs + (isCutShort ? 1 : 0));
      }),
      { numRuns: 1000 },
    );
  });

  test("a result outside four-digit years throws", () => {
    expect(() => addYears(dateOf("9999-06-01"), 1)).toThrow(RangeError);
    expect(() => addMonths(dateOf("0000-01-01"), -1)).toThrow(RangeError);
  });
});
