import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { camRing } from "../../server/calc/cam-ring.ts";
import { engineLayout } from "../../server/calc/engine-layout.ts";
import {
  checkFiringOrder,
  firingInterval,
  radialFiringOrder,
  sameFiringOrder,
} from "../../server/calc/firing-order.ts";
import { lowCylinders } from "../../server/calc/low-cylinders.ts";
import { magnetoRatio } from "../../server/calc/magneto-ratio.ts";
import { crankTravel, valveTiming } from "../../server/calc/valve-timing.ts";
import { figures } from "./check-values/check.ts";

const layout = (...given: Parameters<typeof engineLayout>) => figures(engineLayout(...given)).layout;
const low = (...given: Parameters<typeof lowCylinders>) =>
  figures(lowCylinders(...given)).low.map((each) => each.number);
const oddRows = fc.constantFrom(3, 5, 7, 9, 11);

describe("layout", () => {
  test("radials go round evenly from number 1 on top", () => {
    expect(layout("radial", "9").cylinders.map((each) => each.angle_deg)).toEqual([
      0, 40, 80, 120, 160, 200, 240, 280, 320,
    ]);
    expect(
      layout("radial", "2x7")
        .cylinders.filter((each) => each.row === 2)
        .map((each) => each.number),
    ).toEqual([2, 4, 6, 8, 10, 12, 14]);
  });

  test("numbering by bank is marked as assumed unless it is given", () => {
    expect(layout("opposed", "4")).toMatchObject({ numberingAssumed: true, rows: 2 });
    const vee = layout("vee", "8", 90, "left-bank-first");
    expect(vee.numberingAssumed).toBe(false);
    expect(vee.cylinders.map((each) => each.bank)).toEqual([
      "left",
      "left",
      "left",
      "left",
      "right",
      "right",
      "right",
      "right",
    ]);
    expect(vee.cylinders.map((each) => each.row)).toEqual([1, 2, 3, 4, 1, 2, 3, 4]);
    expect(vee.cylinders[0].angle_deg).toBe(315);
  });

  test.each([
    ["even row", engineLayout("radial", "2x8")],
    ["three rows", engineLayout("radial", "3x7")],
    ["no count", engineLayout("radial", "nine")],
    ["zero", engineLayout("inline", "0")],
    ["rows of an inline engine", engineLayout("inline", "2x3")],
    ["vee without angle", engineLayout("vee", "8")],
    ["vee flat", engineLayout("vee", "8", 180)],
    ["angle of an inline engine", engineLayout("inline", "6", 90)],
    ["odd opposed", engineLayout("opposed", "5")],
  ])("refuses: %s", (_name, result) => {
    expect(result).toMatchObject({ ok: false, refused: expect.stringMatching(/\.$/) });
  });
});

describe("low cylinders", () => {
  test("the two lowest of seven are 4 and 5; all below the horizontal are named, lowest first", () => {
    expect(low(layout("radial", "7"))).toEqual([4, 5, 3, 6]);
    expect(low(layout("radial", "9"))).toEqual([5, 6, 4, 7]);
    expect(low(layout("radial", "5"))).toEqual([3, 4]);
  });

  test("an upright inline engine has none, an inverted one has all, a flat one none", () => {
    expect(low(layout("inline", "6"))).toEqual([]);
    expect(low(layout("inline", "6"), { roll_deg: 180 })).toEqual([1, 2, 3, 4, 5, 6]);
    expect(low(layout("opposed", "6"))).toEqual([]);
    expect(low(layout("vee", "8", 60), { roll_deg: 180 })).toHaveLength(8);
  });

  test("a shaft that stands upright puts no cylinder below", () => {
    expect(low(layout("radial", "9"), { pitch_deg: 90 })).toEqual([]);
  });

  test("what is named points down, what is not does not, and the order falls", () => {
    fc.assert(
      fc.property(
        oddRows,
        fc.constantFrom(1, 2),
        fc.double({ min: -180, max: 180, noNaN: true }),
        (perRow, rows, roll_deg) => {
          const engine = layout("radial", rows === 1 ? String(perRow) : `2x${perRow}`);
          const found = figures(lowCylinders(engine, { roll_deg })).low;
          const down = engine.cylinders.filter(
            (each) => Math.cos(((each.angle_deg + roll_deg) * Math.PI) / 180) < -1e-7,
          );
          expect(found.map((each) => each.number).sort((a, b) => a - b)).toEqual(down.map((each) => each.number));
          for (let index = 1; index < found.length; index++) {
            expect(found[index].below_deg).toBeLessThanOrEqual(found[index - 1].below_deg + 1e-6);
          }
        },
      ),
    );
  });

  test("refuses a shaft beyond upright", () => {
    expect(lowCylinders(layout("radial", "9"), { pitch_deg: 91 }).ok).toBe(false);
  });
});

describe("firing order", () => {
  test("each cylinder fires once, rows take turns, and firings are evenly spaced by geometry", () => {
    fc.assert(
      fc.property(oddRows, fc.constantFrom(1, 2), (perRow, rows) => {
        const engine = layout("radial", rows === 1 ? String(perRow) : `2x${perRow}`);
        const { order } = figures(radialFiringOrder(engine));
        expect(figures(checkFiringOrder(order, perRow * rows)).complete).toBe(true);
        const interval = 720 / (perRow * rows);
        for (let index = 0; index < order.length; index++) {
          const here = engine.cylinders[order[index] - 1];
          const next = engine.cylinders[order[(index + 1) % order.length] - 1];
          expect(next.row === here.row).toBe(rows === 1);
          // The two rows hang on throws half a turn apart.
          const throwOf = (row: number) => (row === 2 ? 180 : 0);
          const turn = next.angle_deg + throwOf(next.row) - here.angle_deg - throwOf(here.row);
          const apart = (((turn - interval) % 360) + 360) % 360;
          expect(Math.min(apart, 360 - apart)).toBeCloseTo(0, 6);
        }
      }),
    );
  });

  test("a given order is checked: missing, repeated, unknown", () => {
    expect(figures(checkFiringOrder([1, 4, 2, 3], 4)).complete).toBe(true);
    expect(figures(checkFiringOrder([1, 5, 3, 3, 2, 9], 6))).toEqual({
      ok: true,
      complete: false,
      missing: [4, 6],
      repeated: [3],
      unknown: [9],
    });
  });

  test("the same cycle begun elsewhere is the same order", () => {
    expect(sameFiringOrder([1, 4, 2, 3], [2, 3, 1, 4])).toBe(true);
    expect(sameFiringOrder([1, 4, 2, 3], [1, 3, 2, 4])).toBe(false);
    expect(sameFiringOrder([1, 2], [1, 2, 3])).toBe(false);
  });

  test("refuses to compute the order of an engine that has a data plate for it", () => {
    expect(radialFiringOrder(layout("opposed", "6")).ok).toBe(false);
    expect(firingInterval(0).ok).toBe(false);
    expect(figures(firingInterval(2, "two-stroke")).interval_deg).toBe(180);
  });
});

describe("cam ring, magneto, valves", () => {
  test("lobes x cylinders of a ring open each valve once in two turns of the crank", () => {
    fc.assert(
      fc.property(oddRows, fc.constantFrom("with-crank", "against-crank"), (cylinders, turning) => {
        const { lobes, denominator } = figures(camRing(cylinders, turning));
        expect((lobes * 2) / denominator).toBe(1);
      }),
    );
    expect(camRing(8, "with-crank").ok).toBe(false);
    expect(camRing(1, "with-crank").ok).toBe(false);
  });

  test("a magneto gives as many sparks as the cylinders need", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 28 }), fc.integer({ min: 1, max: 12 }), (cylinders, poles) => {
        const { ratio, numerator, denominator } = figures(magnetoRatio(cylinders, poles));
        expect(ratio * 2 * poles).toBeCloseTo(cylinders, 9);
        expect(numerator / denominator).toBeCloseTo(ratio, 12);
      }),
    );
    expect(figures(magnetoRatio(9, 4))).toMatchObject({ numerator: 9, denominator: 8 });
    expect(magnetoRatio(9, 0).ok).toBe(false);
    expect(magnetoRatio(1.5, 4).ok).toBe(false);
  });

  test("valve sums", () => {
    const events = {
      intakeOpens_degBefore: 20,
      intakeCloses_degAfter: 60,
      exhaustOpens_degBefore: 60,
      exhaustCloses_degAfter: -5,
    };
    expect(figures(valveTiming(events))).toMatchObject({
      intakeOpen_deg: 260,
      exhaustOpen_deg: 235,
      overlap_deg: 15,
      intakeMiddle_degAfter: 110,
      exhaustMiddle_degBefore: 122.5,
    });
    expect(valveTiming({ ...events, intakeOpens_degBefore: 200 }).ok).toBe(false);
    expect(figures(crankTravel(700, 10)).travel_deg).toBe(30);
    expect(crankTravel(0, 800).ok).toBe(false);
  });
});
