import fc from "fast-check";
import { expect, test } from "vitest";
import { studentT } from "../../server/calc/student-t.ts";

const t = (confidence: number, freedom: number): number => {
  const found = studentT(confidence, freedom);
  if (!found.ok) throw new Error(found.refused);
  return found.t;
};

test("one and two degrees of freedom have closed forms", () => {
  fc.assert(
    fc.property(fc.double({ min: 0.5, max: 0.999, noNaN: true }), (confidence) => {
      expect(t(confidence, 1)).toBeCloseTo(Math.tan((Math.PI * confidence) / 2), 9);
      const p = (1 + confidence) / 2;
      expect(t(confidence, 2)).toBeCloseTo((2 * p - 1) * Math.sqrt(2 / (4 * p * (1 - p))), 9);
    }),
  );
});

test("the factor falls with the degrees of freedom and rises with the confidence", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 200 }),
      fc.double({ min: 0.5, max: 0.99, noNaN: true }),
      (freedom, confidence) => {
        expect(t(confidence, freedom + 1)).toBeLessThan(t(confidence, freedom));
        expect(t(confidence + 0.005, freedom)).toBeGreaterThan(t(confidence, freedom));
      },
    ),
  );
});

test.each([
  [0.4, 3],
  [1, 3],
  [Number.NaN, 3],
  [0.95, 0],
  [0.95, 2.5],
])("confidence %s with %s degrees of freedom is refused", (confidence, freedom) => {
  expect(studentT(confidence, freedom)).toMatchObject({ ok: false });
});
