import type { Measure } from "../../server/quantity/compare.ts";
import { measure } from "../../server/quantity/compare.ts";
import type { Unit } from "../../server/quantity/units.ts";
import { findUnit } from "../../server/quantity/units.ts";

/** A unit that the test takes for granted. */
export function unit(spelling: string): Unit {
  const found = findUnit(spelling);
  if (found === undefined) throw new Error(`"${spelling}" is no unit`);
  return found;
}

/** A measure that the test takes for granted. */
export function m(text: string, spelling: string): Measure {
  const found = measure(text, spelling);
  if (found === undefined) throw new Error(`"${text} ${spelling}" is no measure`);
  return found;
}
