import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { forecastHours } from "../../server/calc/forecast.ts";
import { idleState, storageLevel, storageState } from "../../server/calc/storage-clock.ts";
import { figures } from "./check-values/check.ts";

describe("forecast", () => {
  test("steady use has no spread", () => {
    const readings = [0, 30, 60, 90, 120].map((date) => ({ date, hours_h: 100 + date * 0.5 }));
    const found = figures(forecastHours(readings, 210));
    expect(found.mean_hpday).toBeCloseTo(0.5, 12);
    expect([found.earliest, found.expected, found.latest]).toEqual([220, 220, 220]);
  });

  test("summer use gets a spread that holds both seasons", () => {
    const readings = Array.from({ length: 25 }, (_unused, month) => {
      const years = Math.floor(month / 12);
      const flown = Math.min(6, Math.max(0, (month % 12) - 3));
      return { date: month * 30, hours_h: years * 60 + flown * 10 };
    });
    const found = figures(forecastHours(readings, 140));
    expect(found.busy_hpday).toBeGreaterThan(0.3);
    expect(found.slow_hpday).toBeLessThan(found.mean_hpday / 5);
    expect(found.earliest).toBeLessThan(found.expected);
    expect(found.latest).toBeGreaterThan(found.expected + 365);
  });

  test("an engine that stood for most of its record has no latest day", () => {
    const readings = [
      { date: 0, hours_h: 0 },
      { date: 20, hours_h: 12 },
      { date: 320, hours_h: 12 },
    ];
    expect(figures(forecastHours(readings, 15))).toMatchObject({ slow_hpday: 0, latest: undefined });
  });

  test("earliest, expected and latest stand in order, and more hours are never sooner", () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 1, max: 60 }), fc.double({ min: 0, max: 20, noNaN: true })), {
          minLength: 3,
          maxLength: 30,
        }),
        (steps) => {
          let date = 0;
          let hours_h = 0;
          const readings = steps.map(([days, hours]) => {
            date += days;
            hours_h += hours;
            return { date, hours_h };
          });
          const near = forecastHours(readings, hours_h + 25);
          if (!near.ok) return;
          expect(near.earliest).toBeLessThanOrEqual(near.expected);
          expect(near.expected).toBeLessThanOrEqual(near.latest ?? Number.POSITIVE_INFINITY);
          expect(figures(forecastHours(readings, hours_h + 50)).expected).toBeGreaterThanOrEqual(near.expected);
        },
      ),
    );
  });

  const readings = [0, 30, 60].map((date) => ({ date, hours_h: date }));
  test.each([
    ["two readings", forecastHours(readings.slice(1), 100)],
    [
      "too short a record",
      forecastHours(
        [0, 5, 10].map((date) => ({ date, hours_h: date })),
        100,
      ),
    ],
    [
      "no use at all",
      forecastHours(
        [0, 30, 60].map((date) => ({ date, hours_h: 5 })),
        100,
      ),
    ],
    ["already reached", forecastHours(readings, 60)],
    ["hours that run back", forecastHours([...readings, { date: 70, hours_h: 50 }], 100)],
    ["out of order", forecastHours([...readings, { date: 50, hours_h: 70 }], 100)],
  ])("refuses: %s", (_name, result) => {
    expect(result).toMatchObject({ ok: false, refused: expect.stringMatching(/\.$/) });
  });
});

describe("storage", () => {
  test("idle: the last day allowed is due soon, the next one overdue", () => {
    expect(figures(idleState(100, 130, 30)).verdict).toBe("due-soon");
    expect(figures(idleState(100, 131, 30)).verdict).toBe("overdue");
    expect(figures(idleState(100, 110, 30)).verdict).toBe("ahead");
    expect(idleState(100, 99, 30).ok).toBe(false);
    expect(idleState(100, 110, 0).ok).toBe(false);
  });

  test("checks in any order; a late one is kept in sight; the next is counted from the last", () => {
    const found = figures(storageState(0, 365, 30, [90, 30, 500, -5], 100));
    expect(found).toMatchObject({ left_days: 265, nextCheck: 120, checkLeft_days: 20, verdict: "ahead" });
    expect(found.lateChecks).toEqual([{ from: 30, until: 90, days: 60 }]);
  });

  test("an overdue check or an ended preservation is overdue", () => {
    expect(figures(storageState(0, 365, 30, [], 31)).verdict).toBe("overdue");
    expect(figures(storageState(0, 365, 30, [360], 366)).verdict).toBe("overdue");
    expect(figures(storageState(0, 365, 30, [360], 364)).verdict).toBe("due-soon");
  });

  test("refuses a time before the preservation and a wait that no level serves", () => {
    expect(storageState(10, 365, 30, [], 9).ok).toBe(false);
    expect(storageLevel(400, [{ name: "short", until_days: 60 }]).ok).toBe(false);
    expect(storageLevel(0, []).ok).toBe(false);
  });
});
