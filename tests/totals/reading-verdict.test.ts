/**
 * A reading at its limit is inside, and one as far from it as the uncertainty is proven: exactly, in whatever units they are written.
 *
 * The expected verdicts are worked out here with whole numbers (BigInt) of a ten-thousandth of a micrometre, on which both millimetres and inches of
 * the decimals used fall exactly (1 in = 25.4 mm, SP 811); nothing of the program under test is used for them.
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parsePlace } from "../../server/facts/place.ts";
import type { InstrumentBlock, LimitLine } from "../../server/facts/types.ts";
import { type Measure, measure } from "../../server/quantity/compare.ts";
import { disagree, judgeReading } from "../../server/totals/reading-verdict.ts";

/** @param tenths whole ten-thousandths of a unit */
function quantity(tenths: bigint, unit: "mm" | "in"): Measure {
  const digits = tenths.toString().padStart(5, "0");
  const made = measure(`${digits.slice(0, -4)}.${digits.slice(-4)}`, unit);
  if (!made) throw new Error("no measure");
  return made;
}

/** In 1e-7 mm: a ten-thousandth of a millimetre is 1,000 of them, one of an inch 25,400. */
const scale = { mm: 1000n, in: 25_400n } as const;

function limit(low: Measure | undefined, high: Measure | undefined): LimitLine {
  const place = parsePlace("cylinder.bore");
  if (!place) throw new Error("no place");
  return {
    at: 1,
    stat: "value",
    place,
    formula: [],
    bare: { low, high, text: "" },
    newLimits: undefined,
    wearLimits: undefined,
    size: undefined,
    condition: undefined,
    state: "",
    reference: "",
  };
}

const gauge = (uncertainty: Measure): InstrumentBlock => ({ uncertainty }) as InstrumentBlock;

const units = fc.constantFrom("mm" as const, "in" as const);

describe("judging against a greatest limit", () => {
  test("agrees with whole numbers, near and at the limit and the guard band", () => {
    let met = { out: 0, notProven: 0, proven: 0, atLimit: 0, atBand: 0 };
    fc.assert(
      fc.property(
        fc.bigInt({ min: 30_000n, max: 40_000n }),
        units,
        units,
        units,
        fc.bigInt({ min: 1n, max: 40n }),
        fc.constantFrom(-2n, -1n, 0n, 1n, 2n),
        fc.boolean(),
        (bound, boundUnit, unit, uUnit, u, step, nearBand) => {
          // The reading nearest to the limit, or to the end of its guard band, that four decimals can say; then some steps to either side.
          const aim = bound * scale[boundUnit] - (nearBand ? u * scale[uUnit] : 0n);
          const tenths = aim / scale[unit] + step;
          const distance = bound * scale[boundUnit] - tenths * scale[unit];
          const judged = judgeReading(
            { result: "value", measure: quantity(tenths, unit) },
            limit(undefined, quantity(bound, boundUnit)),
            gauge(quantity(u, uUnit)),
            "guarded",
          );
          const isOut = distance < 0n;
          expect(judged.verdict).toBe(isOut ? "out" : "in");
          expect(judged.notProven).toBe(!isOut && distance < u * scale[uUnit]);
          if (distance === 0n) met = { ...met, atLimit: met.atLimit + 1 };
          if (distance === u * scale[uUnit]) met = { ...met, atBand: met.atBand + 1 };
          if (isOut) met = { ...met, out: met.out + 1 };
          else if (judged.notProven) met = { ...met, notProven: met.notProven + 1 };
          else met = { ...met, proven: met.proven + 1 };
        },
      ),
      { numRuns: 4000, seed: 12 },
    );
    // The property says nothing unless each case was met.
    for (const count of Object.values(met)) expect(count).toBeGreaterThan(50);
  });

  test("98.070 mm and 9807/2540 in are one length", () => {
    const reading = measure("9807/2540", "in");
    const bound = measure("98.070", "mm");
    if (!reading || !bound) throw new Error("no measure");
    expect(
      judgeReading({ result: "value", measure: reading }, limit(undefined, bound), undefined, "simple").verdict,
    ).toBe("in");
    const over = measure("98071/25400", "in");
    if (!over) throw new Error("no measure");
    expect(judgeReading({ result: "value", measure: over }, limit(undefined, bound), undefined, "simple").verdict).toBe(
      "out",
    );
  });
});

describe("the uncertainty as a share of the reading", () => {
  test("2 % of 50 psi is 1 psi exactly", () => {
    const share = measure("2", "%");
    const bound = measure("49", "psi");
    const reading = measure("50", "psi");
    const less = measure("49.9", "psi");
    if (!share || !bound || !reading || !less) throw new Error("no measure");
    expect(
      judgeReading({ result: "value", measure: reading }, limit(bound, undefined), gauge(share), "guarded").notProven,
    ).toBe(false);
    expect(
      judgeReading({ result: "value", measure: less }, limit(bound, undefined), gauge(share), "guarded").notProven,
    ).toBe(true);
  });
});

describe("readings that disagree", () => {
  const mm = (text: string): Measure => measure(text, "mm") as Measure;
  test("by more than both uncertainties in quadrature: 0.003 and 0.004 make 0.005", () => {
    expect(disagree(mm("98.031"), mm("98.026"), 0.003, 0.004)).toBe(false);
    expect(disagree(mm("98.031"), mm("98.0259"), 0.003, 0.004)).toBe(true);
  });
  test("by more than one step of the coarser, where no uncertainty is stated", () => {
    expect(disagree(mm("98.03"), mm("98.021"), undefined, undefined)).toBe(false);
    expect(disagree(mm("98.03"), mm("98.019"), undefined, undefined)).toBe(true);
  });
});
