import fc from "fast-check";
import { expect, test } from "vitest";
import { opposedPairs, pairOpposed, weightSet } from "../../server/calc/weight-set.ts";

const parts = (masses: readonly number[]) => masses.map((mass_g, index) => ({ name: `piston ${index + 1}`, mass_g }));

test("the spread at its limit is inside, above it not", () => {
  expect(weightSet(parts([512.3, 514.3, 513]), 2)).toMatchObject({
    spread_g: 2,
    inside: true,
    mean_g: 513.2,
    lightest: { name: "piston 1" },
    heaviest: { name: "piston 2" },
  });
  expect(weightSet(parts([512.3, 514.4]), 2)).toMatchObject({ inside: false });
  expect(weightSet(parts([512.3, 514.4]))).toMatchObject({ inside: undefined });
});

test("opposed pairs have their differences", () => {
  const found = opposedPairs(
    parts([512, 512.4, 513, 511.8]),
    [
      ["piston 1", "piston 2"],
      ["piston 3", "piston 4"],
    ],
    1,
  );
  expect(found).toMatchObject({
    greatestDifference_g: 1.2,
    pairs: [
      { difference_g: 0.4, inside: true },
      { difference_g: 1.2, inside: false },
    ],
  });
});

/** Greatest difference and sum of differences of every way to pair, the least of each. */
function bruteForce(masses: readonly number[]): { greatest: number; sum: number } {
  const least = { greatest: Number.POSITIVE_INFINITY, sum: Number.POSITIVE_INFINITY };
  const pair = (rest: readonly number[], greatest: number, sum: number): void => {
    const [first, ...others] = rest;
    if (first === undefined) {
      least.greatest = Math.min(least.greatest, greatest);
      least.sum = Math.min(least.sum, sum);
      return;
    }
    for (const [index, other] of others.entries()) {
      const difference = Math.abs(first - other);
      pair(
        others.filter((_one, at) => at !== index),
        Math.max(greatest, difference),
        sum + difference,
      );
    }
  };
  pair(masses, 0, 0);
  return least;
}

test("the proposed pairs have the least greatest difference and the least sum", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 3 }),
      fc.array(fc.integer({ min: 500, max: 530 }), { minLength: 6, maxLength: 6 }),
      (half, drawn) => {
        const masses = drawn.slice(0, 2 * half);
        const found = pairOpposed(parts(masses));
        if (!found.ok) throw new Error(found.refused);
        const best = bruteForce(masses);
        expect(found.greatestDifference_g).toBe(best.greatest);
        expect(found.pairs.reduce((sum, one) => sum + one.difference_g, 0)).toBe(best.sum);
      },
    ),
  );
});

test.each([
  ["one part", () => weightSet(parts([512]))],
  ["a mass of zero", () => weightSet(parts([512, 0]))],
  ["a negative limit", () => weightSet(parts([512, 513]), -1)],
  ["a part named twice", () => weightSet([...parts([512]), ...parts([513])])],
  ["an odd number to pair", () => pairOpposed(parts([1, 2, 3]))],
  ["a pair with an unknown part", () => opposedPairs(parts([1, 2]), [["piston 1", "piston 9"]])],
  [
    "a part in two pairs",
    () =>
      opposedPairs(parts([1, 2, 3]), [
        ["piston 1", "piston 2"],
        ["piston 1", "piston 3"],
      ]),
  ],
  ["no pair", () => opposedPairs(parts([1, 2]), [])],
])("%s is refused", (_title, run) => expect(run()).toMatchObject({ ok: false }));

test("the working names the heaviest, the lightest and the limit", () => {
  expect(weightSet(parts([514, 512.3]), 2)).toMatchObject({
    steps: ["Heaviest piston 1 514 g less lightest piston 2 512.3 g = 1.7 g, limit 2 g."],
  });
  expect(pairOpposed(parts([512, 513]))).toMatchObject({ steps: ["piston 1 512 g and piston 2 513 g differ by 1 g."] });
});
