import { settle, show } from "./figures.ts";
import type { Result, Worked } from "./result.ts";
import { answer, refuse } from "./result.ts";

export interface WeighedPart {
  readonly name: string;
  readonly mass_g: number;
}

export interface WeightSet extends Worked {
  readonly lightest: WeighedPart;
  readonly heaviest: WeighedPart;
  readonly mean_g: number;
  readonly spread_g: number;
  /** Undefined without a limit. A spread equal to its limit is inside it. */
  readonly inside: boolean | undefined;
}

export interface PairDifference {
  readonly pair: readonly [string, string];
  readonly difference_g: number;
  readonly inside: boolean | undefined;
}

export interface OpposedPairs extends Worked {
  readonly pairs: readonly PairDifference[];
  readonly greatestDifference_g: number;
}

function refuseParts(parts: readonly WeighedPart[], least: number): string | undefined {
  if (parts.length < least) return `A set needs ${least} weighed parts or more; there are ${parts.length}.`;
  const unweighed = parts.find((part) => !(part.mass_g > 0) || !Number.isFinite(part.mass_g));
  if (unweighed !== undefined) return `The mass of ${unweighed.name} must be greater than zero.`;
  if (new Set(parts.map((part) => part.name)).size !== parts.length) return "A part is named twice.";
  return undefined;
}

function refuseLimit(limit_g: number | undefined): string | undefined {
  return limit_g !== undefined && !(limit_g >= 0) ? "The limit of a difference must be zero or more." : undefined;
}

/**
 * Spread of the masses of a set of pistons, rods or counterweights.
 * @param parts two or more, masses in grams greater than zero, names unique
 * @param limit_g greatest spread that the engine type allows
 * @returns refused outside those ranges
 * Source: definition; the limit is the engine maker's.
 */
export function weightSet(parts: readonly WeighedPart[], limit_g?: number): Result<WeightSet> {
  const fault = refuseParts(parts, 2) ?? refuseLimit(limit_g);
  const first = parts[0];
  if (fault !== undefined || first === undefined) return refuse(fault ?? "There are no parts.");
  const lightest = parts.reduce((most, part) => (part.mass_g < most.mass_g ? part : most), first);
  const heaviest = parts.reduce((most, part) => (part.mass_g > most.mass_g ? part : most), first);
  const spread_g = settle(heaviest.mass_g - lightest.mass_g);
  return answer({
    lightest,
    heaviest,
    mean_g: settle(parts.reduce((sum, part) => sum + part.mass_g, 0) / parts.length),
    spread_g,
    inside: limit_g === undefined ? undefined : spread_g <= limit_g,
    steps: [
      `Heaviest ${heaviest.name} ${show(heaviest.mass_g)} g less lightest ${lightest.name} ${show(lightest.mass_g)} g = ${show(spread_g)} g${limit_g === undefined ? "" : `, limit ${show(limit_g)} g`}.`,
    ],
  });
}

/**
 * Differences of opposed pairs of a set.
 * @param parts weighed parts, names unique
 * @param pairs names of parts that stand opposite each other; every name known, none in two pairs
 * @param limit_g greatest difference within a pair that the engine type allows
 * @returns refused for an unknown or repeated name
 * Source: definition; the limit is the engine maker's.
 */
export function opposedPairs(
  parts: readonly WeighedPart[],
  pairs: readonly (readonly [string, string])[],
  limit_g?: number,
): Result<OpposedPairs> {
  const fault = refuseParts(parts, 2) ?? refuseLimit(limit_g);
  if (fault !== undefined) return refuse(fault);
  if (pairs.length === 0) return refuse("No pair is named.");
  const mass = new Map(parts.map((part) => [part.name, part.mass_g] as const));
  const names = pairs.flat();
  const unknown = names.find((name) => !mass.has(name));
  if (unknown !== undefined) return refuse(`${unknown} is in a pair but was not weighed.`);
  if (new Set(names).size !== names.length) return refuse("A part stands in two pairs.");
  const differences = pairs.map((pair): PairDifference => {
    const difference_g = settle(Math.abs((mass.get(pair[0]) ?? 0) - (mass.get(pair[1]) ?? 0)));
    return { pair, difference_g, inside: limit_g === undefined ? undefined : difference_g <= limit_g };
  });
  return answer({
    pairs: differences,
    greatestDifference_g: Math.max(...differences.map((one) => one.difference_g)),
    steps: differences.map(
      ({ pair, difference_g }) =>
        `${pair[0]} ${show(mass.get(pair[0]) ?? 0)} g and ${pair[1]} ${show(mass.get(pair[1]) ?? 0)} g differ by ${show(difference_g)} g${limit_g === undefined ? "" : `, limit ${show(limit_g)} g`}.`,
    ),
  });
}

/**
 * Pairs a set so that opposed parts differ least: neighbours in order of mass. That makes both the greatest difference
 * and the sum of the differences the smallest that any pairing has (checked against brute force).
 * @param parts an even number of two or more, masses in grams, names unique
 * @returns refused for an odd number
 */
export function pairOpposed(parts: readonly WeighedPart[]): Result<OpposedPairs> {
  const fault = refuseParts(parts, 2);
  if (fault !== undefined) return refuse(fault);
  if (parts.length % 2 === 1) return refuse(`${parts.length} parts cannot all be paired.`);
  const ordered = [...parts].sort((a, b) => a.mass_g - b.mass_g);
  const pairs: [string, string][] = [];
  for (let index = 0; index + 1 < ordered.length; index += 2) {
    pairs.push([ordered[index]?.name ?? "", ordered[index + 1]?.name ?? ""]);
  }
  return opposedPairs(parts, pairs);
}
