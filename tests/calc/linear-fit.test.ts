import fc from "fast-check";
import { expect, test } from "vitest";
import { linearFit } from "../../server/calc/linear-fit.ts";

test("points on a line give that line and no residual", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: -50, max: 50 }),
      fc.integer({ min: -50, max: 50 }),
      fc.uniqueArray(fc.integer({ min: -100, max: 100 }), { minLength: 3, maxLength: 9 }),
      (slope, intercept, xs) => {
        const fit = linearFit(xs.map((x) => ({ x, y: intercept + slope * x })));
        if (!fit.ok) throw new Error(fit.refused);
        expect(fit.slope).toBeCloseTo(slope, 9);
        expect(fit.intercept).toBeCloseTo(intercept, 7);
        expect(fit.residual).toBeCloseTo(0, 7);
      },
    ),
  );
});

test("too few points, one x and unusable points are refused", () => {
  expect(
    linearFit([
      { x: 0, y: 0 },
      { x: 1, y: 1 },
    ]),
  ).toMatchObject({ ok: false, refused: expect.stringContaining("there are 2") });
  expect(linearFit([1, 2, 3].map((y) => ({ x: 5, y })))).toMatchObject({ ok: false });
  expect(linearFit([1, 2, Number.NaN].map((y, x) => ({ x, y })))).toMatchObject({ ok: false });
});
