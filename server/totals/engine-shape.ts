/**
 * How the cylinders of a type stand, as its block says: numbers, and which of them hang below the horizontal as installed.
 */
import { type EngineLayout, engineLayout } from "../calc/engine-layout.ts";
import { type LowCylinder, lowCylinders } from "../calc/low-cylinders.ts";
import type { EngineTypeBlock } from "../facts/types.ts";

/** Cylinders of a type, numbered the way it says; undefined where the layout is not written or cannot be worked out. */
export function layoutOf(type: EngineTypeBlock | undefined): EngineLayout | undefined {
  const { layout, numbering } = type ?? {};
  if (!layout) return undefined;
  const angle_deg =
    layout.angle?.unit.dimension === "angle" ? layout.angle.value * layout.angle.unit.factorNumber : undefined;
  const found = engineLayout(layout.arrangement, layout.count, angle_deg);
  if (!found.ok) return undefined;
  // Layouts are worked out clockwise from the rear. Anticlockwise from the rear, or clockwise from the front, is the mirror image.
  const mirrored = numbering !== undefined && (numbering.sense === "anticlockwise") !== (numbering.end === "front");
  if (!mirrored) return found.layout;
  return {
    ...found.layout,
    cylinders: found.layout.cylinders.map((one) => ({ ...one, angle_deg: (360 - one.angle_deg) % 360 })),
  };
}

/** Numbers of the cylinders of a type, in order; empty where they are not known. */
export function cylinderNumbers(type: EngineTypeBlock | undefined): readonly number[] {
  return (layoutOf(type)?.cylinders ?? []).map((one) => one.number).sort((a, b) => a - b);
}

/**
 * Cylinders below the horizontal as installed, the lowest first.
 * Source: geometry; that liquid gathers in them is common practice, no source.
 */
export function lowOf(type: EngineTypeBlock | undefined): readonly LowCylinder[] {
  const layout = layoutOf(type);
  if (!layout) return [];
  const roll_deg =
    type?.mounting?.unit.dimension === "angle" ? type.mounting.value * type.mounting.unit.factorNumber : 0;
  const found = lowCylinders(layout, { roll_deg });
  return found.ok ? found.low : [];
}
