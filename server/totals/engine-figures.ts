/** What follows from the layout and the sizes of an engine type, worked out step by step: firing, low cylinders, volumes, piston speed. */
import { displacement, meanPistonSpeed } from "../calc/engine-arithmetic.ts";
import { engineLayout } from "../calc/engine-layout.ts";
import { firingInterval, radialFiringOrder } from "../calc/firing-order.ts";
import { lowCylinders } from "../calc/low-cylinders.ts";
import type { Ask } from "../checking/ask.ts";
import type { EngineTypeBlock, LimitsBlock } from "../facts/types.ts";
import { convertNumber, type Measure } from "../quantity/compare.ts";
import { findUnit } from "../quantity/units.ts";
import { layoutOf } from "./engine-shape.ts";

const mm = findUnit("mm");
const rpm = findUnit("rpm");
const deg = findUnit("deg");

/** A measure as a double in a unit; undefined where it is missing or of another dimension. */
function inUnit(measure: Measure | undefined, unit: ReturnType<typeof findUnit>): number | undefined {
  if (!measure || !unit || measure.unit.dimension !== unit.dimension) return undefined;
  return convertNumber(measure.value, measure.unit, unit);
}

/** Why the layout of a type cannot be worked out, as a sentence; undefined where it can, or where none is written. */
export function layoutRefusal(type: EngineTypeBlock): string | undefined {
  const { layout } = type;
  if (!layout) return undefined;
  const found = engineLayout(layout.arrangement, layout.count, inUnit(layout.angle, deg));
  return found.ok ? undefined : found.refused;
}

/** Whether the crank turns the way in which the cylinders are numbered; undefined where either is not written. */
function turnsWithNumbers(type: EngineTypeBlock): boolean | undefined {
  const { numbering, rotation } = type;
  if (!numbering || !rotation) return undefined;
  const fromRear = (one: { readonly sense: string; readonly end: string }): boolean =>
    (one.sense === "clockwise") === (one.end === "rear");
  return fromRear(numbering) === fromRear(rotation);
}

/** The firing orders that the layout of a type allows, from cylinder 1; empty where they do not follow from the layout. */
export function firingOrders(type: EngineTypeBlock): readonly (readonly number[])[] {
  const layout = layoutOf(type);
  const found = layout && radialFiringOrder(layout);
  if (!found?.ok) return [];
  const [first = 1, ...others] = found.order;
  const backwards = [first, ...others.reverse()];
  const turns = turnsWithNumbers(type);
  return turns === undefined ? [found.order, backwards] : [turns ? found.order : backwards];
}

/** Swept volume of one cylinder in cm3, with the working; undefined where bore or stroke is not written. */
export function sweptVolume(type: EngineTypeBlock | undefined): { readonly cylinder_cm3: number } | undefined {
  const bore_mm = inUnit(type?.bore, mm);
  const stroke_mm = inUnit(type?.stroke, mm);
  const found = bore_mm === undefined || stroke_mm === undefined ? undefined : displacement(bore_mm, stroke_mm, 1);
  return found?.ok ? { cylinder_cm3: found.cylinder_cm3 } : undefined;
}

/** Displacement of the whole engine in cm3; undefined where bore, stroke or layout is not written. */
export function displacementOf(type: EngineTypeBlock | undefined): number | undefined {
  const cylinders = layoutOf(type)?.cylinders.length;
  const one = sweptVolume(type);
  return cylinders && one ? one.cylinder_cm3 * cylinders : undefined;
}

/** The greatest speed that a revision of the limits allows without a condition, in rpm. */
export function greatestSpeed_rpm(limits: LimitsBlock | undefined): number | undefined {
  const speeds = (limits?.limits ?? []).flatMap((line) => {
    if (line.place.feature !== "crank.speed" || line.stat !== "value" || line.condition) return [];
    const bound = inUnit((line.bare ?? line.wearLimits ?? line.newLimits)?.high, rpm);
    return bound === undefined ? [] : [bound];
  });
  return speeds.length === 0 ? undefined : Math.min(...speeds);
}

export interface Figures {
  readonly heading: string;
  readonly steps: readonly string[];
}

/** The revision of a type's limits that came into force last, as of the day. */
function latestLimits(ask: Ask, type: string): LimitsBlock | undefined {
  const today = ask.asOf();
  return ask
    .revisions(type)
    .filter((one) => one.from !== undefined && one.from <= today)
    .reduce<LimitsBlock | undefined>(
      (last, one) => (last && (last.from ?? 0) >= (one.from ?? 0) ? last : one),
      undefined,
    );
}

/** Everything that can be worked out of a type as it is written; what cannot is said in the words of the refusal. */
export function engineFigures(ask: Ask, type: EngineTypeBlock): readonly Figures[] {
  const figures: Figures[] = [];
  const refused = layoutRefusal(type);
  if (refused !== undefined) figures.push({ heading: "Layout", steps: [refused] });
  const layout = layoutOf(type);
  if (layout) {
    const interval = firingInterval(layout.cylinders.length);
    const orders = firingOrders(type);
    const given = type.firing?.order ?? [];
    const order =
      orders.length === 1
        ? [`Firing order, from the layout: ${orders[0].join("-")}.`]
        : given.length > 0
          ? [`Firing order, as given: ${given.join("-")}.`]
          : orders.length > 1
            ? [
                `Firing order: ${orders.map((one) => one.join("-")).join(", or ")}; numbering and rotation decide which.`,
              ]
            : ["The firing order does not follow from this layout: write it from the data plate (firing ...)."];
    figures.push({ heading: "Firing", steps: [...order, ...(interval.ok ? interval.steps : [])] });
    const low = lowCylinders(layout, { roll_deg: inUnit(type.mounting, deg) ?? 0 });
    if (low.ok)
      figures.push({
        heading: "Liquid lock",
        steps:
          low.low.length === 0
            ? low.steps
            : [...low.steps, "Their pipes and plugs are named by the check before every start after standing."],
      });
  }
  const bore_mm = inUnit(type.bore, mm);
  const stroke_mm = inUnit(type.stroke, mm);
  const steps: string[] = [];
  if (bore_mm !== undefined && stroke_mm !== undefined) {
    const found = displacement(bore_mm, stroke_mm, layout?.cylinders.length ?? 1);
    steps.push(...(found.ok ? (layout ? found.steps : found.steps.slice(0, 1)) : [found.refused]));
  }
  const limits = latestLimits(ask, type.name);
  const speed_rpm = greatestSpeed_rpm(limits);
  if (stroke_mm !== undefined && speed_rpm !== undefined && limits) {
    const found = meanPistonSpeed(stroke_mm, speed_rpm);
    if (found.ok) steps.push(...found.steps, `(the greatest speed of revision ${limits.revision})`);
  }
  if (steps.length > 0) figures.push({ heading: "Volume and piston speed", steps });
  return figures;
}
