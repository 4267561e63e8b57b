import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fuelFlow, fuelFromChannel } from "../../server/calc/fuel-flow.ts";
import { magnetoCheck, magnetoCheckFromSpeeds } from "../../server/calc/magneto.ts";
import { oilConsumption, oilLimitFromPower } from "../../server/calc/oil-consumption.ts";
import { settling } from "../../server/calc/settling.ts";
import { figures } from "./check-values/check.ts";
import { runTable } from "./run-table-for-tests.ts";

describe("magnetos", () => {
  const limits = { greatestDrop_rpm: 75, greatestSplit_rpm: 50, source: "run sheet 2" };

  test("drop and split, equal to the limit is inside", () => {
    expect(figures(magnetoCheck(75, 25, 1700, limits))).toMatchObject({
      split_rpm: 50,
      leftWithin: true,
      rightWithin: true,
      splitWithin: true,
    });
    expect(figures(magnetoCheck(76, 25, 1700, limits))).toMatchObject({ leftWithin: false, splitWithin: false });
  });

  test("without limits nothing is judged, and no drop at all is pointed out", () => {
    expect(figures(magnetoCheck(0, 60, 1700))).toMatchObject({
      leftWithin: undefined,
      splitWithin: undefined,
      withoutDrop: ["left"],
    });
  });

  test("three speeds give the same as two drops", () => {
    expect(figures(magnetoCheckFromSpeeds(1700, 1635, 1630)).split_rpm).toBe(5);
    expect(magnetoCheckFromSpeeds(1700, 1710, 1630).ok).toBe(false);
  });

  test("refuses a rise and a drop to nothing", () => {
    expect(magnetoCheck(-1, 50, 1700).ok).toBe(false);
    expect(magnetoCheck(1700, 50, 1700).ok).toBe(false);
  });
});

describe("oil consumption", () => {
  test("balance with and without levels", () => {
    expect(figures(oilConsumption({ added_L: 0.4, drained_L: 0.1, hours_h: 1.5 })).rate_Lph).toBe(0.2);
    expect(
      figures(oilConsumption({ filled_L: 10, added_L: 0.4, drained_L: 0.1, left_L: 9.8, hours_h: 1 })).used_L,
    ).toBe(0.5);
  });

  test("a rate equal to its limit is inside, after binary subtraction too", () => {
    const limit = { greatest_Lph: 0.3, source: "sheet 9" };
    expect(figures(oilConsumption({ added_L: 0.4, drained_L: 0.1, hours_h: 1 }, limit)).within).toBe(true);
    expect(figures(oilConsumption({ added_L: 0.41, drained_L: 0.1, hours_h: 1 }, limit)).within).toBe(false);
  });

  test.each([
    ["more out than in", oilConsumption({ added_L: 0.1, drained_L: 0.2, hours_h: 1 })],
    ["one level only", oilConsumption({ filled_L: 10, added_L: 0.1, drained_L: 0, hours_h: 1 })],
    ["no time", oilConsumption({ added_L: 0.1, drained_L: 0, hours_h: 0 })],
    ["negative", oilConsumption({ added_L: -0.1, drained_L: 0, hours_h: 1 })],
    ["a limit without power", oilLimitFromPower(0, 0.006, 7.4)],
  ])("refuses: %s", (_name, result) => {
    expect(result).toMatchObject({ ok: false, refused: expect.stringMatching(/\.$/) });
  });
});

describe("fuel", () => {
  test("a steady flow channel gives the same as volume over time", () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 100, noNaN: true }), fc.integer({ min: 2, max: 50 }), (flow, rows) => {
        const time = Array.from({ length: rows }, (_unused, row) => row * 30);
        const { volume_L, known_s } = figures(
          fuelFromChannel(
            runTable(
              time,
              time.map(() => flow),
            ),
            0,
          ),
        );
        expect(figures(fuelFlow(volume_L, known_s / 3600, 0.72)).flow_Lph).toBeCloseTo(flow, 6);
      }),
    );
  });

  test("a missing reading is not filled in", () => {
    expect(figures(fuelFromChannel(runTable([0, 60, 120], [30, Number.NaN, 30]), 0))).toMatchObject({
      volume_L: 0,
      missing_s: 120,
    });
  });

  test("a logger that stopped for an hour is not joined", () => {
    const found = figures(
      fuelFromChannel(runTable([0, 60, 120, 180, 240, 3900, 3960], [30, 30, 30, 30, 30, 30, 30]), 0),
    );
    expect(found).toMatchObject({ known_s: 300, missing_s: 3660 });
    const dense = Array.from({ length: 200 }, (_unused, row) => (row < 100 ? row : row + 3600));
    const apart = figures(
      fuelFromChannel(
        runTable(
          dense,
          dense.map(() => 30),
        ),
        0,
      ),
    );
    expect(apart).toMatchObject({ known_s: 198, missing_s: 3601 });
  });

  test("refuses a density that no fuel has, and takes none by itself", () => {
    expect(fuelFlow(38, 1, 0.5).ok).toBe(false);
    expect(fuelFlow(38, 1, 720).ok).toBe(false);
    expect(fuelFlow(38, 0, 0.72).ok).toBe(false);
  });
});

describe("settling", () => {
  test("agrees with a look at every stretch", () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 12 }), { minLength: 2, maxLength: 60 }),
        fc.integer({ min: 1, max: 6 }),
        (values, band) => {
          const table = runTable(
            values.map((_value, index) => index * 10),
            values,
          );
          const found = figures(settling(table, 0, band, 50));
          // The first row at which some stretch of at least 50 s ends decides; its start is the earliest that still fits.
          let expected = Number.NaN;
          for (let end = 5; end < values.length && Number.isNaN(expected); end++) {
            for (let start = 0; start + 5 <= end; start++) {
              const part = values.slice(start, end + 1);
              if (Math.max(...part) - Math.min(...part) <= band) {
                expected = start * 10;
                break;
              }
            }
          }
          expect(found.settled_s).toEqual(expected);
        },
      ),
      { numRuns: 300 },
    );
  });

  test("the condition begins anew, and a missing cell does not", () => {
    const time = [0, 10, 20, 30, 40, 50, 60];
    const speed = [1500, 1500, 700, 1500, 1500, 1500, 1500];
    const gated = settling(runTable(time, [60, 60, 60, 60, 60, 60, 60], speed), 0, 1, 30, {
      while: { column: 1, from: 1400, until: 1600 },
    });
    expect(figures(gated).settled_s).toBe(30);
    const holed = settling(runTable(time, [60, 60, Number.NaN, 60, 60, 60, 60]), 0, 1, 30);
    expect(figures(holed).settled_s).toBe(0);
  });

  test("refuses no band, no time and one sample", () => {
    expect(settling(runTable([0, 1], [1, 1]), 0, 0, 30).ok).toBe(false);
    expect(settling(runTable([0, 1], [1, 1]), 0, 1, 0).ok).toBe(false);
    expect(settling(runTable([0], [1]), 0, 1, 30).ok).toBe(false);
  });
});
