import fc from "fast-check";
import { expect, test } from "vitest";
import { conformanceProbability } from "../../server/calc/conformance-probability.ts";

test("on a lone limit the odds are even", () => {
  expect(conformanceProbability(98.07, 0.0015, { upper: 98.07 })).toMatchObject({
    ok: true,
    probability: 0.5,
    below: 0,
  });
  expect(conformanceProbability(55, 1, { lower: 55 })).toMatchObject({ ok: true, probability: 0.5, above: 0 });
});

test("inside, below and above make up the whole", () => {
  fc.assert(
    fc.property(
      fc.double({ min: -5, max: 5, noNaN: true }),
      fc.double({ min: 0.1, max: 3, noNaN: true }),
      (reading, u) => {
        const found = conformanceProbability(reading, u, { lower: -1, upper: 2 });
        if (!found.ok) throw new Error(found.refused);
        expect(found.probability + found.below + found.above).toBeCloseTo(1, 12);
        const mirrored = conformanceProbability(-reading, u, { lower: -2, upper: 1 });
        expect(mirrored.ok && mirrored.probability).toBeCloseTo(found.probability, 12);
      },
    ),
  );
});

test.each([
  ["no limit", () => conformanceProbability(1, 1, {})],
  ["no uncertainty", () => conformanceProbability(1, 0, { upper: 2 })],
  ["crossed limits", () => conformanceProbability(1, 1, { lower: 2, upper: 1 })],
])("%s is refused", (_title, run) => expect(run()).toMatchObject({ ok: false }));

test("the working has one line for each limit there is", () => {
  const one = conformanceProbability(-5.47, 0.05, { upper: -5.4 });
  expect(one).toMatchObject({
    steps: [
      "Above -5.4: z = (-5.47 - -5.4) / 0.05 = -1.4, probability 0.0808.",
      "Inside the limits with probability 0.919 (JCGM 106, normal distribution).",
    ],
  });
  const both = conformanceProbability(13.6, 1.8, { lower: 12.5, upper: 16.3 });
  expect(both.ok && both.steps.length).toBe(3);
});
