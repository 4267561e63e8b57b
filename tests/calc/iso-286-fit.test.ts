import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fitLimits, gradeTolerance, toleranceClassLimits } from "../../server/calc/iso-286-fit.ts";
import {
  fineShaftLowerDeviation_um,
  fineStepEnds_mm,
  gradeTolerance_um,
  shaftLowerDeviation_um,
  shaftUpperDeviation_um,
  stepEnds_mm,
} from "../../server/calc/iso-286-tables.ts";

function deviations(nominal_mm: number, toleranceClass: string): [number, number] {
  const limits = toleranceClassLimits(nominal_mm, toleranceClass);
  if (!limits.ok) throw new Error(limits.refused);
  return [limits.lowerDeviation_um, limits.upperDeviation_um];
}

describe("steps are over, up to and including", () => {
  test.each([
    [30, "H7", 21],
    [30.001, "H7", 25],
    [50, "H7", 25],
    [50.001, "H7", 30],
    [80, "H7", 30],
    [3, "H7", 10],
    [500, "H7", 63],
  ])("%s %s ends at %s um", (nominal, toleranceClass, upper) => {
    expect(deviations(nominal, toleranceClass)).toEqual([0, upper]);
  });

  test("30 and 50 mm stay in the step that ends with them (two public pages have it wrong)", () => {
    expect(fitLimits(50, "H7/p6")).toMatchObject({
      leastClearance_um: -42,
      greatestClearance_um: -1,
      kind: "interference",
    });
    expect(deviations(30, "g6")).toEqual([-20, -7]);
  });

  test("r and s use the finer steps above 50 mm", () => {
    expect(deviations(65, "r6")).toEqual([41, 60]);
    expect(deviations(65.001, "r6")).toEqual([43, 62]);
  });
});

describe("wrong figures of public files are not adopted", () => {
  test("6 to 10 mm f5 is -13/-19", () => expect(deviations(8, "f5")).toEqual([-19, -13]));
  test("to 3 mm grades 6 and 7 are 6 and 10 um", () => {
    expect(gradeTolerance(2, 6)).toMatchObject({ tolerance_um: 6 });
    expect(gradeTolerance(2, 7)).toMatchObject({ tolerance_um: 10 });
  });
  test("50 H7/k6 is a transition fit of -18 to +23 um (one page turns the shaft round)", () => {
    expect(fitLimits(50, "H7/k6")).toMatchObject({
      leastClearance_um: -18,
      greatestClearance_um: 23,
      kind: "transition",
    });
  });
});

test("limits of size are exact decimals", () => {
  expect(fitLimits(25, "H7/h6")).toMatchObject({
    hole: { least_mm: 25, greatest_mm: 25.021 },
    shaft: { least_mm: 24.987, greatest_mm: 25 },
    kind: "clearance",
  });
});

describe("what the tables do not carry is refused", () => {
  test.each([
    [0, "H7", "greater than zero"],
    [-5, "H7", "greater than zero"],
    [500.1, "H7", "reach to 500 mm"],
    [Number.NaN, "H7", "greater than zero"],
    [25, "H12", "grades 5 to 11"],
    [25, "H4", "grades 5 to 11"],
    [25, "e8", "not among them"],
    [25, "S7", "not among them"],
    [25, "P8", "to grade 7 only"],
    [25, "N9", "to grade 8 only"],
    [25, "M5", "grade 4"],
    [280, "M6", "departs from the rule"],
    [25, "Js7", "mixes capitals"],
    [25, "7H", "not a tolerance class"],
    [25, "", "not a tolerance class"],
  ])("%s %s: %s", (nominal, toleranceClass, says) => {
    const result = toleranceClassLimits(nominal, toleranceClass);
    expect(result).toMatchObject({ ok: false, refused: expect.stringContaining(says) });
  });

  test.each(["H7", "H7/p6/h6", "h6/H7", "H7/H6", "p6/h6"])("%s is not a fit", (text) => {
    expect(fitLimits(25, text)).toMatchObject({ ok: false });
  });

  test("a grade outside the tables", () => expect(gradeTolerance(25, 12)).toMatchObject({ ok: false }));
});

test("every row of the tables is as long as its steps", () => {
  for (const row of [
    ...Object.values(gradeTolerance_um),
    ...Object.values(shaftUpperDeviation_um),
    ...Object.values(shaftLowerDeviation_um),
  ]) {
    expect(row.length).toBe(stepEnds_mm.length);
  }
  for (const row of Object.values(fineShaftLowerDeviation_um)) expect(row.length).toBe(fineStepEnds_mm.length);
});

const size = fc.integer({ min: 1, max: 500_000 }).map((um) => um / 1000);
const grade = fc.integer({ min: 5, max: 11 });

test("the width of every class is the tolerance of its grade", () => {
  fc.assert(
    fc.property(
      size,
      grade,
      fc.constantFrom("f", "g", "h", "js", "k", "m", "n", "p", "r", "s", "F", "G", "H", "JS"),
      (nominal, g, letters) => {
        const [lower, upper] = deviations(nominal, `${letters}${g}`);
        const width = gradeTolerance(nominal, g);
        expect(width).toMatchObject({ ok: true, tolerance_um: upper - lower });
      },
    ),
  );
});

test("tolerances grow with the size and with the grade", () => {
  fc.assert(
    fc.property(size, size, fc.integer({ min: 5, max: 10 }), (a, b, g) => {
      const width = (nominal: number, of: number) => {
        const found = gradeTolerance(nominal, of);
        return found.ok ? found.tolerance_um : Number.NaN;
      };
      expect(width(Math.max(a, b), g)).toBeGreaterThanOrEqual(width(Math.min(a, b), g));
      expect(width(a, g + 1)).toBeGreaterThan(width(a, g));
    }),
  );
});

test("holes K to P with the shaft h give the same fit as the hole H with the mirrored shaft, one grade finer", () => {
  // The rule for these holes exists so that H7/p6 and P7/h6 have the same clearances.
  fc.assert(
    fc.property(size, fc.constantFrom("k", "m", "n", "p", "r"), (nominal, letter) => {
      fc.pre(nominal > 3);
      const holeBasis = fitLimits(nominal, `H7/${letter}6`);
      const shaftBasis = fitLimits(nominal, `${letter.toUpperCase()}7/h6`);
      if (!holeBasis.ok || !shaftBasis.ok) throw new Error("refused");
      expect(shaftBasis.leastClearance_um).toBe(holeBasis.leastClearance_um);
      expect(shaftBasis.greatestClearance_um).toBe(holeBasis.greatestClearance_um);
    }),
  );
});

test("up to and including 3 mm, holes K to R are the mirrored shaft alone", () => {
  expect(deviations(3, "N7")).toEqual([-14, -4]);
  expect(deviations(3, "K5")).toEqual([-4, 0]);
  expect(deviations(3.001, "N7")).toEqual([-16, -4]);
});

test("the working names step, grade and limits", () => {
  expect(gradeTolerance(30, 7)).toMatchObject({
    steps: ["30 mm lies in the step over 18 up to and including 30 mm; grade 7 is 21 um wide there."],
  });
  expect(toleranceClassLimits(98, "g6")).toMatchObject({
    steps: [
      "98 g6: grade 6 is 22 um wide at this size.",
      "Deviations -34 and -12 um give 97.966 to 97.988 mm (ISO 286).",
    ],
  });
});
