import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { deviationFromBase, drift, metalRate, step } from "../../server/calc/trend.ts";
import { figures } from "./check-values/check.ts";

const reading = fc.integer({ min: -1000, max: 1000 });

describe("drift", () => {
  test("a straight line is found exactly, and three wild readings in ten do not hide it", () => {
    const x = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9];
    const line = x.map((at) => 80 - 0.5 * at);
    expect(figures(drift(x, line))).toMatchObject({ slope: -0.5, intercept: 80, direction: "falling" });
    const wild = line.map((value, index) => (index === 2 || index === 5 || index === 9 ? value - 40 : value));
    expect(figures(drift(x, wild)).slope).toBeCloseTo(-0.5, 0);
  });

  test("shifts and scales as a slope must, whatever the order of the readings", () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(reading, reading), { minLength: 5, maxLength: 20 }),
        reading,
        fc.integer({ min: 1, max: 9 }),
        (points, shift, scale) => {
          const x = points.map(([at]) => at);
          const y = points.map(([, value]) => value);
          fc.pre(new Set(x).size > 1);
          const plain = figures(drift(x, y));
          const moved = figures(
            drift(
              [...x].reverse(),
              [...y].reverse().map((value) => value * scale + shift),
            ),
          );
          expect(moved.slope).toBeCloseTo(plain.slope * scale, 6);
          const from = plain.interval?.from ?? Number.NaN;
          expect(from).toBeLessThanOrEqual(plain.slope);
          expect(plain.interval?.until).toBeGreaterThanOrEqual(plain.slope);
          expect(figures(drift(x, y, 0.99)).interval?.from).toBeLessThanOrEqual(from);
        },
      ),
    );
  });

  test("three or four readings give a slope and no verdict", () => {
    const found = figures(drift([0, 1, 2], [5, 6, 7], 0.95, { axis: "h", reading: "Iron" }));
    expect(found).toMatchObject({ slope: 1, interval: undefined, direction: "unknown" });
    expect(found.words).toBe("Iron changes by 1 per h over 3 readings; too few to say whether that is a drift.");
  });

  test("noise without a drift is called none", () => {
    const y = [5, 7, 4, 6, 5, 7, 4, 6, 5, 6];
    expect(
      figures(
        drift(
          y.map((_value, index) => index),
          y,
        ),
      ).direction,
    ).toBe("none");
  });

  test.each([
    ["two readings", drift([0, 1], [1, 2])],
    ["different lengths", drift([0, 1, 2], [1, 2])],
    ["all at one place", drift([5, 5, 5], [1, 2, 3])],
    ["no number", drift([0, 1, 2], [1, Number.NaN, 3])],
    ["confidence of certainty", drift([0, 1, 2], [1, 2, 3], 1)],
    ["too many", drift(new Array<number>(2001).fill(0), new Array<number>(2001).fill(0))],
  ])("refuses: %s", (_name, result) => {
    expect(result).toMatchObject({ ok: false, refused: expect.stringMatching(/\.$/) });
  });
});

describe("step", () => {
  test("a clear step is placed and sized", () => {
    const found = figures(step([10, 11, 10, 9, 10, 11, 10, 15, 16, 15, 14, 15, 16, 15], 0.05, "Copper"));
    expect(found).toMatchObject({ after: 7, before: 10, behind: 15, change: 5, clear: true });
    expect(found.words).toBe("Copper steps up by 5 after reading 7: 10 before, 15 behind.");
  });

  test("one wild reading is no step, and level readings are none", () => {
    expect(figures(step([10, 11, 10, 9, 99, 11, 10, 9, 10, 11, 10])).clear).toBe(false);
    expect(figures(step([5, 5, 5, 5, 5, 5, 5, 5]))).toMatchObject({ clear: false, probability: 1, change: 0 });
  });

  test("the statistic is that of the definition, and turning the series round keeps it", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 20 }), { minLength: 8, maxLength: 25 }), (y) => {
        let most = 0;
        for (let cut = 1; cut < y.length; cut++) {
          let sum = 0;
          for (let i = 0; i < cut; i++) for (let j = cut; j < y.length; j++) sum += Math.sign(y[i] - y[j]);
          most = Math.max(most, Math.abs(sum));
        }
        expect(figures(step(y)).statistic).toBe(most);
        expect(figures(step([...y].reverse())).statistic).toBe(most);
      }),
    );
  });

  test("refuses fewer than eight readings", () => {
    expect(step([1, 2, 3, 4, 5, 6, 7]).ok).toBe(false);
  });
});

describe("base", () => {
  test("inside, above and below, in words", () => {
    const base = [26, 29, 21, 15];
    expect(figures(deviationFromBase(base, 29)).outside).toBe("inside");
    const above = figures(deviationFromBase(base, 40, "Iron"));
    expect(above).toMatchObject({ base: 23.5, lowest: 15, highest: 29, difference: 16.5, outside: "above" });
    expect(above.words).toBe("Iron, 40, lies above its base by 11 (4 samples from 15 to 29, middle 23.5).");
    expect(figures(deviationFromBase(base, 10)).outside).toBe("below");
  });

  test("a base that does not scatter gives no count of scatters", () => {
    expect(figures(deviationFromBase([5, 5, 5], 6))).toMatchObject({ scatters: undefined, difference: 1 });
  });

  test("two samples are no base", () => {
    expect(deviationFromBase([5, 6], 7)).toEqual({
      ok: false,
      refused: "A base needs at least three samples; there are 2.",
    });
  });

  test("metal an hour", () => {
    expect(figures(metalRate(22, 44)).rate_ppmph).toBe(0.5);
    expect(metalRate(22, 0).ok).toBe(false);
    expect(metalRate(-1, 10).ok).toBe(false);
  });
});
