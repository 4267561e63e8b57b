import { brakePowerFromArm, brakePowerFromClub, brakePowerFromTorque } from "../../../server/calc/brake-power.ts";
import { figures, type PublishedCheck } from "./check.ts";

const poundForce_N = 4.4482216152605;
const foot_m = 0.3048;
const base = { computation: "brake-power", group: 4 } as const;

export const checks: PublishedCheck[] = [
  {
    ...base,
    what: "arm 2 ft, 300 lbf, 3000 rpm, hp",
    source: "US Army TM 9-8000 p. 69, which takes 6.28 for two pi",
    kind: "read",
    expected: 342.55,
    // 6.28 for two pi is 0.05 % low.
    tolerance: 342.55 * 0.00052,
    got: () => figures(brakePowerFromArm(2 * foot_m, 300 * poundForce_N, 3000)).power_hp,
  },
  {
    ...base,
    what: "one pound-foot at 5252 rpm, hp",
    source: "the constant 5252 printed on many public pages",
    kind: "read",
    expected: 1,
    tolerance: 0.0001,
    got: () => figures(brakePowerFromTorque(poundForce_N * foot_m, 5252)).power_hp,
  },
  {
    ...base,
    what: "250 N.m at 5500 rpm, kW",
    source: "power = torque x angular speed",
    kind: "computed",
    expected: 143.99,
    tolerance: 0.005,
    got: () => figures(brakePowerFromTorque(250, 5500)).power_kW,
  },
  {
    ...base,
    what: "club at half its calibrated speed in air one tenth thinner, kW",
    source: "cube law and air density",
    kind: "computed",
    expected: 11.25,
    tolerance: 1e-9,
    got: () =>
      figures(
        brakePowerFromClub(
          {
            density_kgpm3: 1.2,
            points: [{ speed_rpm: 2000, power_kW: 100 }],
            validFrom_rpm: 1000,
            validUntil_rpm: 2000,
          },
          1000,
          1.08,
        ),
      ).power_kW,
  },
];
