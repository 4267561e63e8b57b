import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { directTest } from "../../server/calc/compression-direct.ts";
import { circularOrificeRule, leakTest, orificeCheck, retestCounts } from "../../server/calc/compression-leak.ts";
import { figures } from "./check-values/check.ts";

const readings = (...psi: readonly number[]) => psi.map((reading_psi, index) => ({ cylinder: index + 1, reading_psi }));

describe("differential compression", () => {
  test("leakage, spread and worst place", () => {
    const found = figures(leakTest(80, readings(76, 74, 78)));
    expect(found).toMatchObject({ worst: 2, best: 3, spread_psi: 4, spreadVerdict: "no-limit" });
    expect(found.cylinders[1]).toMatchObject({ leak_psi: 6, leak_percent: 7.5, verdict: "no-limit" });
  });

  test("without limits nothing is judged, but a crack is, at any reading", () => {
    const [cracked] = figures(leakTest(80, [{ cylinder: 1, reading_psi: 79, heard: ["crack"] }])).cylinders;
    expect(cracked).toMatchObject({
      verdict: "investigate",
      why: "A leak at the crack is not acceptable at any reading.",
    });
    const [rings] = figures(leakTest(80, [{ cylinder: 1, reading_psi: 40, heard: ["rings"] }])).cylinders;
    expect(rings.verdict).toBe("no-limit");
  });

  test("the reason names the figures and the source", () => {
    const [low] = figures(leakTest(80, readings(58), { source: "sheet 6", least_psi: 60 })).cylinders;
    expect(low.why).toBe("58 psi is below the least of 60 psi (sheet 6).");
  });

  test("a better reading never gets a worse verdict", () => {
    const rank = { "no-limit": 0, good: 0, watch: 1, retest: 2, investigate: 3 };
    const limits = { source: "sheet 6", goodFrom_psi: 70, retestBelow_psi: 65, least_psi: 60 };
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 80 }), fc.integer({ min: 0, max: 80 }), (a, b) => {
        const verdict = (psi: number) => rank[figures(leakTest(80, readings(psi), limits)).cylinders[0].verdict];
        expect(verdict(Math.max(a, b))).toBeLessThanOrEqual(verdict(Math.min(a, b)));
      }),
    );
  });

  test("a supply in decimals keeps its boundary", () => {
    // 5.5 bar and 4.125 bar in psi are no round figures, but their loss is exactly a quarter.
    const supply = 79.7707541;
    const [quarter] = figures(
      leakTest(supply, readings(supply * 0.75), { source: "s", greatestLeak_percent: 25 }),
    ).cylinders;
    expect(quarter).toMatchObject({ leak_percent: 25, verdict: "good" });
  });

  test.each([
    ["no reading", leakTest(80, [])],
    ["a cylinder twice", leakTest(80, [...readings(70), ...readings(71)])],
    ["above the supply", leakTest(80, readings(81))],
    ["no supply", leakTest(0, readings(0))],
    ["an orifice of nothing", orificeCheck(0, 5, circularOrificeRule)],
    [
      "a rule without a step for the bore",
      orificeCheck(0.04, 6, { kind: "by-bore", steps: [{ below_in: 5, orifice_in: 0.04 }], source: "s" }),
    ],
    ["negative running time", retestCounts(60, 70, -1, 3)],
  ])("refuses: %s", (_name, result) => {
    expect(result).toMatchObject({ ok: false, refused: expect.stringMatching(/\.$/) });
  });

  test("a bore given in millimetres keeps the boundary at five inches", () => {
    expect(figures(orificeCheck(0.04, 127 / 25.4, circularOrificeRule))).toMatchObject({
      wanted_in: 0.06,
      right: false,
    });
    expect(figures(orificeCheck(1.016 / 25.4, 126.9 / 25.4, circularOrificeRule))).toMatchObject({
      wanted_in: 0.04,
      right: true,
    });
  });

  test("a retest counts after running; a worse one always counts", () => {
    expect(figures(retestCounts(58, 70, 3, 3))).toMatchObject({ counts_psi: 70, retestStands: true, change_psi: 12 });
    expect(figures(retestCounts(58, 50, 0, 3)).counts_psi).toBe(50);
  });
});

describe("direct compression", () => {
  const pressures = (...kPa: readonly number[]) =>
    kPa.map((pressure_kPa, index) => ({ cylinder: index + 1, pressure_kPa }));

  test("least, spread and share; equal to a limit is inside", () => {
    const limits = { source: "sheet 7", least_kPa: 750, greatestSpread_kPa: 250, leastOfHighest_percent: 75 };
    expect(figures(directTest(pressures(1000, 750, 900), limits))).toMatchObject({
      lowest: 2,
      highest: 1,
      spread_kPa: 250,
      lowestOfHighest_percent: 75,
      below: [],
      spreadWithin: true,
    });
    expect(figures(directTest(pressures(1000, 749, 900), limits))).toMatchObject({ below: [2], spreadWithin: false });
  });

  test("refuses nothing, zero and a cylinder twice", () => {
    expect(directTest([]).ok).toBe(false);
    expect(directTest(pressures(0)).ok).toBe(false);
    expect(directTest([...pressures(900), ...pressures(900)]).ok).toBe(false);
  });
});
