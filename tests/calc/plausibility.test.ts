import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { median, modifiedZ, plausibility, transpositions } from "../../server/calc/plausibility.ts";

const siblings = [98.01, 98.012, 98.015, 98.016, 98.017, 98.021, 98.02, 98.013];
const believable = { least: 90, greatest: 110 };

function suspicions(input: Partial<Parameters<typeof plausibility>[0]> & { written: string }) {
  const found = plausibility({ resolution: 0.001, ...input });
  if (!found.ok) throw new Error(found.refused);
  return found.suspicions.map(({ kind, wouldBe }) => [kind, wouldBe]);
}

describe("a bore of 98 mm", () => {
  test("that is believable draws nothing", () => {
    expect(suspicions({ written: "98.012", siblings, believable })).toEqual([]);
    expect(suspicions({ written: "98.025", siblings, believable })).toEqual([]);
  });
  test("at either end of what is believable draws nothing", () => {
    expect(suspicions({ written: "90", believable })).toEqual([]);
    expect(suspicions({ written: "110", believable })).toEqual([]);
    expect(suspicions({ written: "9", believable })).toEqual([["ten times off", 90]]);
  });
  test("ten times off, either way, and a hundred times", () => {
    expect(suspicions({ written: "9.8012", believable })).toEqual([["ten times off", 98.012]]);
    expect(suspicions({ written: "980.12", believable })).toEqual([["ten times off", 98.012]]);
    expect(suspicions({ written: "9801.2", believable })).toEqual([["ten times off", 98.012]]);
  });
  test("in inches", () => {
    expect(suspicions({ written: "3.8587", believable })).toEqual([["inches for millimetres", 98.01098]]);
  });
  test("in millimetres where the record is in inches", () => {
    expect(suspicions({ written: "98.01098", believable: { least: 3.5, greatest: 4.3 } })).toEqual([
      ["millimetres for inches", 3.8587],
    ]);
  });
  test("with two digits exchanged, also across the point", () => {
    expect(suspicions({ written: "98.102", siblings, believable })).toEqual([
      ["transposed digits", 98.012],
      ["far from its siblings", 98.0155],
    ]);
    expect(suspicions({ written: "90.812", siblings, believable: { least: 80, greatest: 110 } })).toContainEqual([
      "transposed digits",
      98.012,
    ]);
  });
  test("far from its siblings, with nothing to make of it", () => {
    expect(suspicions({ written: "98.068", siblings, believable })).toEqual([["far from its siblings", 98.0155]]);
  });
  test("far from its own history", () => {
    expect(suspicions({ written: "98.055", history: [98.01, 98.011, 98.013, 98.014] })).toEqual([
      ["far from its history", 98.012],
    ]);
  });
  test("among equal siblings is judged by the step of the gauge", () => {
    const equal = [98.01, 98.01, 98.01, 98.01];
    expect(suspicions({ written: "98.015", siblings: equal })).toEqual([]);
    expect(suspicions({ written: "98.016", siblings: equal })).toEqual([["far from its siblings", 98.01]]);
  });
  test("with three siblings is not compared with them", () => {
    expect(suspicions({ written: "98.9", siblings: [98.01, 98.012, 98.014] })).toEqual([]);
  });
});

test("what is no plain number is refused", () => {
  for (const written of ["", "98,012", "1e3", "98.", ".5", "go", "+1"]) {
    expect(plausibility({ written, resolution: 0.001 })).toMatchObject({ ok: false });
  }
  expect(plausibility({ written: "1", resolution: 0 })).toMatchObject({ ok: false });
  expect(plausibility({ written: "1", resolution: 1, believable: { least: 2, greatest: 1 } })).toMatchObject({
    ok: false,
  });
});

test("a correction always is one that would not be doubted itself", () => {
  const um = fc.integer({ min: 1_000, max: 999_999 });
  let corrections = 0;
  fc.assert(
    fc.property(um, (value) => {
      const found = plausibility({ written: (value / 1000).toFixed(3), siblings, believable, resolution: 0.001 });
      if (!found.ok) throw new Error(found.refused);
      for (const { kind, wouldBe } of found.suspicions) {
        if (kind === "far from its siblings") continue;
        corrections += 1;
        expect(suspicions({ written: wouldBe.toFixed(9), siblings, believable })).toEqual([]);
      }
    }),
    { numRuns: 2000, examples: [[98_102], [89_012], [980_120], [3_859]] },
  );
  expect(corrections).toBeGreaterThan(0);
});

test("exchanging neighbours keeps the digits and the point", () => {
  expect(transpositions("98.012")).toEqual([89.012, 90.812, 98.102, 98.021]);
  expect(transpositions("11")).toEqual([]);
  expect(transpositions("-1.2")).toEqual([-2.1]);
});

describe("the robust score", () => {
  test("is refused for too few or for all equal", () => {
    expect(modifiedZ(1, [1, 2])).toMatchObject({ ok: false });
    expect(modifiedZ(2, [1, 1, 1])).toMatchObject({ ok: false });
    expect(modifiedZ(Number.NaN, [1, 2, 3])).toMatchObject({ ok: false });
    expect(median([])).toMatchObject({ ok: false });
  });
  test("does not care about unit or zero point", () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: -100, max: 100 }), { minLength: 3, maxLength: 9 }),
        fc.integer({ min: -100, max: 100 }),
        fc.integer({ min: 1, max: 50 }),
        (sample, value, factor) => {
          const plain = modifiedZ(value, sample);
          const moved = modifiedZ(
            value * factor + 7,
            sample.map((one) => one * factor + 7),
          );
          expect(moved.ok).toBe(plain.ok);
          if (!plain.ok || !moved.ok) return;
          expect(moved.score).toBeCloseTo(plain.score, 9);
        },
      ),
    );
  });
});
