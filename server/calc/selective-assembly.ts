import type { CostTable } from "./assignment.ts";
import { findBlockade, greatestMatching, leastCostAssignment } from "./assignment.ts";
import { settle, show } from "./figures.ts";
import type { Refused, Result, Worked } from "./result.ts";
import { answer, refuse, refuseUnusable } from "./result.ts";

/** A bore, journal or gap that takes one part, or a part that goes into one. */
export interface MatchedItem {
  readonly name: string;
  readonly size_mm: number;
}

export interface Match {
  readonly place: string;
  readonly part: string;
  readonly clearance_mm: number;
}

export interface SelectiveAssembly extends Worked {
  readonly matches: readonly Match[];
  /** Parts left over where there are more parts than places. */
  readonly spare: readonly string[];
  readonly least_mm: number;
  readonly greatest_mm: number;
  /** Greatest less least clearance: no assignment inside the limits has a smaller one. */
  readonly spread_mm: number;
}

/** No assignment puts every clearance inside the limits, and which places and parts are the reason. */
export interface BlockedAssembly extends Refused {
  /** Places that together fit fewer parts than they are; none of them can be spared from the reason. */
  readonly blockedPlaces: readonly string[];
  /** All parts that fit any of those places. */
  readonly fittingParts: readonly string[];
  /** For a single blocked place that fits no part: the part that comes nearest and by how much it misses. */
  readonly nearest: { readonly part: string; readonly clearance_mm: number; readonly misses_mm: number } | undefined;
}

export interface ClearanceLimits {
  readonly least_mm: number;
  readonly greatest_mm: number;
}

interface Window {
  readonly low: number;
  readonly high: number;
}

function within(table: readonly (readonly number[])[], { low, high }: Window): boolean[][] {
  return table.map((row) => row.map((value) => value >= low && value <= high));
}

/**
 * Every narrowest span of clearances that still allows a complete assignment. Low and high ends only ever move up, so
 * each of the sorted clearances is visited at most twice, and a matching is grown from the one before.
 */
function narrowestWindows(table: readonly (readonly number[])[], limits: ClearanceLimits): Window[] {
  const values = [...new Set(table.flat())]
    .filter((value) => value >= limits.least_mm && value <= limits.greatest_mm)
    .sort((a, b) => a - b);
  let found: Window[] = [];
  let narrowest = Number.POSITIVE_INFINITY;
  let matching: number[] | undefined;
  let end = 0;
  for (const low of values) {
    for (;;) {
      const high = values[end];
      if (high === undefined) return found;
      matching = greatestMatching(within(table, { low, high }), matching);
      if (!matching.includes(-1)) break;
      end += 1;
    }
    const high = values[end] ?? low;
    const span = settle(high - low);
    if (span < narrowest) {
      narrowest = span;
      found = [];
    }
    if (span === narrowest) found.push({ low, high });
  }
  return found;
}

function blockedAssembly(
  places: readonly MatchedItem[],
  parts: readonly MatchedItem[],
  table: readonly (readonly number[])[],
  limits: ClearanceLimits,
): BlockedAssembly {
  const blockade = findBlockade(within(table, { low: limits.least_mm, high: limits.greatest_mm }));
  const blockedPlaces = (blockade?.rows ?? []).map((row) => places[row]?.name ?? "");
  const fittingParts = (blockade?.columns ?? []).map((column) => parts[column]?.name ?? "");
  const range = `${show(limits.least_mm)}..${show(limits.greatest_mm)} mm`;
  let nearest: BlockedAssembly["nearest"];
  const only = blockade?.rows.length === 1 ? blockade.rows[0] : undefined;
  if (only !== undefined) {
    const misses = (value: number): number => settle(Math.max(limits.least_mm - value, value - limits.greatest_mm));
    for (const [column, value] of (table[only] ?? []).entries()) {
      if (!Number.isFinite(value)) continue;
      if (nearest === undefined || misses(value) < nearest.misses_mm) {
        nearest = { part: parts[column]?.name ?? "", clearance_mm: value, misses_mm: misses(value) };
      }
    }
  }
  const refused =
    nearest !== undefined
      ? `No part fits ${blockedPlaces[0]} within ${range}; nearest is ${nearest.part} with ${show(nearest.clearance_mm)} mm, ${show(nearest.misses_mm)} mm off.`
      : fittingParts.length === 0
        ? `No part may be used for ${blockedPlaces.join(", ")}.`
        : `No assignment keeps every clearance within ${range}: ${blockedPlaces.join(", ")} fit only ${fittingParts.join(", ")}.`;
  return { ok: false, refused, blockedPlaces, fittingParts, nearest };
}

/**
 * Assigns measured parts to measured places so that every clearance is inside its limits and the set is as even as it
 * can be.
 *
 * The objective, exactly: first, the spread (greatest less least clearance of the set) is the smallest that any complete
 * assignment inside the limits has; second, among all assignments of that smallest spread, the sum of squared
 * distances from the middle of the limits is the smallest. Both are exact, not heuristic. Clearance is place less part.
 * @param places bores, journals or gaps with their sizes; at least one, names unique
 * @param parts pistons, shells or shims with their sizes; at least as many as places, names unique
 * @param limits least and greatest clearance, both allowed, least not above greatest
 * @param forbidden pairs [place, part] that must not be made
 * @returns refused when the input is faulty, and blocked, with the reason, when no assignment fits
 * Source: bottleneck search over the sorted clearances and least-cost assignment (see assignment.ts); checked against
 * brute force.
 */
export function selectiveAssembly(
  places: readonly MatchedItem[],
  parts: readonly MatchedItem[],
  limits: ClearanceLimits,
  forbidden: readonly (readonly [string, string])[] = [],
): Result<SelectiveAssembly> | BlockedAssembly {
  const bad = refuseUnusable({ "least clearance": limits.least_mm, "greatest clearance": limits.greatest_mm });
  if (bad !== undefined) return bad;
  if (limits.least_mm > limits.greatest_mm) return refuse("The least clearance is above the greatest clearance.");
  if (places.length === 0) return refuse("There is no place to match a part to.");
  if (parts.length < places.length) return refuse(`There are ${places.length} places and only ${parts.length} parts.`);
  for (const [what, items] of [
    ["place", places],
    ["part", parts],
  ] as const) {
    if (new Set(items.map((item) => item.name)).size !== items.length) return refuse(`A ${what} is named twice.`);
    const unsized = items.find((item) => !(item.size_mm > 0) || !Number.isFinite(item.size_mm));
    if (unsized !== undefined) return refuse(`The size of ${unsized.name} must be greater than zero.`);
  }
  // A forbidden pair gets a clearance that no limit holds, so that every later step leaves it alone.
  const banned = new Set(forbidden.map(([place, part]) => `${place}\n${part}`));
  const table = places.map((place) =>
    parts.map((part) =>
      banned.has(`${place.name}\n${part.name}`) ? Number.POSITIVE_INFINITY : settle(place.size_mm - part.size_mm),
    ),
  );
  const windows = narrowestWindows(table, limits);
  if (windows.length === 0) return blockedAssembly(places, parts, table, limits);

  const middle = (limits.least_mm + limits.greatest_mm) / 2;
  let best: { columnOfRow: readonly number[]; total: number } | undefined;
  for (const { low, high } of windows) {
    const cost: CostTable = table.map((row) =>
      row.map((value) => (value >= low && value <= high ? (value - middle) ** 2 : null)),
    );
    const assigned = leastCostAssignment(cost);
    if (assigned.ok && (best === undefined || assigned.total < best.total)) best = assigned;
  }
  if (best === undefined) return blockedAssembly(places, parts, table, limits);
  const chosen = best.columnOfRow;
  const matches = places.map((place, row) => ({
    place: place.name,
    part: parts[chosen[row] ?? -1]?.name ?? "",
    clearance_mm: table[row]?.[chosen[row] ?? -1] ?? Number.NaN,
  }));
  const clearances = matches.map((match) => match.clearance_mm);
  const least_mm = Math.min(...clearances);
  const greatest_mm = Math.max(...clearances);
  const used = new Set(chosen);
  return answer({
    matches,
    spare: parts.filter((_part, column) => !used.has(column)).map((part) => part.name),
    least_mm,
    greatest_mm,
    spread_mm: settle(greatest_mm - least_mm),
    steps: [
      ...matches.map((match) => `${match.place} takes ${match.part}: clearance ${show(match.clearance_mm)} mm.`),
      `Clearances from ${show(least_mm)} to ${show(greatest_mm)} mm, spread ${show(settle(greatest_mm - least_mm))} mm: no assignment within ${show(limits.least_mm)}..${show(limits.greatest_mm)} mm has less.`,
    ],
  });
}
