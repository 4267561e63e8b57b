import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Measure } from "../../server/quantity/compare.ts";
import {
  compareDifference,
  compareExact,
  compareFast,
  compareMeasures,
  convertExact,
  convertNumber,
  difference,
  exactIn,
  insideRange,
  measure,
} from "../../server/quantity/compare.ts";
import { exact } from "../../server/quantity/decimal.ts";
import { allUnits, findUnit, unitsOfDimension } from "../../server/quantity/units.ts";
import { m, unit } from "./known.ts";
import { longDecimal, writtenDecimal, writtenNumber } from "./written-numbers.ts";

/** Two units of one dimension, any dimension. */
const unitPair = fc
  .constantFrom(...allUnits())
  .chain((first) =>
    fc.tuple(fc.constant(first), fc.constantFrom(...unitsOfDimension(findUnit(first)?.dimension ?? ""))),
  );

/** A rational as a text of the language: a whole number or a fraction. */
function textOf(value: ReturnType<typeof exact>): string {
  const sign = value.s < 0n ? "-" : "";
  return value.d === 1n ? `${sign}${value.n}` : `${sign}${value.n}/${value.d}`;
}

describe("measure", () => {
  test("keeps number and unit as written", () => {
    expect(m("98.010", "mm")).toMatchObject({ value: 98.01, text: "98.010", unit: { spelling: "mm" } });
  });

  test.each([
    ["98,010", "mm"],
    ["98.010", "mmm"],
    ["", "mm"],
    ["1", ""],
  ])("%j %j is none", (text, unit) => {
    expect(measure(text, unit)).toBeUndefined();
  });
});

describe("a reading that equals its limit is inside it", () => {
  // 1 in = 25.4 mm exactly: NIST SP 811 (2008) B.8.
  test("in the other unit family, both ways, for any decimal inch", () => {
    fc.assert(
      fc.property(writtenDecimal, (inches) => {
        const millimetres = exact(inches).mul(exact("25.4"));
        const text = millimetres.toString(12);
        // Terminating by construction: at most six places and one more from 25.4.
        const reading = m(text, "mm");
        const limit = m(inches, "in");
        expect(insideRange(reading, limit, limit)).toBe("inside");
        expect(insideRange(limit, reading, reading)).toBe("inside");
        expect(compareMeasures(reading, limit)).toBe(0);
      }),
      { numRuns: 1000 },
    );
  });

  test("for any unit and any other of its dimension", () => {
    fc.assert(
      fc.property(unitPair, writtenNumber, ([from, to], text) => {
        const limit = m(text, from);
        const converted = textOf(exactIn(limit, unit(to)));
        expect(insideRange(m(converted, to), limit, limit)).toBe("inside");
      }),
      { numRuns: 2000 },
    );
  });

  test("after a subtraction: bore less skirt equals the fit's limit", () => {
    fc.assert(
      fc.property(fc.nat(2_000_000), fc.nat(2000), (skirt_um, fit_um) => {
        const mm = (um: number): string => `${Math.floor(um / 1000)}.${String(um % 1000).padStart(3, "0")}`;
        const fit = difference(m(mm(skirt_um + fit_um), "mm"), m(mm(skirt_um), "mm"));
        const limit = m(mm(fit_um), "mm");
        expect(compareExact(fit.exact, fit.unit, limit)).toBe(0);
        expect(compareExact(fit.exact, fit.unit, m(mm(fit_um + 1), "mm"))).toBe(-1);
      }),
      { numRuns: 1000 },
    );
  });

  test("after a subtraction across families: a bore in inches less a piston in millimetres", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 99999 }), fc.integer({ min: 0, max: 999 }), (bore_thou, fit_thou) => {
        // thousandths of an inch, and the piston as exact ten-thousandths of a millimetre (25.4 um each).
        const inches = (thou: number): string => `${Math.floor(thou / 1000)}.${String(thou % 1000).padStart(3, "0")}`;
        fc.pre(bore_thou > fit_thou);
        const piston = (BigInt(bore_thou - fit_thou) * 254n).toString().padStart(5, "0");
        const fit = difference(m(inches(bore_thou), "in"), m(`${piston.slice(0, -4)}.${piston.slice(-4)}`, "mm"));
        expect(compareExact(fit.exact, fit.unit, m(inches(fit_thou), "in"))).toBe(0);
        expect(compareExact(fit.exact, fit.unit, m(String(fit_thou), "thou"))).toBe(0);
      }),
      { numRuns: 1000 },
    );
  });

  test("where doubles would fail: 98.115 - 97.985 is 0.130", () => {
    expect(98.115 - 97.985).not.toBe(0.13);
    const fit = difference(m("98.115", "mm"), m("97.985", "mm"));
    expect(compareExact(fit.exact, fit.unit, m("0.130", "mm"))).toBe(0);
  });

  test.each([
    ["98.022", "inside"],
    ["98.0220", "inside"],
    ["98.023", "above"],
    ["98.000", "inside"],
    ["97.999", "below"],
  ])("98.000..98.022 mm: %s is %s", (text, place) => {
    expect(insideRange(m(text, "mm"), m("98.000", "mm"), m("98.022", "mm"))).toBe(place);
  });

  test("an end that is absent is open", () => {
    expect(insideRange(m("1", "mm"))).toBe("inside");
    expect(insideRange(m("1", "mm"), undefined, m("0.5", "mm"))).toBe("above");
    expect(insideRange(m("1", "mm"), m("1/16", "in"))).toBe("below");
  });
});

describe("the fast way agrees with exact arithmetic", () => {
  const sign = (a: Measure, b: Measure): number => Math.sign(exactIn(a, b.unit).compare(exact(b.text)));

  test("any two numbers, any two units of a dimension", () => {
    fc.assert(
      fc.property(unitPair, writtenNumber, writtenNumber, ([left, right], a, b) => {
        const [x, y] = [m(a, left), m(b, right)];
        expect(compareMeasures(x, y)).toBe(sign(x, y));
      }),
      { numRuns: 3000 },
    );
  });

  test("numbers a hair apart, in one unit", () => {
    fc.assert(
      fc.property(longDecimal, fc.integer({ min: 0, max: 9 }), (text, last) => {
        const [x, y] = [m(text, "mm"), m(text.slice(0, -1) + String(last), "mm")];
        expect(compareMeasures(x, y)).toBe(sign(x, y));
      }),
      { numRuns: 2000 },
    );
  });

  test("a number and its own conversion, a hair up or down", () => {
    fc.assert(
      fc.property(unitPair, writtenDecimal, fc.constantFrom(-1n, 0n, 1n), ([from, to], text, step) => {
        const near = exactIn(m(text, from), unit(to)).add(exact(`1/${10n ** 18n}`).mul(step));
        const written = textOf(near);
        expect(compareMeasures(m(written, to), m(text, from))).toBe(Number(step));
        expect(compareMeasures(m(text, from), m(written, to))).toBe(0 - Number(step));
      }),
      { numRuns: 2000 },
    );
  });

  test.each([
    ["a number beyond the doubles", `1${"0".repeat(400)}`, `1${"0".repeat(399)}1`, -1],
    ["a number too small for a double", `0.${"0".repeat(400)}1`, `0.${"0".repeat(400)}2`, -1],
    ["zero and a number too small for a double", "0", `0.${"0".repeat(330)}1`, -1],
    ["whole numbers that share a double", "9007199254740992", "9007199254740993", -1],
    ["signs of zero", "-0", "+0.000", 0],
  ])("%s", (_, a, b, order) => {
    expect(compareMeasures(m(a, "mm"), m(b, "mm"))).toBe(order);
    expect(compareMeasures(m(a, "mm"), m(`${b}`, "thou"))).toBe(sign(m(a, "mm"), m(b, "thou")));
  });

  test("where products fall below the normal doubles they do not decide", () => {
    // In doubles the first product rounds up to the least positive number and the second one down to zero.
    const less = m(`0.${"0".repeat(320)}2468352`, "mm");
    const more = m(`0.${"0".repeat(317)}246934`, "um");
    expect(less.value * 0.001).toBeGreaterThan(more.value * 0.000001);
    expect(compareMeasures(less, more)).toBe(-1);
  });

  test("absolute zero is one temperature on each scale", () => {
    expect(compareMeasures(m("-459.67", "F"), m("0", "K"))).toBe(0);
    expect(compareMeasures(m("-273.15", "C"), m("-459.67", "F"))).toBe(0);
    expect(compareMeasures(m("-273.1500000000000000001", "C"), m("0", "K"))).toBe(-1);
  });

  test("the text is asked for only when the doubles cannot decide", () => {
    const bound = m("98.070", "mm");
    const never = (): string => expect.fail("asked for the text");
    expect(compareFast(98.069, bound.unit, never, bound)).toBe(-1);
    expect(compareFast(98.071, bound.unit, never, bound)).toBe(1);
    expect(compareFast(98.07, bound.unit, () => "98.07", bound)).toBe(0);
    expect(compareFast(3.9, unit("in"), never, bound)).toBe(1);
  });
});

test("a difference compared the fast way agrees with exact arithmetic, near the bound and far from it", () => {
  fc.assert(
    fc.property(
      unitPair,
      writtenDecimal,
      writtenDecimal,
      fc.integer({ min: -2, max: 2 }),
      ([one, other], a, b, hairs) => {
        const [x, y] = [m(a, one), m(b, other)];
        const exactly = difference(x, y);
        const near = exactly.exact.add(exact(`1/${10n ** 14n}`).mul(hairs));
        const bound = m(textOf(near), exactly.unit.spelling);
        expect(compareDifference(x, y, bound)).toBe(Math.sign(0 - hairs));
        const far = m("3.25", exactly.unit.spelling);
        expect(compareDifference(x, y, far)).toBe(compareExact(exactly.exact, exactly.unit, far));
      },
    ),
    { numRuns: 2000 },
  );
});

describe("conversion", () => {
  test("there and back is the same number, exactly", () => {
    fc.assert(
      fc.property(unitPair, writtenNumber, ([from, to], text) => {
        const [a, b] = [unit(from), unit(to)];
        const value = exact(text);
        expect(convertExact(convertExact(value, a, b), b, a).toFraction()).toBe(value.toFraction());
      }),
      { numRuns: 1000 },
    );
  });

  test("the double is the exact result within rounding", () => {
    fc.assert(
      fc.property(unitPair, writtenDecimal, ([from, to], text) => {
        const [a, b] = [unit(from), unit(to)];
        const value = Number(text);
        const right = exactIn(m(text, from), b).valueOf();
        const shift = Math.abs(convertNumber(0, a, b));
        expect(Math.abs(convertNumber(value, a, b) - right)).toBeLessThanOrEqual((Math.abs(right) + 2 * shift) * 1e-15);
      }),
      { numRuns: 1000 },
    );
  });
});

describe("temperatures and their differences", () => {
  test("a difference of two readings is a step of degrees", () => {
    const drop = difference(m("180", "C"), m("160", "C"));
    expect(drop.unit.spelling).toBe("dC");
    expect(compareExact(drop.exact, drop.unit, m("20", "dC"))).toBe(0);
    // 20 kelvins are 36 steps of Fahrenheit: NIST SP 811 (2008) B.8.
    expect(compareExact(drop.exact, drop.unit, m("36", "dF"))).toBe(0);
  });

  test("readings on two scales: 212 F less 90 C is 18 dF", () => {
    const rise = difference(m("212", "F"), m("90", "C"));
    expect(rise.unit.spelling).toBe("dF");
    expect(rise.exact.toFraction()).toBe("18");
  });

  test("a bound on a scale beside a difference is taken as a step", () => {
    const split = difference(m("165", "C"), m("150", "C"));
    expect(compareExact(split.exact, split.unit, m("15", "C"))).toBe(0);
    expect(compareExact(split.exact, split.unit, m("27", "F"))).toBe(0);
  });

  test("a step is not compared with a temperature", () => {
    expect(() => compareMeasures(m("20", "dC"), m("20", "C"))).toThrow(RangeError);
  });
});

test("dimensions that differ throw, also where the doubles are far apart", () => {
  expect(() => compareMeasures(m("1", "mm"), m("1000", "psi"))).toThrow("mm is length, psi is pressure");
  expect(() => insideRange(m("1", "mm"), m("1", "kg"))).toThrow(RangeError);
  expect(() => compareDifference(m("9", "mm"), m("1", "kg"), m("1", "mm"))).toThrow(RangeError);
  expect(() => compareDifference(m("9", "mm"), m("1", "mm"), m("1", "kg"))).toThrow(RangeError);
  expect(() => difference(m("1", "mm"), m("1", "kg"))).toThrow(RangeError);
  expect(() => compareExact(exact("1"), m("1", "mm").unit, m("1", "kg"))).toThrow(RangeError);
});
