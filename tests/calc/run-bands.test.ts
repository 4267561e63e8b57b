import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { timeInBands } from "../../server/calc/run-bands.ts";
import { figures } from "./check-values/check.ts";
import { runTable } from "./run-table-for-tests.ts";

describe("time in bands", () => {
  test("the whole line holds all the known time, and parts of it add up", () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.tuple(
            fc.integer({ min: 0, max: 60 }),
            fc.oneof(fc.double({ min: 0, max: 2500, noNaN: true }), fc.constant(Number.NaN)),
          ),
          {
            minLength: 1,
            maxLength: 40,
          },
        ),
        fc.double({ min: 1, max: 2499, noNaN: true }),
        (rows, cut) => {
          let now = 0;
          const table = runTable(
            rows.map(([step]) => {
              now += step;
              return now;
            }),
            rows.map(([, value]) => value),
          );
          // No sample stands on the cut, so no stretch belongs to both parts.
          fc.pre(!rows.some(([, value]) => value === cut));
          const found = figures(
            timeInBands(table, 0, [
              { from: -1, until: 3000 },
              { from: -1, until: cut },
              { from: cut, until: 3000 },
            ]),
          );
          expect(found.inside_s[0]).toBeCloseTo(found.known_s, 6);
          expect(found.inside_s[1] + found.inside_s[2]).toBeCloseTo(found.known_s, 6);
          expect(found.known_s + found.missing_s).toBeCloseTo(now - rows[0][0], 6);
        },
      ),
    );
  });

  test("the edge is found between samples, and a flat stretch on the edge is inside", () => {
    const table = runTable([0, 100, 200], [0, 1000, 1000]);
    expect(figures(timeInBands(table, 0, [{ from: 250, until: 500 }])).inside_s).toEqual([25]);
    expect(figures(timeInBands(table, 0, [{ from: 1000, until: 1000 }])).inside_s).toEqual([100]);
  });

  test("a gap and a missing cell are not joined", () => {
    const table = runTable([0, 10, 20, 30, 5000, 5010], [800, 800, Number.NaN, 800, 800, 800]);
    const found = figures(timeInBands(table, 0, [{ from: 0, until: 900 }], 60));
    expect(found).toEqual({ ok: true, inside_s: [20], known_s: 20, missing_s: 20 + 4970 });
  });

  test("refuses a band upside down, an unknown column, an empty log", () => {
    const table = runTable([0, 1], [1, 2]);
    expect(timeInBands(table, 0, [{ from: 2, until: 1 }]).ok).toBe(false);
    expect(timeInBands(table, 3, []).ok).toBe(false);
    expect(timeInBands(runTable([], []), 0, []).ok).toBe(false);
    expect(timeInBands({ time_s: Float64Array.of(0, 1), columns: [Float64Array.of(1)] }, 0, []).ok).toBe(false);
  });
});
