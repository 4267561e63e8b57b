import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { wearForecast, wearRate, wearShare } from "../../server/calc/wear.ts";
import { inventedWear } from "./check-values/dimensions.ts";

describe("share of the allowance", () => {
  test("a bore grows into its allowance", () => {
    expect(wearShare(98.046, 98.022, 98.07)).toMatchObject({
      allowance_mm: 0.048,
      used_mm: 0.024,
      left_mm: 0.024,
      share: 0.5,
    });
  });
  test("a skirt shrinks into its allowance", () => {
    expect(wearShare(97.86, 97.88, 97.84)).toMatchObject({ used_mm: 0.02, share: 0.5, withinNew: false });
  });
  test("at the wear limit all of it is used, past it more than all", () => {
    expect(wearShare(98.07, 98.022, 98.07)).toMatchObject({ share: 1, left_mm: 0 });
    expect(wearShare(98.082, 98.022, 98.07)).toMatchObject({ share: 1.25, left_mm: -0.012 });
  });
  test("within the new limits nothing is used", () => {
    expect(wearShare(98.01, 98.022, 98.07)).toMatchObject({ share: 0, used_mm: 0, withinNew: true });
    expect(wearShare(98.022, 98.022, 98.07)).toMatchObject({ share: 0, withinNew: true });
  });
  test("no allowance is refused", () => {
    expect(wearShare(98.01, 98.07, 98.07)).toMatchObject({ ok: false });
    expect(wearShare(0, 98.022, 98.07)).toMatchObject({ ok: false });
  });
});

describe("rate and forecast", () => {
  test("the interval of the rate holds the rate in its middle", () => {
    const rate = wearRate(inventedWear);
    if (!rate.ok) throw new Error(rate.refused);
    expect((rate.rateLow_mm_per_h + rate.rateHigh_mm_per_h) / 2).toBeCloseTo(rate.rate_mm_per_h, 15);
  });

  test("two readings have no interval, three no forecast", () => {
    expect(wearRate(inventedWear.slice(0, 2))).toMatchObject({ ok: false });
    expect(wearRate(inventedWear.slice(0, 3)).ok).toBe(true);
    expect(wearForecast(inventedWear.slice(0, 3), 98.07)).toMatchObject({
      ok: false,
      refused: expect.stringContaining("four readings"),
    });
    expect(wearForecast(inventedWear.slice(0, 4), 98.07).ok).toBe(true);
  });

  test("a rate that scatter could make is no ground for a forecast", () => {
    const sizes = [98.012, 98.009, 98.014, 98.01, 98.013];
    const flat = sizes.map((size_mm, index) => ({ hours_h: index * 400, size_mm }));
    expect(wearForecast(flat, 98.07)).toMatchObject({
      ok: false,
      refused: expect.stringContaining("cannot be told from none"),
    });
  });

  test("a limit passed or on the other side is refused", () => {
    expect(wearForecast(inventedWear, 98.04)).toMatchObject({
      ok: false,
      refused: expect.stringContaining("passed or lies on the other side"),
    });
    expect(wearForecast(inventedWear, 97.9)).toMatchObject({ ok: false });
  });

  test("a limit far beyond the readings is refused", () => {
    expect(wearForecast(inventedWear, 98.3)).toMatchObject({
      ok: false,
      refused: expect.stringContaining("more than twice"),
    });
  });

  test("a skirt that shrinks is forecast to its lower limit", () => {
    const mirrored = inventedWear.map(({ hours_h, size_mm }) => ({ hours_h, size_mm: 196 - size_mm }));
    const bore = wearForecast(inventedWear, 98.07);
    const skirt = wearForecast(mirrored, 196 - 98.07);
    if (!bore.ok || !skirt.ok) throw new Error("refused");
    expect(skirt.left_h).toBeCloseTo(bore.left_h, 6);
    expect(skirt.leftLow_h).toBeCloseTo(bore.leftLow_h, 6);
    expect(skirt.leftHigh_h).toBeCloseTo(bore.leftHigh_h, 6);
  });

  test("the forecast lies inside its interval, which widens with the confidence", () => {
    let forecasts = 0;
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -2, max: 2 }), { minLength: 5, maxLength: 8 }), (noise_um) => {
        const readings = noise_um.map((noise, index) => ({
          hours_h: index * 300,
          size_mm: 98.01 + index * 0.01 + noise / 1000,
        }));
        const limit = 98.01 + noise_um.length * 0.012;
        const wide = wearForecast(readings, limit, 0.95);
        const narrow = wearForecast(readings, limit, 0.8);
        if (!wide.ok || !narrow.ok) return;
        forecasts += 1;
        expect(wide.leftLow_h).toBeLessThanOrEqual(narrow.leftLow_h + 1e-6);
        expect(wide.leftHigh_h).toBeGreaterThanOrEqual(narrow.leftHigh_h - 1e-6);
        expect(wide.leftLow_h).toBeLessThanOrEqual(wide.left_h + 1e-6);
        expect(wide.leftHigh_h).toBeGreaterThanOrEqual(wide.left_h - 1e-6);
      }),
    );
    // Most of the drawn sets must have been forecast, or the law was hardly tried.
    expect(forecasts).toBeGreaterThan(50);
  });
});

test("the working of share, rate and forecast", () => {
  expect(wearShare(98.046, 98.022, 98.07)).toMatchObject({
    steps: [
      "Allowance: from 98.022 mm (new) to 98.07 mm (wear limit) = 0.048 mm.",
      "98.046 mm has used 0.024 mm, 50 % of the allowance.",
    ],
  });
  expect(wearShare(98.01, 98.022, 98.07)).toMatchObject({
    steps: [expect.any(String), "98.01 mm is within the new limits: none of the allowance is used."],
  });
  expect(wearRate(inventedWear)).toMatchObject({
    steps: [
      "Least-squares line through 5 readings: 0.00231 mm in 100 h.",
      "Standard error 0.0000712 mm in 100 h; t for 95 % and 3 degrees of freedom is 3.182.",
      "Interval 0.00208 to 0.00254 mm in 100 h.",
    ],
  });
  const forecast = wearForecast(inventedWear, 98.07);
  expect(forecast.ok && forecast.steps[1]).toBe("0.0225 mm to the limit of 98.07 mm at that rate: 973 h.");
  expect(forecast.ok && forecast.steps[2]).toBe(
    "The 95 % band of the line meets the limit between 806 and 1170 h from the last reading.",
  );
});

test("hours left never run below none, though the band may have met the limit already", () => {
  const close = wearForecast(inventedWear, 98.0485);
  if (!close.ok) throw new Error(close.refused);
  expect(close.left_h).toBeGreaterThan(0);
  expect(close.leftLow_h).toBe(0);
  expect(close.leftHigh_h).toBeGreaterThan(close.left_h);
});
