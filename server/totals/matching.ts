/**
 * Which measured part goes to which place: the assignment that puts every clearance inside its new limits and makes the spread least, or why
 * none exists. Nothing is entered by itself: the moves are lines for whoever builds the engine to take over.
 */

import { type Refused, type Result, refuse } from "../calc/result.ts";
import {
  type BlockedAssembly,
  type MatchedItem,
  type SelectiveAssembly,
  selectiveAssembly,
} from "../calc/selective-assembly.ts";
import type { Ask } from "../checking/ask.ts";
import type { FormulaTerm, LimitLine } from "../facts/types.ts";
import { convertNumber, type Measure } from "../quantity/compare.ts";
import { findUnit } from "../quantity/units.ts";
import { currentReadings, historyKey, placeHistory } from "./place-history.ts";
import { limitsOfJob } from "./run-context.ts";

export interface Matching {
  /** The figure whose limits are kept. */
  readonly figure: string;
  readonly limits: string;
  readonly assembly: Result<SelectiveAssembly> | BlockedAssembly;
  /** `move piston[5] to piston[3]` for each part that goes elsewhere; empty where all stay or none fits. */
  readonly moves: readonly string[];
}

/** Figures of the job's limits that are one feature less another: what can be matched. */
export function matchable(ask: Ask, job: string): readonly LimitLine[] {
  return (limitsOfJob(ask, job)?.limits ?? []).filter(
    ({ formula, newLimits }) =>
      formula.length === 2 &&
      formula[0]?.sign === 1 &&
      formula[1]?.sign === -1 &&
      formula.every((term) => term.factor === 1) &&
      newLimits?.low !== undefined &&
      newLimits.high !== undefined,
  );
}

/** The part of a feature: `piston` of `piston.skirt`. */
const partOf = (feature: string): string => feature.split(".")[0] ?? feature;

/** Size of each part by its place, as the term of the formula takes it: of several readings the greatest, the least or the mean. */
function sizes(ask: Ask, job: string, term: FormulaTerm): MatchedItem[] | Refused {
  const mm = findUnit("mm");
  const byPart = new Map<string, number[]>();
  for (const one of currentReadings(ask.total(placeHistory, historyKey(job, term.place.feature))).values()) {
    if (!mm || one.pathNow === undefined || one.result !== "value" || one.measure?.unit.dimension !== "length")
      continue;
    const name = `${partOf(term.place.feature)}[${one.pathNow.split("/")[0]}]`;
    const value = convertNumber(one.measure.value, one.measure.unit, mm);
    const list = byPart.get(name);
    if (list) list.push(value);
    else byPart.set(name, [value]);
  }
  const items: MatchedItem[] = [];
  for (const [name, values] of byPart) {
    if (term.stat === "each" && values.length > 1)
      return refuse(
        `${name} has ${values.length} readings of ${term.place.feature}, and the limit does not say which counts (greatest, least or mean).`,
      );
    const size_mm =
      term.stat === "mean"
        ? values.reduce((sum, value) => sum + value, 0) / values.length
        : term.stat === "least"
          ? Math.min(...values)
          : Math.max(...values);
    items.push({ name, size_mm });
  }
  if (items.length === 0) return refuse(`No reading of ${term.place.feature} stands in this job.`);
  return items.sort((a, b) => a.name.localeCompare(b.name, "en", { numeric: true }));
}

/**
 * Matches the parts of a job for one figure of its limits.
 * @param line one of `matchable`
 */
export function matching(ask: Ask, job: string, line: LimitLine): Matching {
  const mm = findUnit("mm");
  const [hole, shaft] = line.formula;
  const inMm = (bound: Measure | undefined): number =>
    bound && mm && bound.unit.dimension === "length" ? convertNumber(bound.value, bound.unit, mm) : Number.NaN;
  const base = { figure: line.place.feature, limits: line.newLimits?.text ?? "" };
  const places = hole ? sizes(ask, job, hole) : refuse("The figure has no place.");
  const parts = shaft ? sizes(ask, job, shaft) : refuse("The figure has no part.");
  if ("ok" in places) return { ...base, assembly: places, moves: [] };
  if ("ok" in parts) return { ...base, assembly: parts, moves: [] };
  const assembly = selectiveAssembly(places, parts, {
    least_mm: inMm(line.newLimits?.low),
    greatest_mm: inMm(line.newLimits?.high),
  });
  const pathIn = (name: string): string => name.slice(name.indexOf("["));
  const moves = assembly.ok
    ? assembly.matches
        .filter((match) => pathIn(match.place) !== pathIn(match.part))
        .map((match) => `move ${match.part} to ${partOf(shaft?.place.feature ?? "")}${pathIn(match.place)}`)
    : [];
  return { ...base, assembly, moves };
}
