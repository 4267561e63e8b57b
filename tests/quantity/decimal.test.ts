import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { exact, isShortDecimal, parseDecimal, parseDecimalAt } from "../../server/quantity/decimal.ts";
import { longDecimal, writtenDecimal, writtenFraction, writtenNumber } from "./written-numbers.ts";

/** What a number looks like, said a second time and in another way. */
const PATTERN = /^[+-]?\d+(\.\d+|\/\d+)?$/;

function isExact(text: string): boolean {
  try {
    exact(text);
    return true;
  } catch {
    return false;
  }
}

describe("spellings", () => {
  test.each([
    ["0", 0],
    ["98.012", 98.012],
    ["-3", -3],
    ["+0.5", 0.5],
    ["007", 7],
    ["5/16", 0.3125],
    ["-1/4", -0.25],
    ["-0", -0],
  ])("%s", (text, value) => {
    expect(parseDecimal(text)).toBe(value);
  });

  test.each([
    "",
    "-",
    ".",
    ".5",
    "5.",
    "1.2.3",
    "1e3",
    "0x10",
    "1_000",
    "98,031",
    "1/",
    "/2",
    "1/2/3",
    "1/2.5",
    "- 3",
    " 3",
    "3 ",
    "--3",
    "Infinity",
    "NaN",
    "٣",
    "1/0",
    "5/000",
  ])("%j is not a number", (text) => {
    expect(parseDecimal(text)).toBeNaN();
    expect(() => exact(text)).toThrow(SyntaxError);
  });

  test("any text: both readers accept what the pattern accepts, nothing else", () => {
    const noise = fc.string({ unit: fc.constantFrom("0", "1", "9", ".", "/", "-", "+", "e", " ", ","), maxLength: 8 });
    fc.assert(
      fc.property(fc.oneof(noise, fc.string({ maxLength: 6 })), (text) => {
        const isNumber = PATTERN.test(text) && !/\/0+$/.test(text);
        expect(Number.isNaN(parseDecimal(text))).toBe(!isNumber);
        expect(isExact(text)).toBe(isNumber);
      }),
      { numRuns: 3000 },
    );
  });
});

describe("values", () => {
  test("the double of a decimal is the nearest one: the platform's own conversion", () => {
    fc.assert(fc.property(fc.oneof(writtenDecimal, longDecimal), (text) => parseDecimal(text) === Number(text)));
  });

  test("also where the digits are just too many for a double", () => {
    const digits = fc.tuple(fc.constantFrom("", "-"), fc.bigInt({ min: 10n ** 13n, max: 10n ** 18n }), fc.nat(16));
    fc.assert(
      fc.property(digits, ([sign, size, places]) => {
        const text = size.toString().padStart(places + 1, "0");
        const written = sign + (places === 0 ? text : `${text.slice(0, -places)}.${text.slice(-places)}`);
        expect(parseDecimal(written)).toBe(Number(written));
      }),
      { numRuns: 5000 },
    );
  });

  test("a number inside a line is read without its neighbours", () => {
    fc.assert(
      fc.property(
        fc.string({ maxLength: 5 }),
        fc.oneof(writtenNumber, fc.string({ maxLength: 5 })),
        fc.string(),
        (before, text, after) => {
          const value = parseDecimalAt(before + text + after, before.length, before.length + text.length);
          expect(value).toBe(parseDecimal(text));
        },
      ),
      { numRuns: 2000 },
    );
  });

  test("the exact value written out again is the same number", () => {
    fc.assert(
      fc.property(
        fc.bigInt({ min: -(10n ** 30n), max: 10n ** 30n }),
        fc.integer({ min: 1, max: 25 }),
        (digits, places) => {
          const size = (digits < 0n ? -digits : digits).toString().padStart(places + 1, "0");
          const text = `${digits < 0n ? "-" : ""}${size.slice(0, -places)}.${size.slice(-places)}`;
          const value = exact(text);
          expect(value.s * value.n * 10n ** BigInt(places)).toBe(digits * value.d);
        },
      ),
    );
  });

  test("a fraction is its numerator over its denominator", () => {
    fc.assert(
      fc.property(writtenFraction, (text) => {
        const [above = "", below = ""] = text.split("/");
        const value = exact(text);
        expect(value.n * BigInt(below)).toBe(BigInt(above) * value.d);
      }),
    );
  });

  test("an order between the doubles of two decimals is an order between the decimals", () => {
    fc.assert(
      fc.property(longDecimal, fc.integer({ min: -3, max: 3 }), (text, step) => {
        const other = text.slice(0, -1) + String((Number(text.at(-1)) + step + 10) % 10);
        const byDouble = Math.sign(parseDecimal(text) - parseDecimal(other));
        const exactly = Math.sign(exact(text).compare(exact(other)));
        expect(byDouble === 0 ? 0 : exactly).toBe(byDouble);
      }),
      { numRuns: 2000 },
    );
  });

  test("two short decimals with one double are one number", () => {
    const short = fc
      .tuple(fc.bigInt({ min: 0n, max: 99_999_999_999_999n }), fc.integer({ min: 0, max: 13 }))
      .map(([digits, places]) => {
        const text = digits.toString().padStart(places + 1, "0");
        return places === 0 ? text : `${text.slice(0, -places)}.${text.slice(-places)}`;
      })
      .filter(isShortDecimal);
    fc.assert(
      fc.property(short, fc.integer({ min: 1, max: 9 }), (text, step) => {
        const other = text.slice(0, -1) + String((Number(text.at(-1)) + step) % 10);
        expect(parseDecimal(text)).not.toBe(parseDecimal(other));
      }),
      { numRuns: 2000 },
    );
  });

  test("double and exact value agree for every spelling", () => {
    fc.assert(
      fc.property(writtenNumber, (text) => {
        const value = parseDecimal(text);
        expect(Math.abs(exact(text).valueOf() - value)).toBeLessThanOrEqual(Math.abs(value) * 1e-15);
      }),
    );
  });
});
