import { show } from "./figures.ts";
import type { Refused, Result, Worked } from "./result.ts";
import { answer, refuse, refuseNotPositive } from "./result.ts";

/** A length of bolt of one cross-section that lies under the load. */
export interface BoltSegment {
  readonly length_mm: number;
  readonly area_mm2: number;
}

export interface BoltStretch extends Worked {
  readonly preload_N: number;
  readonly stretch_mm: number;
  /** Stress in the thinnest segment. */
  readonly stress_MPa: number;
  /** Preload for one millimetre of stretch. */
  readonly stiffness_N_per_mm: number;
}

/** How far a preload may be off by each way of tightening. Source: uwmidsun.atlassian.net, page on bolts. */
export const preloadScatter = {
  torque: { percent: 25, says: "preload by torque is good to about 25 %" },
  angle: { percent: 15, says: "preload by angle is good to about 15 %" },
  stretch: { percent: 5, says: "preload by stretch is good to about 1 to 5 %" },
} as const;

export type PreloadMethod = keyof typeof preloadScatter;

/**
 * Tensile stress area of a thread.
 * @param nominal_mm nominal diameter, greater than zero
 * @param pitch_mm pitch, greater than zero and below 0.3 of the diameter
 * @param form "metric" (d - 0.9382 p) or "unified" (d - 0.9743 p)
 * @returns refused outside those ranges
 * Source: ISO 898-1 for metric threads; engineeringtoolbox.com, page on bolt stretching, for unified threads.
 */
export function threadStressArea(
  nominal_mm: number,
  pitch_mm: number,
  form: "metric" | "unified",
): Result<{ readonly area_mm2: number } & Worked> {
  const bad = refuseNotPositive({ "nominal diameter": nominal_mm, pitch: pitch_mm });
  if (bad !== undefined) return bad;
  if (pitch_mm >= 0.3 * nominal_mm)
    return refuse(`A pitch of ${show(pitch_mm)} mm is too coarse for a diameter of ${show(nominal_mm)} mm.`);
  const factor = form === "metric" ? 0.9382 : 0.9743;
  const area_mm2 = (Math.PI / 4) * (nominal_mm - factor * pitch_mm) ** 2;
  return answer({
    area_mm2,
    steps: [
      `Stress area: pi/4 x (${show(nominal_mm)} - ${factor} x ${show(pitch_mm)})^2 = ${show(area_mm2, 4)} mm2 (${form} thread).`,
    ],
  });
}

function stiffness(
  segments: readonly BoltSegment[],
  modulus_MPa: number,
): { stiffness: number; thinnest: number } | Refused {
  if (segments.length === 0) return refuse("The bolt has no segment under load.");
  const bad = refuseNotPositive({ "modulus of elasticity": modulus_MPa });
  if (bad !== undefined) return bad;
  let flexibility = 0;
  let thinnest = Number.POSITIVE_INFINITY;
  for (const segment of segments) {
    const badSegment = refuseNotPositive({ "segment length": segment.length_mm, "segment area": segment.area_mm2 });
    if (badSegment !== undefined) return badSegment;
    flexibility += segment.length_mm / (segment.area_mm2 * modulus_MPa);
    thinnest = Math.min(thinnest, segment.area_mm2);
  }
  return { stiffness: 1 / flexibility, thinnest };
}

function worked(
  preload_N: number,
  stretch_mm: number,
  found: { stiffness: number; thinnest: number },
  steps: string[],
): BoltStretch {
  const stress_MPa = preload_N / found.thinnest;
  return {
    preload_N,
    stretch_mm,
    stress_MPa,
    stiffness_N_per_mm: found.stiffness,
    steps: [
      `Stiffness: 1 / sum of length / (area x E) = ${show(found.stiffness, 4)} N/mm.`,
      ...steps,
      `Stress in the thinnest part: ${show(stress_MPa, 4)} MPa. Good only below the yield of the bolt; the maker's stretch goes first.`,
    ],
  };
}

/**
 * Stretch that a preload gives a bolt, within its elastic range.
 * @param preload_N tension, greater than zero
 * @param segments lengths in mm and areas in mm2 under load, at least one
 * @param modulus_MPa modulus of elasticity, for example 205000 for steel
 * @returns refused when a figure is not greater than zero
 * Source: Hooke's law, F = E x A / L x stretch; engineeringtoolbox.com, page on bolt stretching.
 */
export function stretchFromPreload(
  preload_N: number,
  segments: readonly BoltSegment[],
  modulus_MPa: number,
): Result<BoltStretch> {
  const bad = refuseNotPositive({ preload: preload_N });
  if (bad !== undefined) return bad;
  const found = stiffness(segments, modulus_MPa);
  if ("refused" in found) return found;
  const stretch_mm = preload_N / found.stiffness;
  return answer(
    worked(preload_N, stretch_mm, found, [
      `Stretch: ${show(preload_N)} N / ${show(found.stiffness, 4)} N/mm = ${show(stretch_mm, 4)} mm.`,
    ]),
  );
}

/**
 * Preload that a measured stretch shows, within the elastic range.
 * @param stretch_mm measured lengthening, greater than zero
 * @param segments lengths in mm and areas in mm2 under load, at least one
 * @param modulus_MPa modulus of elasticity
 * @returns refused when a figure is not greater than zero
 * Source: as stretchFromPreload.
 */
export function preloadFromStretch(
  stretch_mm: number,
  segments: readonly BoltSegment[],
  modulus_MPa: number,
): Result<BoltStretch> {
  const bad = refuseNotPositive({ stretch: stretch_mm });
  if (bad !== undefined) return bad;
  const found = stiffness(segments, modulus_MPa);
  if ("refused" in found) return found;
  const preload_N = stretch_mm * found.stiffness;
  return answer(
    worked(preload_N, stretch_mm, found, [
      `Preload: ${show(stretch_mm)} mm x ${show(found.stiffness, 4)} N/mm = ${show(preload_N, 4)} N.`,
    ]),
  );
}

/**
 * What to say when a fastener was tightened by a coarser method than its data ask for; undefined when it was not.
 * @param asked method that the data name
 * @param recorded method that the record shows
 * Source: preloadScatter.
 */
export function coarserMethod(asked: PreloadMethod, recorded: PreloadMethod): string | undefined {
  if (preloadScatter[recorded].percent <= preloadScatter[asked].percent) return undefined;
  return `The data ask for ${asked}, the record shows ${recorded}: ${preloadScatter[recorded].says}, while ${preloadScatter[asked].says}.`;
}
