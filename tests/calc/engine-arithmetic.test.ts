import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { brakePowerFromTorque } from "../../server/calc/brake-power.ts";
import {
  compressionRatio,
  displacement,
  meanEffectivePressure,
  meanPistonSpeed,
  specificConsumption,
} from "../../server/calc/engine-arithmetic.ts";
import { figures } from "./check-values/check.ts";

const positive = fc.double({ min: 0.1, max: 1000, noNaN: true });

describe("engine arithmetic", () => {
  test("mean effective pressure x displacement x cycles is the brake power", () => {
    fc.assert(
      fc.property(positive, positive, fc.double({ min: 100, max: 5000, noNaN: true }), (torque, litres, rpm) => {
        const { pressure_kPa } = figures(meanEffectivePressure(torque, litres * 1000));
        const power = (pressure_kPa * litres * (rpm / 120)) / 1000;
        expect(power / figures(brakePowerFromTorque(torque, rpm)).power_kW).toBeCloseTo(1, 9);
      }),
    );
  });

  test("a two-stroke needs half the pressure for the same torque", () => {
    const four = figures(meanEffectivePressure(100, 1000)).pressure_kPa;
    expect(figures(meanEffectivePressure(100, 1000, "two-stroke")).pressure_kPa).toBeCloseTo(four / 2, 9);
  });

  test("displacement is proportional to stroke and cylinders and to the square of the bore", () => {
    fc.assert(
      fc.property(positive, positive, (bore, stroke) => {
        const one = figures(displacement(bore, stroke, 1)).total_cm3;
        expect(figures(displacement(2 * bore, stroke, 3)).total_cm3 / one).toBeCloseTo(12, 9);
      }),
    );
  });

  test("a smaller chamber raises the ratio, which is always more than one", () => {
    fc.assert(
      fc.property(positive, positive, (swept, clearance) => {
        const { ratio } = figures(compressionRatio(swept, clearance));
        expect(ratio).toBeGreaterThan(1);
        expect(figures(compressionRatio(swept, clearance / 2)).ratio).toBeGreaterThan(ratio);
      }),
    );
  });

  test.each([
    ["no bore", displacement(0, 100, 4)],
    ["half a cylinder", displacement(90, 100, 1.5)],
    ["no clearance", compressionRatio(500, 0)],
    ["no stroke", meanPistonSpeed(-1, 2000)],
    ["no displacement", meanEffectivePressure(100, 0)],
    ["no power", specificConsumption(20, 0)],
    ["no flow", specificConsumption(Number.NaN, 100)],
  ])("refuses: %s", (_name, result) => {
    expect(result).toMatchObject({ ok: false, refused: expect.stringMatching(/\.$/) });
  });
});
