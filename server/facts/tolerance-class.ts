/** A tolerance class or a fit as a way of writing limits: `H7` on 26 mm is 26.000..26.021 mm. */

import { settle } from "../calc/figures.ts";
import { fitLimits, toleranceClassLimits } from "../calc/iso-286-fit.ts";
import { convertNumber, type Measure } from "../quantity/compare.ts";
import { findUnit, type Unit } from "../quantity/units.ts";
import type { Bounds, LimitLine } from "./types.ts";

export interface ClassLimits {
  readonly bounds: Bounds | undefined;
  readonly toleranceClass: NonNullable<LimitLine["toleranceClass"]>;
}

/** A length in mm, as exact as the tables are: a tenth of a micrometre. */
function inMm(value_mm: number, unit: Unit): Measure {
  const text = value_mm.toFixed(4).replace(/0$/u, "");
  return { value: Number(text), text, unit };
}

/**
 * Reads a class on a nominal size. One class limits a size, a fit of two limits the figure of a formula: hole less shaft, so that an
 * interference is a figure below zero.
 * @param text `H7`, `p6` or `H7/p6`
 * @param stands what else the line says
 * Source: ISO 286, as `iso-286-fit.ts` names it.
 */
export function limitsOfClass(
  text: string,
  nominal: Measure,
  stands: { readonly ofFormula: boolean; readonly besideNew: boolean },
): ClassLimits {
  const mm = findUnit("mm");
  const refuse = (refused: string): ClassLimits => ({ bounds: undefined, toleranceClass: { text, nominal, refused } });
  if (!mm) return refuse("There is no millimetre.");
  if (stands.besideNew)
    return refuse(`The line has new limits of its own beside the class ${text}; leave one of them out.`);
  const isFit = text.includes("/");
  if (isFit !== stands.ofFormula)
    return refuse(
      isFit
        ? `A fit is about a clearance: give ${text} to a formula (= hole - shaft), or one class to each part.`
        : `The class ${text} is about the size of one part; the figure of a formula takes a fit such as H7/p6.`,
    );
  const nominal_mm = settle(convertNumber(nominal.value, nominal.unit, mm));
  let low_mm: number;
  let high_mm: number;
  if (isFit) {
    const found = fitLimits(nominal_mm, text);
    if (!found.ok) return refuse(found.refused);
    low_mm = found.leastClearance_um / 1000;
    high_mm = found.greatestClearance_um / 1000;
  } else {
    const found = toleranceClassLimits(nominal_mm, text);
    if (!found.ok) return refuse(found.refused);
    low_mm = found.least_mm;
    high_mm = found.greatest_mm;
  }
  const low = inMm(low_mm, mm);
  const high = inMm(high_mm, mm);
  const on = `${nominal.text} ${nominal.unit.spelling}`;
  return {
    bounds: { low, high, text: `${low.text}..${high.text} mm (${text} on ${on})` },
    toleranceClass: { text, nominal, refused: "" },
  };
}
