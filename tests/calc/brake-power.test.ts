import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  brakePowerFromArm,
  brakePowerFromClub,
  brakePowerFromTorque,
  type ClubCalibration,
} from "../../server/calc/brake-power.ts";
import { figures } from "./check-values/check.ts";

const club: ClubCalibration = {
  density_kgpm3: 1.2,
  points: [
    { speed_rpm: 2200, power_kW: 140 },
    { speed_rpm: 1800, power_kW: 80 },
  ],
};

describe("brake power", () => {
  test("arm and torque agree", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 3, noNaN: true }),
        fc.double({ min: 0, max: 5000, noNaN: true }),
        fc.double({ min: 100, max: 4000, noNaN: true }),
        (arm_m, force_N, speed_rpm) => {
          const byArm = figures(brakePowerFromArm(arm_m, force_N, speed_rpm));
          expect(byArm.power_kW).toBeCloseTo(figures(brakePowerFromTorque(arm_m * force_N, speed_rpm)).power_kW, 9);
        },
      ),
    );
  });

  test("a club gives its calibrated powers back in the air of the calibration", () => {
    expect(figures(brakePowerFromClub(club, 1800, 1.2)).power_kW).toBeCloseTo(80, 9);
    expect(figures(brakePowerFromClub(club, 2200, 1.2)).power_kW).toBeCloseTo(140, 9);
  });

  test("a club's power is proportional to density and rises with speed between its points", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1800, max: 2199, noNaN: true }),
        fc.double({ min: 0.9, max: 1.3, noNaN: true }),
        (rpm, density) => {
          const here = figures(brakePowerFromClub(club, rpm, density));
          expect(here.power_kW / figures(brakePowerFromClub(club, rpm, 1.2)).power_kW).toBeCloseTo(density / 1.2, 9);
          expect(figures(brakePowerFromClub(club, rpm + 1, density)).power_kW).toBeGreaterThan(here.power_kW);
          expect(figures(brakePowerFromTorque(here.torque_Nm, rpm)).power_kW).toBeCloseTo(here.power_kW, 9);
        },
      ),
    );
  });

  test.each([
    ["below its calibrated speeds", brakePowerFromClub(club, 1799, 1.2)],
    ["above its calibrated speeds", brakePowerFromClub(club, 2201, 1.2)],
    ["air that cannot be", brakePowerFromClub(club, 2000, 12)],
    ["no point", brakePowerFromClub({ density_kgpm3: 1.2, points: [] }, 2000, 1.2)],
    [
      "one speed twice",
      brakePowerFromClub(
        {
          density_kgpm3: 1.2,
          points: [
            { speed_rpm: 2000, power_kW: 90 },
            { speed_rpm: 2000, power_kW: 95 },
          ],
        },
        2000,
        1.2,
      ),
    ],
    [
      "a single point away from its speed",
      brakePowerFromClub({ density_kgpm3: 1.2, points: [club.points[0]] }, 2000, 1.2),
    ],
    ["a force that drives the engine", brakePowerFromArm(1, -5, 2000)],
    ["no speed", brakePowerFromTorque(100, 0)],
  ])("refuses: %s", (_name, result) => {
    expect(result).toMatchObject({ ok: false, refused: expect.stringMatching(/\.$/) });
  });

  test("names the calibrated speeds in the refusal", () => {
    expect(brakePowerFromClub(club, 1799, 1.2)).toEqual({
      ok: false,
      refused: "1799 rpm is outside the calibrated speeds of the club, 1800 to 2200 rpm.",
    });
  });
});
