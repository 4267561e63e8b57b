/**
 * Brake power on the test stand: from a torque arm, or from a club (test propeller) with a calibration.
 */
import { show } from "./figures.ts";
import { answer, type Result, refuse, refuseNotPositive, refuseUnusable, type Worked } from "./result.ts";

/** One foot pound-force per second in watts: 0.3048 m x 4.4482216152605 N. */
const wattsPerHorsepower = 550 * 0.3048 * 4.4482216152605;

export interface BrakePower extends Worked {
  power_kW: number;
  /** Mechanical horsepower of 550 ft lbf/s. */
  power_hp: number;
  torque_Nm: number;
}

function withPower(torque_Nm: number, speed_rpm: number, steps: string[]): BrakePower {
  const power_kW = (torque_Nm * speed_rpm * Math.PI) / 30_000;
  const power_hp = (power_kW * 1000) / wattsPerHorsepower;
  return {
    power_kW,
    power_hp,
    torque_Nm,
    steps: [
      ...steps,
      `Power: ${show(torque_Nm, 5)} N.m x ${show(speed_rpm)} rpm x pi / 30000 = ${show(power_kW, 4)} kW (${show(power_hp, 4)} hp).`,
    ],
  };
}

/**
 * Brake power from the force at the end of a torque arm.
 * @param arm_m length of the arm from the shaft's axis, square to the force, m
 * @param force_N force at the end of the arm after tare, N
 * @param speed_rpm speed of the shaft that carries the arm, rpm
 * Source: power = torque x angular speed; torque = force x arm.
 */
export function brakePowerFromArm(arm_m: number, force_N: number, speed_rpm: number): Result<BrakePower> {
  const bad = refuseNotPositive({ "torque arm": arm_m, speed: speed_rpm }) ?? refuseUnusable({ force: force_N });
  if (bad) return bad;
  if (force_N < 0) return refuse(`A force of ${show(force_N)} N would drive the engine; check the tare of the scale.`);
  const torque_Nm = force_N * arm_m;
  return answer(
    withPower(torque_Nm, speed_rpm, [`Torque: ${show(force_N)} N x ${show(arm_m)} m = ${show(torque_Nm, 5)} N.m.`]),
  );
}

/**
 * Brake power from torque and speed of the same shaft.
 * @param torque_Nm torque in N.m, not negative
 * @param speed_rpm speed in rpm
 */
export function brakePowerFromTorque(torque_Nm: number, speed_rpm: number): Result<BrakePower> {
  const bad = refuseNotPositive({ speed: speed_rpm }) ?? refuseUnusable({ torque: torque_Nm });
  if (bad) return bad;
  if (torque_Nm < 0) return refuse(`A torque of ${show(torque_Nm)} N.m would drive the engine.`);
  return answer(withPower(torque_Nm, speed_rpm, []));
}

export interface ClubCalibration {
  /** Air density at which the points hold, kg/m3. */
  density_kgpm3: number;
  /** Calibrated points: power absorbed at a speed. Any order, speeds all different. */
  points: readonly { readonly speed_rpm: number; readonly power_kW: number }[];
  /** Range the certificate states, when it is not simply that of the points. */
  validFrom_rpm?: number;
  validUntil_rpm?: number;
}

/**
 * Brake power absorbed by a calibrated club: the cube law with the club's own coefficient, scaled by air density.
 * Between two points the coefficient power / speed^3 is interpolated, which keeps the law exact at each point and
 * follows a club whose coefficient drifts with speed.
 * @param club calibration; at least one point
 * @param speed_rpm club speed in rpm, within the calibrated speeds
 * @param density_kgpm3 density of the air now, 0.5 to 1.6 kg/m3
 * @returns power, or a refusal outside the calibrated speeds
 * Source: power of a propeller at standstill varies with the cube of its speed and with air density (common practice,
 *   no source; follows from similarity).
 */
export function brakePowerFromClub(
  club: ClubCalibration,
  speed_rpm: number,
  density_kgpm3: number,
): Result<BrakePower> {
  const bad = refuseNotPositive({ speed: speed_rpm, "density of the calibration": club.density_kgpm3 });
  if (bad) return bad;
  if (!(density_kgpm3 >= 0.5 && density_kgpm3 <= 1.6)) {
    return refuse(`An air density of ${show(density_kgpm3)} kg/m3 is outside 0.5 to 1.6 kg/m3.`);
  }
  if (club.points.length === 0) return refuse("The club has no calibrated point.");
  const points = [...club.points].sort((a, b) => a.speed_rpm - b.speed_rpm);
  for (const [index, point] of points.entries()) {
    const wrong = refuseNotPositive({ "calibrated speed": point.speed_rpm, "calibrated power": point.power_kW });
    if (wrong) return wrong;
    if (index > 0 && point.speed_rpm === points[index - 1].speed_rpm) {
      return refuse(`The club is calibrated twice at ${show(point.speed_rpm)} rpm.`);
    }
  }
  const from_rpm = club.validFrom_rpm ?? points[0].speed_rpm;
  const until_rpm = club.validUntil_rpm ?? points[points.length - 1].speed_rpm;
  if (speed_rpm < from_rpm || speed_rpm > until_rpm) {
    return refuse(
      `${show(speed_rpm)} rpm is outside the calibrated speeds of the club, ${show(from_rpm)} to ${show(until_rpm)} rpm.`,
    );
  }
  const coefficient = (point: { speed_rpm: number; power_kW: number }) => point.power_kW / point.speed_rpm ** 3;
  let above = points.findIndex((point) => point.speed_rpm >= speed_rpm);
  if (above === -1) above = points.length - 1;
  const high = points[above];
  const low = points[Math.max(0, above - 1)];
  const span_rpm = high.speed_rpm - low.speed_rpm;
  const share = span_rpm === 0 ? 0 : Math.min(1, Math.max(0, (speed_rpm - low.speed_rpm) / span_rpm));
  const factor = coefficient(low) + share * (coefficient(high) - coefficient(low));
  const atCalibration_kW = factor * speed_rpm ** 3;
  const power_kW = (atCalibration_kW * density_kgpm3) / club.density_kgpm3;
  const nearest = speed_rpm - low.speed_rpm <= high.speed_rpm - speed_rpm ? low : high;
  return answer({
    power_kW,
    power_hp: (power_kW * 1000) / wattsPerHorsepower,
    torque_Nm: (power_kW * 30_000) / (Math.PI * speed_rpm),
    steps: [
      `Nearest calibrated point: ${show(nearest.power_kW)} kW at ${show(nearest.speed_rpm)} rpm in air of ${show(club.density_kgpm3, 4)} kg/m3.`,
      `Cube law at ${show(speed_rpm)} rpm with the coefficient between the points: ${show(atCalibration_kW, 4)} kW.`,
      `Scaled to ${show(density_kgpm3, 4)} kg/m3: ${show(atCalibration_kW, 4)} x ${show(density_kgpm3, 4)} / ${show(club.density_kgpm3, 4)} = ${show(power_kW, 4)} kW.`,
    ],
  });
}
