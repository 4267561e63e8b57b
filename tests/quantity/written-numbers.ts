import fc from "fast-check";

/** A decimal as a fitter writes it: up to five digits before the point, up to six after it. */
export const writtenDecimal: fc.Arbitrary<string> = fc
  .tuple(
    fc.constantFrom("", "-", "+"),
    fc.integer({ min: 0, max: 99999 }),
    fc.integer({ min: 0, max: 6 }),
    fc.nat(999999),
  )
  .map(([sign, whole, places, tail]) => {
    const decimals = String(tail).padStart(6, "0").slice(0, places);
    return sign + whole + (places === 0 ? "" : `.${decimals}`);
  });

/** A decimal with far more digits than a double can hold. */
export const longDecimal: fc.Arbitrary<string> = fc
  .tuple(fc.constantFrom("", "-"), fc.bigInt({ min: 0n, max: 10n ** 40n }), fc.integer({ min: 1, max: 39 }))
  .map(([sign, digits, places]) => {
    const text = digits.toString().padStart(places + 1, "0");
    return `${sign}${text.slice(0, -places)}.${text.slice(-places)}`;
  });

/** A fraction of an inch, and others. */
export const writtenFraction: fc.Arbitrary<string> = fc
  .tuple(fc.nat(999), fc.integer({ min: 1, max: 128 }))
  .map(([above, below]) => `${above}/${below}`);

/** Any number that the language allows. */
export const writtenNumber: fc.Arbitrary<string> = fc.oneof(writtenDecimal, writtenFraction, longDecimal);
