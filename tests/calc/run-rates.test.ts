import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fastestRates } from "../../server/calc/run-rates.ts";
import { figures } from "./check-values/check.ts";
import { runTable } from "./run-table-for-tests.ts";

/** Samples every second of a line that bends once. */
function bent(
  rows: number,
  at: number,
  before_perMin: number,
  behind_perMin: number,
  noise: (row: number) => number = () => 0,
) {
  const time = Array.from({ length: rows }, (_unused, row) => row);
  const values = time.map((row) => {
    const line = row <= at ? (before_perMin * row) / 60 : (before_perMin * at) / 60 + (behind_perMin * (row - at)) / 60;
    return 200 + line + noise(row);
  });
  return runTable(time, values);
}

describe("rates", () => {
  test("finds the slopes of two straight pieces", () => {
    const found = figures(fastestRates(bent(600, 300, 12, -25), 0));
    expect(found.fastestWarming.perMin).toBeCloseTo(12, 6);
    expect(found.fastestCooling.perMin).toBeCloseTo(-25, 6);
    expect(found.fastestCooling.start_s).toBeGreaterThanOrEqual(295);
  });

  test("single and double spikes do not move it; noise of half a degree moves it little", () => {
    const spikes = figures(
      fastestRates(
        bent(600, 599, -6, 0, (row) => (row === 200 || row === 400 || row === 401 ? 80 : 0)),
        0,
      ),
    );
    expect(spikes.fastestCooling.perMin).toBeCloseTo(-6, 0);
    expect(spikes.fastestWarming.perMin).toBeLessThan(0);
    const early = figures(
      fastestRates(
        bent(600, 599, -6, 0, (row) => (row === 1 ? 80 : 0)),
        0,
      ),
    );
    expect(early.fastestCooling.perMin).toBeCloseTo(-6, 1);
    const noisy = figures(
      fastestRates(
        bent(600, 599, -6, 0, (row) => 0.5 * Math.sin(row * 12.9898)),
        0,
      ),
    );
    expect(noisy.fastestCooling.perMin).toBeGreaterThan(-7);
    expect(noisy.fastestCooling.perMin).toBeLessThan(-5);
  });

  test("rows a minute or more apart give the plain difference", () => {
    expect(figures(fastestRates(runTable([0, 60, 120, 180], [200, 190, 165, 160]), 0)).fastestCooling).toEqual({
      perMin: -25,
      start_s: 60,
      end_s: 120,
    });
    expect(figures(fastestRates(runTable([0, 90, 180], [200, 170, 155]), 0)).fastestCooling.perMin).toBeCloseTo(-20, 9);
  });

  test("a rate equal to its limit is inside; time above it is counted", () => {
    const sparse = runTable([0, 60, 120], [200, 180, 160]);
    expect(figures(fastestRates(sparse, 0, { coolLimit_perMin: 20 })).coolingTooFast_s).toBe(0);
    expect(figures(fastestRates(sparse, 0, { coolLimit_perMin: 19.9 })).coolingTooFast_s).toBe(120);
  });

  test("a gap is not a fall, and a log of unknown values gives no rate", () => {
    const gap = figures(fastestRates(runTable([0, 60, 120, 9000, 9060], [200, 200, 200, 20, 20]), 0, { gap_s: 300 }));
    expect(gap.fastestCooling.perMin).toBeCloseTo(0, 9);
    const none = figures(fastestRates(runTable([0, 60], [Number.NaN, Number.NaN]), 0));
    expect([none.windows, none.fastestCooling.perMin]).toEqual([0, Number.NaN]);
  });

  test("the moving sums equal a fit of each window from scratch", () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 7, max: 40 }), fc.double({ min: 0, max: 300, noNaN: true })), {
          minLength: 8,
          maxLength: 80,
        }),
        (rows) => {
          let now = 0;
          const time = rows.map(([step]) => {
            now += step;
            return now;
          });
          const values = rows.map(([, value]) => value);
          const found = figures(fastestRates(runTable(time, values), 0));
          let fastest = Number.POSITIVE_INFINITY;
          for (let end = 0; end < time.length; end++) {
            let start = end;
            while (start >= 0 && time[end] - time[start] < 60) start--;
            if (start < 0) continue;
            const t = time.slice(start, end + 1);
            const v = values.slice(start, end + 1);
            const mt = t.reduce((a, b) => a + b, 0) / t.length;
            const mv = v.reduce((a, b) => a + b, 0) / v.length;
            const slope =
              t.reduce((sum, at, index) => sum + (at - mt) * (v[index] - mv), 0) /
              t.reduce((sum, at) => sum + (at - mt) ** 2, 0);
            fastest = Math.min(fastest, 60 * slope);
          }
          expect(found.windows > 0).toBe(Number.isFinite(fastest));
          fc.pre(Number.isFinite(fastest));
          expect(found.fastestCooling.perMin).toBeCloseTo(fastest, 6);
        },
      ),
    );
  });

  test("a long dense log keeps its digits", () => {
    const rows = 200_000;
    const time = Array.from({ length: rows }, (_unused, row) => row / 10);
    const values = time.map((t) => 400 - t / 60);
    const found = figures(fastestRates(runTable(time, values), 0));
    expect(found.fastestCooling.perMin).toBeCloseTo(-1, 6);
    expect(found.fastestWarming.perMin).toBeCloseTo(-1, 6);
  });

  test("refuses one sample and a window of no time", () => {
    expect(fastestRates(runTable([0], [1]), 0).ok).toBe(false);
    expect(fastestRates(runTable([0, 1], [1, 2]), 0, { window_s: 0 }).ok).toBe(false);
  });
});
