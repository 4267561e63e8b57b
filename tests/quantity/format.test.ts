import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { compareMeasures, exactIn } from "../../server/quantity/compare.ts";
import { exact } from "../../server/quantity/decimal.ts";
import {
  counterpart,
  decimalsIn,
  decimalsOf,
  formatConverted,
  formatExact,
  formatIn,
  formatNumber,
  inOtherFamily,
} from "../../server/quantity/format.ts";
import { allUnits } from "../../server/quantity/units.ts";
import { m, unit } from "./known.ts";
import { writtenDecimal } from "./written-numbers.ts";

// Values follow from the factors that published-factors.test.ts checks; the count of digits is this
// project's rule (the last place is at most one step of what was written), common practice, no source.
test.each([
  ["98.012", "mm", "3.85874 in"],
  ["3.8587", "in", "98.011 mm"],
  ["0.002", "in", "0.05 mm"],
  ["2", "thou", "0.05 mm"],
  ["5/16", "in", "7.9 mm"],
  ["40", "N.m", "29.5 lbf.ft"],
  ["300", "lbf.in", "33.9 N.m"],
  ["20", "psi", "138 kPa"],
  ["100", "C", "212 F"],
  ["59", "F", "15.0 C"],
  ["20", "C/min", "36 F/min"],
  ["30", "dC", "54 dF"],
  ["38", "L", "10.0 gal"],
  ["1.0", "gal", "3.8 L"],
  ["2", "qt", "1.9 L"],
  ["1013", "hPa", "29.91 inHg"],
  ["29.92", "inHg", "1013.2 hPa"],
  ["0.50", "lb/hp.h", "304 g/kW.h"],
  ["36", "g.mm", "0.050 oz.in"],
  ["125", "kW", "168 hp"],
  ["-40", "F", "-40.0 C"],
  ["38", "l", "10.0 gal"],
  ["40", "Nm", "29.5 lbf.ft"],
])("%s %s is %s in the other family", (text, spelling, other) => {
  expect(inOtherFamily(m(text, spelling))).toBe(other);
});

test.each(["rpm", "h", "deg", "%", "GBP", "cycles", "V", "months"])("%s is the same in both families", (spelling) => {
  expect(inOtherFamily(m("12", spelling))).toBe("");
});

test("every unit's counterpart is a unit of its dimension, and another one", () => {
  const withOne = allUnits().filter((spelling) => counterpart(unit(spelling)) !== undefined);
  expect(withOne.length).toBeGreaterThan(80);
  const wrong = withOne.filter((spelling) => {
    const other = counterpart(unit(spelling));
    return other?.dimension !== unit(spelling).dimension || other.preferred === spelling;
  });
  expect(wrong).toEqual([]);
});

test("shown in the other family, a value moves by no more than half a step of what was written", () => {
  const units = allUnits().filter((spelling) => counterpart(unit(spelling)) !== undefined);
  fc.assert(
    fc.property(fc.constantFrom(...units), writtenDecimal, (spelling, text) => {
      const shown = inOtherFamily(m(text, spelling)).split(" ");
      const back = exactIn(m(shown[0] ?? "", shown[1] ?? ""), unit(spelling));
      const halfStep = exact(`1/${2n * 10n ** BigInt(decimalsOf(text))}`);
      const moved = back.sub(exact(text)).abs();
      // Where a whole number of the other unit is coarser than the step, a whole number is what is shown.
      const isWhole = decimalsIn(m(text, spelling), unit(shown[1] ?? "")) === 0;
      expect(isWhole || moved.lte(halfStep)).toBe(true);
    }),
    { numRuns: 2000 },
  );
});

test.each([
  ["98.010", 3],
  ["98", 0],
  ["-0.5", 1],
  ["5/16", 2],
  ["1/2", 1],
  ["7/128", 3],
])("%s has %d decimals", (text, places) => {
  expect(decimalsOf(text)).toBe(places);
});

describe("formatExact", () => {
  test.each([
    ["0.5", 0, "1"],
    ["-0.5", 0, "-1"],
    ["0.125", 2, "0.13"],
    ["2.675", 2, "2.68"],
    ["1/3", 4, "0.3333"],
    ["-0.001", 2, "0.00"],
    ["99.995", 2, "100.00"],
    ["0", 3, "0.000"],
    ["12", 0, "12"],
    ["-7/2", 1, "-3.5"],
  ])("%s with %d decimals is %s", (text, digits, written) => {
    expect(formatExact(exact(text), digits)).toBe(written);
  });

  test("a number written with its own decimals is unchanged", () => {
    fc.assert(
      fc.property(writtenDecimal, (text) => {
        const written = formatExact(exact(text), decimalsOf(text));
        expect(compareMeasures(m(written, "mm"), m(text, "mm"))).toBe(0);
        expect(decimalsOf(written)).toBe(decimalsOf(text));
      }),
    );
  });

  test("away from ties it agrees with the platform's toFixed", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -1_000_000, max: 1_000_000 }),
        fc.integer({ min: 0, max: 4 }),
        (thousandths, digits) => {
          fc.pre(thousandths % 5 !== 0);
          expect(formatExact(exact(`${thousandths}/1000`), digits)).toBe(formatNumber(thousandths / 1000, digits));
        },
      ),
    );
  });
});

test("formatNumber and formatConverted", () => {
  expect(formatNumber(-0.0001, 2)).toBe("0.00");
  expect(formatNumber(29.456, 1)).toBe("29.5");
  expect(formatConverted(100, unit("F"), unit("C"), 4)).toBe("37.7778 C");
  expect(formatIn(m("1", "in"), unit("mm"), 3)).toBe("25.400 mm");
  expect(() => formatIn(m("1", "in"), unit("kg"))).toThrow(RangeError);
});
