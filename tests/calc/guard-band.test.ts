import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { guardBand } from "../../server/calc/guard-band.ts";

const limits = { lower: 98, upper: 98.022 };
const decision = (reading: number, uncertainty: number, rule: "guarded" | "simple" = "guarded") => {
  const found = guardBand(reading, limits, uncertainty, rule);
  if (!found.ok) throw new Error(found.refused);
  return found.decision;
};

describe("guarded", () => {
  test.each([
    [98.011, "conforming"],
    [98.003, "conforming"],
    [98.019, "conforming"],
    [98.0191, "not proven"],
    [98.022, "not proven"],
    [98.025, "not proven"],
    [98.0251, "not conforming"],
    [97.997, "not proven"],
    [97.9969, "not conforming"],
  ])("%s mm with U 0.003 mm is %s", (reading, expected) => {
    expect(decision(reading, 0.003)).toBe(expected);
  });

  test("without uncertainty it is the simple rule", () => {
    expect(decision(98.022, 0)).toBe("conforming");
    expect(decision(98.0221, 0)).toBe("not conforming");
  });

  test("an uncertainty above half the span leaves nothing that proves conformity", () => {
    const found = guardBand(98.011, limits, 0.012, "guarded");
    expect(found).toMatchObject({ decision: "not proven", acceptanceEmpty: true });
    expect(found.ok && found.steps[0]).toContain("narrower than twice");
    expect(guardBand(98.011, limits, 0.011, "guarded")).toMatchObject({
      decision: "conforming",
      acceptanceEmpty: false,
    });
  });

  test("one limit is enough", () => {
    expect(guardBand(60, { lower: 55 }, 2, "guarded")).toMatchObject({ decision: "conforming", margin: 5 });
    expect(guardBand(56, { lower: 55 }, 2, "guarded")).toMatchObject({
      decision: "not proven",
      acceptance: { lower: 57 },
    });
    expect(guardBand(98.071, { upper: 98.07 }, 0.003, "guarded")).toMatchObject({
      decision: "not proven",
      margin: -0.001,
    });
  });
});

test("simple: a reading equal to its limit is inside it", () => {
  expect(decision(98.022, 0.003, "simple")).toBe("conforming");
  expect(decision(98.0221, 0.003, "simple")).toBe("not conforming");
});

test("a decision never changes from proven inside to proven outside by the uncertainty alone", () => {
  fc.assert(
    fc.property(fc.integer({ min: 97_950, max: 98_072 }), fc.integer({ min: 0, max: 40 }), (reading_um, u_um) => {
      const simple = decision(reading_um / 1000, u_um / 1000, "simple");
      const guarded = decision(reading_um / 1000, u_um / 1000);
      expect([simple, "not proven"]).toContain(guarded);
    }),
  );
});

test.each([
  ["no limit", () => guardBand(1, {}, 0, "guarded")],
  ["crossed limits", () => guardBand(1, { lower: 2, upper: 1 }, 0, "guarded")],
  ["a negative uncertainty", () => guardBand(1, { upper: 1 }, -1, "guarded")],
  ["a reading that is none", () => guardBand(Number.NaN, { upper: 1 }, 0, "guarded")],
])("%s is refused", (_title, run) => expect(run()).toMatchObject({ ok: false }));

test("the working tells the limits as they are and as they are drawn in", () => {
  const steps = (run: ReturnType<typeof guardBand>) => (run.ok ? run.steps : []);
  expect(steps(guardBand(98.0205, limits, 0.003, "guarded"))).toEqual([
    "Limits 98..98.022 drawn in by the uncertainty 0.003: 98.003..98.019.",
    "98.0205 is 0.0015 inside its nearest limit: not proven (ISO 14253-1).",
  ]);
  expect(steps(guardBand(98.08, { upper: 98.07 }, 0.003, "guarded"))).toEqual([
    "Limits max 98.07 drawn in by the uncertainty 0.003: max 98.067.",
    "98.08 is 0.01 outside its nearest limit: not conforming (ISO 14253-1).",
  ]);
  expect(steps(guardBand(60, { lower: 55 }, 2, "simple"))).toEqual(["Simple rule: 60 against min 55: conforming."]);
});
