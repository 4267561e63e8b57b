import { show } from "./figures.ts";
import type { Result, Worked } from "./result.ts";
import { answer, refuse, refuseNotPositive } from "./result.ts";

/** Balance grades in mm/s, a ratio of 2.5 from one to the next. Source: ISO 21940-11, as restated by ascentialtech.com. */
export const balanceGrades_mm_per_s = [0.4, 1, 2.5, 6.3, 16, 40, 100, 250, 630, 1600, 4000] as const;

export interface PermissibleUnbalance extends Worked {
  /** Unbalance for the whole rotor. */
  readonly total_g_mm: number;
  /** Unbalance for each of the correction planes. */
  readonly perPlane_g_mm: number;
  /** Unbalance for a kilogram of rotor, which is also the offset of its mass centre in micrometres. */
  readonly specific_g_mm_per_kg: number;
}

/**
 * Permissible residual unbalance of a rigid rotor.
 *
 * A general grade does not replace the maker's scheme for a crankshaft (bob weights of vee and radial engines).
 * @param grade_mm_per_s one of the grades 0.4 to 4000
 * @param mass_kg mass of the rotor, greater than zero
 * @param speed_rpm greatest service speed, greater than zero
 * @param planes 1, or 2 for a rotor whose mass centre lies between the planes: half in each
 * @returns refused for a grade that the standard does not name or a figure that is not greater than zero
 * Source: ISO 21940-11 (formerly ISO 1940-1), U = 1000 G m / omega, restated as 9549 G m / n at erbessd-instruments.com.
 */
export function permissibleUnbalance(
  grade_mm_per_s: number,
  mass_kg: number,
  speed_rpm: number,
  planes: 1 | 2,
): Result<PermissibleUnbalance> {
  const bad = refuseNotPositive({ "mass of the rotor": mass_kg, "service speed": speed_rpm });
  if (bad !== undefined) return bad;
  if (!balanceGrades_mm_per_s.some((grade) => grade === grade_mm_per_s)) {
    return refuse(`G ${grade_mm_per_s} is not a balance grade; grades are ${balanceGrades_mm_per_s.join(", ")}.`);
  }
  const speed_rad_per_s = (speed_rpm * 2 * Math.PI) / 60;
  const specific = (1000 * grade_mm_per_s) / speed_rad_per_s;
  const total = specific * mass_kg;
  return answer({
    total_g_mm: total,
    perPlane_g_mm: total / planes,
    specific_g_mm_per_kg: specific,
    steps: [
      `${show(speed_rpm)} rpm is ${show(speed_rad_per_s, 4)} rad/s.`,
      `G ${grade_mm_per_s}: 1000 x ${grade_mm_per_s} / ${show(speed_rad_per_s, 4)} = ${show(specific, 4)} g.mm for each kilogram (ISO 21940-11).`,
      `For ${show(mass_kg)} kg: ${show(total, 4)} g.mm${planes === 2 ? `, half in each plane: ${show(total / 2, 4)} g.mm` : ""}.`,
    ],
  });
}
