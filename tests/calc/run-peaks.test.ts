import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { timeInBands } from "../../server/calc/run-bands.ts";
import { channelPeak, excursions } from "../../server/calc/run-peaks.ts";
import { figures } from "./check-values/check.ts";
import { runTable } from "./run-table-for-tests.ts";

const samples = fc.array(fc.double({ min: 0, max: 100, noNaN: true }), { minLength: 2, maxLength: 60 });
const everyTen = (values: readonly number[]) => values.map((_value, index) => index * 10);

describe("peaks", () => {
  test("highest, lowest and when", () => {
    const found = figures(channelPeak(runTable([0, 10, 20, 30], [5, 9, Number.NaN, 1]), 0, 0));
    expect(found).toMatchObject({ highest: 9, highestAt_s: 10, lowest: 1, lowestAt_s: 30, samples: 3, missing: 1 });
  });

  test("time near the peak is time in the band below it", () => {
    fc.assert(
      fc.property(samples, fc.double({ min: 0.1, max: 50, noNaN: true }), (values, near) => {
        const table = runTable(everyTen(values), values);
        const found = figures(channelPeak(table, 0, near));
        const band = figures(timeInBands(table, 0, [{ from: found.highest - near, until: found.highest }]));
        expect(found.nearHighest_s).toBeCloseTo(band.inside_s[0], 6);
      }),
    );
  });

  test("refuses a channel without values and a negative margin", () => {
    expect(channelPeak(runTable([0, 1], [Number.NaN, Number.NaN]), 0, 1).ok).toBe(false);
    expect(channelPeak(runTable([0, 1], [1, 2]), 0, -1).ok).toBe(false);
  });
});

describe("excursions", () => {
  test("time outside and time inside make the whole run", () => {
    fc.assert(
      fc.property(samples, (values) => {
        const table = runTable(everyTen(values), values);
        const found = figures(excursions(table, 0, { min: 20, max: 80 }));
        const inside = figures(timeInBands(table, 0, [{ from: 20, until: 80 }])).inside_s[0];
        // A line that crosses the whole band between two samples is inside for a moment that one excursion spans.
        const leaps = values.some((value, index) => {
          const next = values[index + 1];
          return (value < 20 && next > 80) || (value > 80 && next < 20);
        });
        fc.pre(!leaps);
        expect(found.outside_s + inside).toBeCloseTo((values.length - 1) * 10, 6);
        expect(found.samples).toBe(values.filter((value) => value < 20 || value > 80).length);
      }),
    );
  });

  test("a value equal to its limit is inside", () => {
    expect(figures(excursions(runTable([0, 1], [80, 80]), 0, { max: 80 })).count).toBe(0);
  });

  test("start and end lie between the samples, and the worst is named", () => {
    const found = figures(excursions(runTable([0, 10, 20, 30], [70, 90, 110, 70]), 0, { max: 80 }));
    expect(found.stretches).toEqual([{ start_s: 5, end_s: 27.5, worst: 110, worstAt_s: 20, samples: 2 }]);
    expect(found.worst).toBe(110);
  });

  test("a bound holds only while its condition holds", () => {
    const table = runTable([0, 10, 20, 30, 40], [10, 10, 10, 60, 60], [600, 1500, 1500, 1500, 600]);
    const found = figures(excursions(table, 0, { min: 55, while: { column: 1, from: 1400, until: 2300 } }));
    expect(found.stretches.map((each) => [each.start_s, each.samples])).toEqual([[10, 2]]);
    expect(figures(excursions(table, 0, { min: 55, while: { column: 1, from: 1600, until: 2300 } })).count).toBe(0);
  });

  test("a missing cell closes a stretch at the last sample that was outside", () => {
    const found = figures(excursions(runTable([0, 10, 20, 30, 40], [90, 90, Number.NaN, 90, 70]), 0, { max: 80 }));
    expect(found.stretches.map((each) => [each.start_s, each.end_s])).toEqual([
      [0, 10],
      [30, 35],
    ]);
  });

  test("keeps the first stretches and counts all", () => {
    const values = Array.from({ length: 100 }, (_unused, index) => (index % 2 === 0 ? 70 : 90));
    const found = figures(excursions(runTable(everyTen(values), values), 0, { max: 80 }, 3));
    expect([found.count, found.stretches.length]).toEqual([50, 3]);
  });

  test("refuses bounds upside down", () => {
    expect(excursions(runTable([0, 1], [1, 2]), 0, { min: 5, max: 4 }).ok).toBe(false);
  });
});
