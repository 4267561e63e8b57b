import { clearanceRange } from "./clearance.ts";
import { settle, show } from "./figures.ts";
import {
  fineShaftLowerDeviation_um,
  fineStepEnds_mm,
  gradeTolerance_um,
  shaftLowerDeviation_um,
  shaftUpperDeviation_um,
  stepEnds_mm,
} from "./iso-286-tables.ts";
import type { Refused, Result, Worked } from "./result.ts";
import { answer, refuse } from "./result.ts";

export interface ToleranceClassLimits extends Worked {
  readonly feature: "hole" | "shaft";
  /** The class as it was asked for, for example H7. */
  readonly toleranceClass: string;
  readonly lowerDeviation_um: number;
  readonly upperDeviation_um: number;
  readonly least_mm: number;
  readonly greatest_mm: number;
}

export interface FitLimits extends Worked {
  readonly hole: ToleranceClassLimits;
  readonly shaft: ToleranceClassLimits;
  /** Negative is an interference. */
  readonly leastClearance_um: number;
  readonly greatestClearance_um: number;
  readonly kind: "clearance" | "transition" | "interference";
}

interface ParsedClass {
  readonly letters: string;
  readonly grade: number;
}

const shaftLetters = "f, g, h, js, k, m, n, p, r, s";
const holeLetters = "F, G, H, JS, K, M, N, P, R";

function stepIndex(nominal_mm: number, ends: readonly number[]): number {
  return ends.findIndex((end) => nominal_mm <= end);
}

function refuseNominal(nominal_mm: number): Refused | undefined {
  if (!Number.isFinite(nominal_mm) || nominal_mm <= 0) {
    return refuse(`The nominal size must be greater than zero, not ${nominal_mm} mm.`);
  }
  if (nominal_mm > 500) return refuse(`The tables reach to 500 mm; ${show(nominal_mm)} mm is beyond them.`);
  return undefined;
}

function parseClass(text: string): ParsedClass | Refused {
  const match = /^([A-Za-z]{1,2})([0-9]{1,2})$/.exec(text);
  if (match === null) return refuse(`"${text}" is not a tolerance class; write a letter and a grade, for example H7.`);
  const letters = match[1] ?? "";
  const grade = Number(match[2]);
  if (gradeTolerance_um[grade] === undefined) {
    return refuse(`The tables hold grades 5 to 11; grade ${grade} of "${text}" is not among them.`);
  }
  return { letters, grade };
}

function tolerance(nominal_mm: number, grade: number): number {
  return gradeTolerance_um[grade]?.[stepIndex(nominal_mm, stepEnds_mm)] ?? Number.NaN;
}

/** Lower deviation of a shaft that lies above the nominal size; undefined for a letter that the tables do not hold. */
function aboveNominal(nominal_mm: number, letters: string): number | undefined {
  return (
    shaftLowerDeviation_um[letters]?.[stepIndex(nominal_mm, stepEnds_mm)] ??
    fineShaftLowerDeviation_um[letters]?.[stepIndex(nominal_mm, fineStepEnds_mm)]
  );
}

/** Deviations of a shaft, or a refusal that names what the tables hold. */
function shaftDeviations(nominal_mm: number, letters: string, grade: number): [number, number] | Refused {
  const width = tolerance(nominal_mm, grade);
  if (letters === "js") return [-width / 2, width / 2];
  const step = stepIndex(nominal_mm, stepEnds_mm);
  const upper = shaftUpperDeviation_um[letters]?.[step];
  if (upper !== undefined) return [upper - width, upper];
  // Letter k has its small lift only in grades 4 to 7; in coarser grades the shaft begins at the nominal size.
  if (letters === "k" && grade > 7) return [0, width];
  const lower = aboveNominal(nominal_mm, letters);
  if (lower !== undefined) return [lower, lower + width];
  return refuse(`The tables hold shafts ${shaftLetters}; "${letters}" is not among them.`);
}

/** Deviations of a hole. F to H mirror the shaft; K to R mirror it and add the step between two grades. */
function holeDeviations(nominal_mm: number, letters: string, grade: number): [number, number] | Refused {
  const width = tolerance(nominal_mm, grade);
  if (letters === "JS") return [-width / 2, width / 2];
  const step = stepIndex(nominal_mm, stepEnds_mm);
  const shaftUpper = shaftUpperDeviation_um[letters.toLowerCase()]?.[step];
  if (shaftUpper !== undefined) {
    const lower = settle(-shaftUpper);
    return [lower, lower + width];
  }
  const coarsest = letters === "P" || letters === "R" ? 7 : 8;
  const shaftLower = ["K", "M", "N", "P", "R"].includes(letters)
    ? aboveNominal(nominal_mm, letters.toLowerCase())
    : undefined;
  if (shaftLower === undefined) return refuse(`The tables hold holes ${holeLetters}; "${letters}" is not among them.`);
  if (grade > coarsest) {
    return refuse(
      `Hole ${letters} is worked out to grade ${coarsest} only; look up ${letters}${grade} in the standard.`,
    );
  }
  if (nominal_mm <= 3) {
    const upper = settle(-shaftLower);
    return [upper - width, upper];
  }
  if (grade === 5) {
    // The rule needs the tolerance of the next finer grade.
    return refuse(`Hole ${letters}5 needs the tolerance of grade 4, which the tables do not hold.`);
  }
  if (letters === "M" && grade === 6 && nominal_mm > 250 && nominal_mm <= 315) {
    // The standard is known to depart from its own rule here, and no printed table of that step was seen.
    return refuse("Hole M6 over 250 up to 315 mm departs from the rule of the standard; look it up there.");
  }
  const upper = -shaftLower + (width - tolerance(nominal_mm, grade - 1));
  return [upper - width, upper];
}

/**
 * Width of a standard tolerance grade.
 * @param nominal_mm nominal size, over 0 to 500 mm; a size at the end of a step belongs to that step
 * @param grade 5 to 11
 * @returns refused outside the range of the tables
 * Source: ISO 286-1 table 1, as repeated by the texts named in iso-286-tables.ts.
 */
export function gradeTolerance(nominal_mm: number, grade: number): Result<{ readonly tolerance_um: number } & Worked> {
  const bad = refuseNominal(nominal_mm);
  if (bad !== undefined) return bad;
  if (gradeTolerance_um[grade] === undefined) return refuse(`The tables hold grades 5 to 11, not ${grade}.`);
  const step = stepIndex(nominal_mm, stepEnds_mm);
  const tolerance_um = tolerance(nominal_mm, grade);
  return answer({
    tolerance_um,
    steps: [
      `${show(nominal_mm)} mm lies in the step over ${step === 0 ? 0 : stepEnds_mm[step - 1]} up to and including ${stepEnds_mm[step]} mm; grade ${grade} is ${tolerance_um} um wide there.`,
    ],
  });
}

/**
 * Limits of size of one tolerance class. A class in capitals is a hole, in small letters a shaft.
 * @param nominal_mm nominal size, over 0 to 500 mm
 * @param toleranceClass letter and grade, for example H7, JS6, p6; grades 5 to 11; shafts f g h js k m n p r s, holes
 *   F G H JS, K M N to grade 8, P R to grade 7 (K to R above 3 mm from grade 6)
 * @returns refused for a size, letter or grade that the tables do not hold
 * Source: ISO 286-1 and ISO 286-2, as repeated by the texts named in iso-286-tables.ts; the rule for holes K to R
 * (upper deviation is the mirrored lower deviation of the shaft plus the difference of the grade to the next finer) is
 * checked against two bearing makers' printed tables.
 */
export function toleranceClassLimits(nominal_mm: number, toleranceClass: string): Result<ToleranceClassLimits> {
  const bad = refuseNominal(nominal_mm);
  if (bad !== undefined) return bad;
  const parsed = parseClass(toleranceClass);
  if ("ok" in parsed) return parsed;
  const { letters, grade } = parsed;
  const isHole = letters === letters.toUpperCase();
  if (!isHole && letters !== letters.toLowerCase()) {
    return refuse(`"${toleranceClass}" mixes capitals (a hole) and small letters (a shaft).`);
  }
  const deviations = isHole ? holeDeviations(nominal_mm, letters, grade) : shaftDeviations(nominal_mm, letters, grade);
  if ("ok" in deviations) return deviations;
  const [lowerDeviation_um, upperDeviation_um] = deviations;
  const least_mm = settle(nominal_mm + lowerDeviation_um / 1000);
  const greatest_mm = settle(nominal_mm + upperDeviation_um / 1000);
  return answer({
    feature: isHole ? ("hole" as const) : ("shaft" as const),
    toleranceClass,
    lowerDeviation_um,
    upperDeviation_um,
    least_mm,
    greatest_mm,
    steps: [
      `${show(nominal_mm)} ${toleranceClass}: grade ${grade} is ${show(tolerance(nominal_mm, grade))} um wide at this size.`,
      `Deviations ${show(lowerDeviation_um)} and ${show(upperDeviation_um)} um give ${show(least_mm, 9)} to ${show(greatest_mm, 9)} mm (ISO 286).`,
    ],
  });
}

/**
 * Limits and clearances of a fit of two tolerance classes on one nominal size.
 * @param nominal_mm nominal size, over 0 to 500 mm
 * @param fit hole class, stroke, shaft class, for example H7/p6
 * @returns refused when either class is, or the text is not a hole over a shaft
 * Source: ISO 286-1, as toleranceClassLimits.
 */
export function fitLimits(nominal_mm: number, fit: string): Result<FitLimits> {
  const parts = fit.split("/");
  if (parts.length !== 2) return refuse(`"${fit}" is not a fit; write hole class/shaft class, for example H7/p6.`);
  const hole = toleranceClassLimits(nominal_mm, parts[0] ?? "");
  if (!hole.ok) return hole;
  const shaft = toleranceClassLimits(nominal_mm, parts[1] ?? "");
  if (!shaft.ok) return shaft;
  if (hole.feature !== "hole" || shaft.feature !== "shaft") {
    return refuse(`"${fit}" must name the hole first, in capitals, and the shaft after the stroke, in small letters.`);
  }
  const range = clearanceRange({
    holeLeast_mm: hole.least_mm,
    holeGreatest_mm: hole.greatest_mm,
    shaftLeast_mm: shaft.least_mm,
    shaftGreatest_mm: shaft.greatest_mm,
  });
  if (!range.ok) return range;
  return answer({
    hole,
    shaft,
    leastClearance_um: settle(hole.lowerDeviation_um - shaft.upperDeviation_um),
    greatestClearance_um: settle(hole.upperDeviation_um - shaft.lowerDeviation_um),
    kind: range.kind,
    steps: [...hole.steps, ...shaft.steps, ...range.steps],
  });
}
