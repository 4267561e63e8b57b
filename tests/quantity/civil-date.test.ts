import fc from "fast-check";
import { Temporal } from "temporal-polyfill";
import { describe, expect, test } from "vitest";
import type { CivilDate } from "../../server/quantity/civil-date.ts";
import {
  addDays,
  civilDate,
  datePartsOf,
  daysBetween,
  formatDate,
  formatDuration,
  formatTime,
  parseDate,
  parseTime,
} from "../../server/quantity/civil-date.ts";

/** Outside check: the Temporal proposal's polyfill, and dates of its published documentation. */

const EPOCH = Temporal.PlainDate.from("1970-01-01");

function dateOf(text: string): CivilDate {
  const date = parseDate(text);
  if (date === undefined) throw new Error(`no date ${text}`);
  return date;
}

function temporalDays(text: string): number | undefined {
  try {
    return EPOCH.until(Temporal.PlainDate.from(text, { overflow: "reject" }), { largestUnit: "days" }).days;
  } catch {
    return undefined;
  }
}

describe("parseDate", () => {
  test("every day that could be written in 1890 to 2110 and round the ends of the range", () => {
    const years = [
      0,
      1,
      4,
      100,
      400,
      1582,
      1600,
      9996,
      9999,
      ...Array.from({ length: 221 }, (_, index) => 1890 + index),
    ];
    let wrong = 0;
    for (const year of years) {
      for (let month = 0; month <= 13; month++) {
        // The inner days of a month are covered by its ends; 0 and 28 to 32 are where calendars go wrong.
        for (const day of [0, 1, 2, 27, 28, 29, 30, 31, 32]) {
          const text = `${String(year).padStart(4, "0")}-${String(month).padStart(2, "0")}-${String(day).padStart(2, "0")}`;
          if (parseDate(text) !== temporalDays(text)) wrong++;
        }
      }
    }
    expect(wrong).toBe(0);
  });

  test("any day of any year agrees with Temporal, both ways", () => {
    fc.assert(
      fc.property(fc.integer({ min: -719528, max: 2932896 }), (days) => {
        const text = EPOCH.add({ days }).toString();
        expect(parseDate(text)).toBe(days);
        expect(formatDate(days as CivilDate)).toBe(text);
      }),
      { numRuns: 2000 },
    );
  });

  test.each([
    "",
    "2026-3-2",
    "2026-03-2",
    "26-03-02",
    "2026/03/02",
    "2026-03-02 ",
    " 2026-03-02",
    "2026-03-0a",
    "2026-13-01",
    "2026-02-29",
    "1900-02-29",
    "20260302",
    "+026-03-02",
    "2026-03-02T00:00",
  ])("%j is no date", (text) => {
    expect(parseDate(text)).toBeUndefined();
  });

  test("earlier days compare as less", () => {
    expect(dateOf("2025-12-31") < dateOf("2026-01-01")).toBe(true);
    expect(dateOf("1970-01-01")).toBe(0);
    expect(dateOf("1969-12-31")).toBe(-1);
  });
});

describe("parts and days", () => {
  test("parts of any date put together again", () => {
    fc.assert(
      fc.property(fc.integer({ min: -719528, max: 2932896 }), (days) => {
        const { year, month, day } = datePartsOf(days as CivilDate);
        expect(civilDate(year, month, day)).toBe(days);
      }),
      { numRuns: 2000 },
    );
  });

  test("days between and days added agree with Temporal", () => {
    fc.assert(
      fc.property(fc.integer({ min: -20000, max: 60000 }), fc.integer({ min: -5000, max: 5000 }), (start, days) => {
        const from = EPOCH.add({ days: start });
        const to = from.add({ days });
        expect(formatDate(addDays(dateOf(from.toString()), days))).toBe(to.toString());
        expect(daysBetween(dateOf(from.toString()), dateOf(to.toString()))).toBe(
          from.until(to, { largestUnit: "days" }).days,
        );
      }),
    );
  });

  test.each([
    [2026, 0, 1],
    [2026, 13, 1],
    [2026, 1, 0],
    [2026, 4, 31],
    [-1, 1, 1],
    [10000, 1, 1],
  ])("%d-%d-%d does not exist", (year, month, day) => {
    expect(civilDate(year, month, day)).toBeUndefined();
  });
});

describe("times of day", () => {
  test("every minute, and every second of two hours, agrees with Temporal", () => {
    for (let second = 0; second < 86400; second += second < 7200 ? 1 : 60) {
      const time = Temporal.PlainTime.from("00:00").add({ seconds: second });
      expect(parseTime(time.toString({ smallestUnit: "second" }))).toBe(second);
      const clock = time.toString({ smallestUnit: "minute" });
      expect(parseTime(clock)).toBe(second - (second % 60));
      expect(formatTime(second)).toBe(time.toString({ smallestUnit: second % 60 === 0 ? "minute" : "second" }));
    }
  });

  test.each([
    "",
    "9:05",
    "24:00",
    "12:60",
    "12:00:60",
    "12.30",
    "12:3",
    "12:30:",
    "12:30:5",
    "12:30:00.5",
    "aa:bb",
    "12:30 ",
  ])("%j is no time", (text) => {
    expect(parseTime(text)).toBeUndefined();
  });

  test("a count past midnight wraps round", () => {
    expect(formatTime(86400 + 60)).toBe("00:01");
    expect(formatTime(-60)).toBe("23:59");
  });
});

test.each([
  [0, "0 s"],
  [30, "30 s"],
  [60, "1 min"],
  [6300, "1 h 45 min"],
  [7200, "2 h"],
  [3601, "1 h 1 s"],
  [90061, "25 h 1 min 1 s"],
  [-300, "-5 min"],
  [59.6, "1 min"],
  [-0.2, "0 s"],
])("%d seconds is written %s", (seconds, text) => {
  expect(formatDuration(seconds)).toBe(text);
});
