import fc from "fast-check";
import { expect, test } from "vitest";
import { normalBelow } from "../../server/calc/normal-distribution.ts";

test("the halves of the distribution add up to one, and it never falls", () => {
  fc.assert(
    fc.property(fc.double({ min: -8, max: 8, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true }), (z, step) => {
      expect(normalBelow(z) + normalBelow(-z)).toBeCloseTo(1, 14);
      expect(normalBelow(z + step)).toBeGreaterThanOrEqual(normalBelow(z) - 1e-15);
    }),
  );
});

test("series and fraction meet where they change over", () => {
  expect(normalBelow(-3 + 1e-13)).toBeCloseTo(normalBelow(-3), 14);
});

test("the far ends are zero and one", () => {
  expect(normalBelow(0)).toBe(0.5);
  expect(normalBelow(-40)).toBe(0);
  expect(normalBelow(40)).toBe(1);
  expect(normalBelow(-38)).toBeGreaterThan(0);
});
