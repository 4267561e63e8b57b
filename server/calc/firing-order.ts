/**
 * Firing orders: computed for four-stroke radials, checked for other engines.
 */
import type { EngineLayout } from "./engine-layout.ts";
import { show } from "./figures.ts";
import { answer, type Result, refuse, type Worked } from "./result.ts";

/**
 * Firing order of a four-stroke radial, beginning with cylinder 1.
 * @param layout a radial of one or two rows
 * @returns the order; a refusal for other engines, whose order stands on the data plate
 * Source: single row odd numbers then even; two rows alternate, +9 or -5 for 14 cylinders, +11 or -7 for 18
 *   (FAA-H-8083-32, as repeated at aircraftsystemstech.com). Both are steps of (row + 2) with two rows and of 2 with one.
 */
export function radialFiringOrder(layout: EngineLayout): Result<{ order: number[] } & Worked> {
  if (layout.arrangement !== "radial") {
    return refuse("Only the order of a radial follows from its layout; take this one from the engine's data plate.");
  }
  const total = layout.cylinders.length;
  const perRow = total / layout.rows;
  const step = layout.rows === 1 ? 2 : perRow + 2;
  const order: number[] = [];
  for (let index = 0; index < total; index++) order.push(((index * step) % total) + 1);
  const interval_deg = 720 / total;
  return answer({
    order,
    steps: [
      layout.rows === 1
        ? `Every second cylinder in the direction of rotation, twice round: ${order.join("-")}.`
        : `Rows in turn, each time ${step} further (or ${total - step} back): ${order.join("-")}.`,
      `One cylinder fires every 720 / ${total} = ${show(interval_deg, 5)} degrees.`,
    ],
  });
}

/**
 * Mean angle between two firings.
 * @param cylinders whole number, 1 or more
 * @param cycle four-stroke (720 degrees a cycle) or two-stroke (360)
 * Source: degrees of a cycle over cylinders.
 */
export function firingInterval(
  cylinders: number,
  cycle: "four-stroke" | "two-stroke" = "four-stroke",
): Result<{ interval_deg: number } & Worked> {
  if (!Number.isInteger(cylinders) || cylinders < 1) return refuse(`${show(cylinders)} is no number of cylinders.`);
  const whole = cycle === "four-stroke" ? 720 : 360;
  const interval_deg = whole / cylinders;
  return answer({
    interval_deg,
    steps: [`${whole} / ${cylinders} = ${show(interval_deg, 5)} degrees between firings, ${cycle}.`],
  });
}

export interface FiringOrderCheck {
  /** True when each cylinder of the engine stands in the order exactly once. */
  complete: boolean;
  /** Cylinders that are not in the order, that stand in it more than once, and numbers that the engine does not have. */
  missing: number[];
  repeated: number[];
  unknown: number[];
}

/**
 * Checks a firing order that was given.
 * @param order cylinder numbers in the order in which they fire
 * @param cylinders number of cylinders of the engine, numbered from 1
 * Source: each cylinder fires once a cycle.
 */
export function checkFiringOrder(order: readonly number[], cylinders: number): Result<FiringOrderCheck> {
  if (!Number.isInteger(cylinders) || cylinders < 1) return refuse(`${show(cylinders)} is no number of cylinders.`);
  const counts = new Map<number, number>();
  for (const number of order) counts.set(number, (counts.get(number) ?? 0) + 1);
  const missing: number[] = [];
  for (let number = 1; number <= cylinders; number++) if (!counts.has(number)) missing.push(number);
  const known = (number: number) => Number.isInteger(number) && number >= 1 && number <= cylinders;
  const repeated = [...counts].filter(([number, count]) => known(number) && count > 1).map(([number]) => number);
  const unknown = [...counts.keys()].filter((number) => !known(number));
  return answer({ complete: missing.length + repeated.length + unknown.length === 0, missing, repeated, unknown });
}

/**
 * Whether two orders are the same cycle, whichever cylinder each begins with.
 * @param one an order with each cylinder once
 * @param other another
 */
export function sameFiringOrder(one: readonly number[], other: readonly number[]): boolean {
  if (one.length !== other.length) return false;
  if (one.length === 0) return true;
  const shift = other.indexOf(one[0]);
  return shift !== -1 && one.every((number, index) => number === other[(index + shift) % other.length]);
}
