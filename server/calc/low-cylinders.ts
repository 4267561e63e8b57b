/**
 * Which cylinders hang below the horizontal, where oil and fuel gather while the engine stands.
 *
 * The result names pipes and plugs for the check before a start. It never says that an engine is free of liquid.
 */

import type { EngineLayout } from "./engine-layout.ts";
import { settle, show } from "./figures.ts";
import { answer, type Result, refuse, refuseUnusable, type Worked } from "./result.ts";

export interface LowCylinder {
  number: number;
  /** How far the cylinder's axis points below the horizontal, degrees, more than 0 and up to 90. */
  below_deg: number;
}

/**
 * Cylinders below the horizontal, the lowest first, equals by number.
 * @param layout the engine's cylinders
 * @param mounting.roll_deg turn of the engine about its shaft, clockwise from the rear: 180 for an inverted inline engine
 * @param mounting.pitch_deg angle of the shaft above the horizontal: 0 as a rule, 90 for a shaft that stands upright
 * Source: geometry. The two lowest of a seven-cylinder row with No. 1 on top are 4 and 5 (common practice, no source).
 */
export function lowCylinders(
  layout: EngineLayout,
  mounting: { roll_deg?: number; pitch_deg?: number } = {},
): Result<{ low: LowCylinder[] } & Worked> {
  const roll_deg = mounting.roll_deg ?? 0;
  const pitch_deg = mounting.pitch_deg ?? 0;
  const bad = refuseUnusable({ "mounting angle about the shaft": roll_deg, "angle of the shaft": pitch_deg });
  if (bad) return bad;
  if (pitch_deg < -90 || pitch_deg > 90)
    return refuse(`The shaft cannot stand at ${show(pitch_deg)} degrees; -90 to 90 is meant.`);
  const radians = Math.PI / 180;
  const low = layout.cylinders
    .map((cylinder): LowCylinder => {
      const up = Math.cos((cylinder.angle_deg + roll_deg) * radians) * Math.cos(pitch_deg * radians);
      return { number: cylinder.number, below_deg: settle(-Math.asin(Math.max(-1, Math.min(1, up))) / radians) };
    })
    .filter((cylinder) => cylinder.below_deg > 1e-6)
    .sort((a, b) => (Math.abs(b.below_deg - a.below_deg) > 1e-6 ? b.below_deg - a.below_deg : a.number - b.number));
  const names = low.map((cylinder) => `${cylinder.number} (${show(cylinder.below_deg, 3)} degrees below)`).join(", ");
  return answer({
    low,
    steps: [
      `Mounted with ${show(roll_deg)} degrees about the shaft, shaft ${show(pitch_deg)} degrees above the horizontal.`,
      low.length === 0 ? "No cylinder points below the horizontal." : `Below the horizontal, lowest first: ${names}.`,
    ],
  });
}
