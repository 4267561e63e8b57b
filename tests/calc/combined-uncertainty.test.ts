import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { combinedUncertainty, formulaUncertainty } from "../../server/calc/combined-uncertainty.ts";

test("a three and a four make a five", () => {
  const part = (name: string, expandedUncertainty: number) => ({
    name,
    expandedUncertainty,
    coverageFactor: 2,
    sensitivity: 1,
  });
  expect(combinedUncertainty([part("gauge", 0.003), part("micrometer", 0.004)])).toMatchObject({ expanded: 0.005 });
});

test("parts with different coverage factors are brought to one footing", () => {
  const found = combinedUncertainty(
    [{ name: "ring", expandedUncertainty: 0.006, coverageFactor: 3, sensitivity: -2 }],
    2,
  );
  expect(found.ok && found.standard).toBeCloseTo(0.004, 12);
  expect(found.ok && found.expanded).toBeCloseTo(0.008, 12);
});

describe("a formula of two readings", () => {
  const a = { value: 98.031, expandedUncertainty: 0.003 };
  const b = { value: 97.889, expandedUncertainty: 0.004 };

  test("sum and difference have the same uncertainty", () => {
    const sum = formulaUncertainty("+", a, b);
    const difference = formulaUncertainty("-", a, b);
    expect(sum.ok && sum.expanded).toBeCloseTo(0.005, 12);
    expect(difference.ok && difference.expanded).toBeCloseTo(0.005, 12);
    expect(difference.ok && difference.value).toBeCloseTo(0.142, 12);
  });

  test("relative uncertainties of product and quotient combine", () => {
    const reading = fc.record({
      value: fc.double({ min: 1, max: 100, noNaN: true }),
      expandedUncertainty: fc.double({ min: 0.001, max: 1, noNaN: true }),
    });
    fc.assert(
      fc.property(reading, reading, fc.constantFrom("*" as const, "/" as const), (x, y, operation) => {
        const found = formulaUncertainty(operation, x, y);
        if (!found.ok) throw new Error(found.refused);
        const relative = Math.hypot(x.expandedUncertainty / x.value, y.expandedUncertainty / y.value);
        expect(found.expanded / Math.abs(found.value)).toBeCloseTo(relative, 10);
      }),
    );
  });

  test("a division by zero is refused", () => {
    expect(formulaUncertainty("/", a, { value: 0, expandedUncertainty: 0.1 })).toMatchObject({ ok: false });
  });
});

test.each([
  ["no part", () => combinedUncertainty([])],
  [
    "a negative part",
    () => combinedUncertainty([{ name: "x", expandedUncertainty: -1, coverageFactor: 2, sensitivity: 1 }]),
  ],
  [
    "a factor of zero",
    () => combinedUncertainty([{ name: "x", expandedUncertainty: 1, coverageFactor: 0, sensitivity: 1 }]),
  ],
  [
    "a sensitivity that is none",
    () => combinedUncertainty([{ name: "x", expandedUncertainty: 1, coverageFactor: 2, sensitivity: Number.NaN }]),
  ],
  [
    "an answer without factor",
    () => combinedUncertainty([{ name: "x", expandedUncertainty: 1, coverageFactor: 2, sensitivity: 1 }], 0),
  ],
])("%s is refused", (_title, run) => expect(run()).toMatchObject({ ok: false }));

test("a coverage factor below one is a factor, and one unusable reading is enough to refuse", () => {
  const part = { name: "x", expandedUncertainty: 1, coverageFactor: 0.5, sensitivity: 1 };
  expect(combinedUncertainty([part], 0.5)).toMatchObject({ standard: 2, expanded: 1 });
  const good = { value: 1, expandedUncertainty: 0.1 };
  expect(formulaUncertainty("+", { ...good, value: Number.NaN }, good)).toMatchObject({ ok: false });
  expect(formulaUncertainty("+", good, { ...good, value: Number.NaN })).toMatchObject({ ok: false });
});

test("the working tells each part and the root", () => {
  const found = formulaUncertainty(
    "-",
    { value: 98.031, expandedUncertainty: 0.003 },
    { value: 97.889, expandedUncertainty: 0.004 },
  );
  expect(found).toMatchObject({
    steps: [
      "98.031 - 97.889 = 0.142.",
      "first reading: 0.003 / 2 = 0.0015.",
      "second reading: 0.004 / 2 = 0.002.",
      "Root of the sum of squares 0.0025; times 2 = 0.005. Independent instruments are assumed.",
    ],
  });
});
