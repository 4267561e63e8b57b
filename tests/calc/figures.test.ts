import fc from "fast-check";
import { expect, test } from "vitest";
import { settle, show } from "../../server/calc/figures.ts";

test("a difference of two readings is the decimal that it looks like", () => {
  expect(98.031 - 97.889).not.toBe(0.142);
  expect(settle(98.031 - 97.889)).toBe(0.142);
  expect(Object.is(settle(-1e-12), 0)).toBe(true);
});

test("differences of thousandths settle on the exact thousandth", () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 900_000 }), fc.integer({ min: 0, max: 900_000 }), (a, b) => {
      expect(settle(a / 1000 - b / 1000)).toBe(a === b ? 0 : (a - b) / 1000);
    }),
  );
});

test("figures are written without exponent, without needless zeros and without minus zero", () => {
  expect(show(0.0000123)).toBe("0.0000123");
  expect(show(1.25e-7)).toBe("0.000000125");
  expect(show(-2e-9)).toBe("-0.000000002");
  expect(show(3e22)).toBe("30000000000000000000000");
  expect(show(123456789, 9)).toBe("123456789");
  expect(show(97.88900001)).toBe("97.889");
  expect(show(-0)).toBe("0");
});
