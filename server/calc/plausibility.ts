import { settle, show } from "./figures.ts";
import type { Result } from "./result.ts";
import { answer, refuse } from "./result.ts";

export type SuspicionKind =
  | "ten times off"
  | "inches for millimetres"
  | "millimetres for inches"
  | "transposed digits"
  | "far from its siblings"
  | "far from its history";

export interface Suspicion {
  readonly kind: SuspicionKind;
  /** What the value would be if the suspicion is right, in the unit of the value. */
  readonly wouldBe: number;
  readonly says: string;
}

export interface PlausibilityInput {
  /** The number as it was written, for example "98.102". */
  readonly written: string;
  /** Values that nobody would doubt, wider than any limits: a bore of 98 mm may be worn, but is not 9.8 mm. */
  readonly believable?: { readonly least: number; readonly greatest: number } | undefined;
  /** Same feature at the other places of the same engine, in the same unit. */
  readonly siblings?: readonly number[] | undefined;
  /** Earlier readings of the same place, in the same unit. */
  readonly history?: readonly number[] | undefined;
  /** Smallest step that the instrument shows; keeps a set of equal readings from making the next one look far. */
  readonly resolution: number;
}

/** A modified z above this is an outlier. Source: Iglewicz and Hoaglin, How to Detect and Handle Outliers, 1993. */
export const outlierScore = 3.5;

/** Fewest readings that a place is compared with. Common practice, no source. */
const fewestToCompare = 4;

/**
 * Middle value of a sample; the mean of the two middle ones where their number is even.
 * @returns refused for an empty sample
 */
export function median(sample: readonly number[]): Result<{ readonly median: number }> {
  if (sample.length === 0) return refuse("An empty sample has no median.");
  const ordered = [...sample].sort((a, b) => a - b);
  const half = Math.floor(ordered.length / 2);
  const high = ordered[half] ?? Number.NaN;
  return answer({ median: ordered.length % 2 === 1 ? high : ((ordered[half - 1] ?? Number.NaN) + high) / 2 });
}

export interface RobustScore {
  readonly score: number;
  readonly median: number;
  /** Median of the distances from the median. */
  readonly spread: number;
}

/**
 * Modified z of a value against a sample: 0.6745 (value - median) / MAD. It stays put where one wild reading would drag
 * a mean and a standard deviation along.
 * @param value any finite number
 * @param sample three or more finite numbers
 * @param leastSpread the MAD is taken as at least this, zero by default
 * @returns refused with fewer readings, or when all are equal and no least spread is given
 * Source: Iglewicz and Hoaglin 1993, as restated with a worked table by codingace.net.
 */
export function modifiedZ(value: number, sample: readonly number[], leastSpread = 0): Result<RobustScore> {
  if (!Number.isFinite(value) || sample.some((one) => !Number.isFinite(one)))
    return refuse("A reading is not a number.");
  if (sample.length < 3) return refuse(`A robust comparison needs three readings or more; there are ${sample.length}.`);
  const middle = median(sample);
  if (!middle.ok) return middle;
  const distances = median(sample.map((one) => Math.abs(one - middle.median)));
  if (!distances.ok) return distances;
  const spread = Math.max(settle(distances.median), leastSpread);
  if (spread === 0) return refuse("More than half of the readings are equal, so there is no spread to compare with.");
  return answer({ score: (0.6745 * (value - middle.median)) / spread, median: middle.median, spread });
}

/** The numbers that two neighbouring digits exchanged would give, in order of place; the point stays where it is. */
export function transpositions(written: string): readonly number[] {
  const digits = written.split("");
  const places = digits.flatMap((character, index) => (/[0-9]/.test(character) ? [index] : []));
  const found: number[] = [];
  for (let at = 0; at + 1 < places.length; at += 1) {
    const [first, second] = [places[at] ?? 0, places[at + 1] ?? 0];
    const characters = [...digits];
    const held = characters[first] ?? "";
    if (held === characters[second]) continue;
    characters[first] = characters[second] ?? "";
    characters[second] = held;
    found.push(Number(characters.join("")));
  }
  return found;
}

/**
 * What may be wrong with a number that was typed, and what it would be if so. A quiet hint for a reader, never a verdict:
 * out-of-limit readings are the trade's daily bread, so a value is doubted only against a band wider than any limit or
 * against readings of its own kind.
 * @param input the number as written, and what it can be compared with; fewer than four siblings or earlier readings are
 *   not compared with
 * @returns refused when the text is not a plain decimal number; otherwise the suspicions, none for a believable value
 * Source: modified z after Iglewicz and Hoaglin; the other patterns are common practice, no source; 1 in = 25.4 mm exactly.
 */
export function plausibility(input: PlausibilityInput): Result<{ readonly suspicions: readonly Suspicion[] }> {
  const { written, believable, resolution } = input;
  if (!/^-?[0-9]+(\.[0-9]+)?$/.test(written)) return refuse(`"${written}" is not a plain decimal number.`);
  if (!(resolution > 0)) return refuse("The resolution must be greater than zero.");
  if (believable !== undefined && believable.least > believable.greatest) {
    return refuse("The believable range is crossed.");
  }
  const value = Number(written);
  const suspicions: Suspicion[] = [];
  const compare = (sample: readonly number[] | undefined, one: number): RobustScore | undefined => {
    if (sample === undefined || sample.length < fewestToCompare) return undefined;
    const scored = modifiedZ(one, sample, resolution);
    return scored.ok ? scored : undefined;
  };
  const bySiblings = compare(input.siblings, value);
  const byHistory = compare(input.history, value);
  const isFar = (score: RobustScore | undefined): boolean =>
    score !== undefined && Math.abs(score.score) > outlierScore;
  const unbelievable = believable !== undefined && (value < believable.least || value > believable.greatest);
  const doubted = unbelievable || isFar(bySiblings) || isFar(byHistory);
  if (!doubted) return answer({ suspicions });

  // A correction must satisfy everything that the value is compared with.
  const settles = (one: number): boolean =>
    (believable === undefined || (one >= believable.least && one <= believable.greatest)) &&
    !isFar(compare(input.siblings, one)) &&
    !isFar(compare(input.history, one));

  for (const [factor, way] of [
    [10, "ten times too small"],
    [0.1, "ten times too large"],
    [100, "a hundred times too small"],
    [0.01, "a hundred times too large"],
  ] as const) {
    const wouldBe = settle(value * factor);
    if (settles(wouldBe)) {
      suspicions.push({
        kind: "ten times off",
        wouldBe,
        says: `${written} looks ${way}; it would be ${show(wouldBe, 9)}.`,
      });
      break;
    }
  }
  const asMillimetres = settle(value * 25.4);
  if (settles(asMillimetres)) {
    suspicions.push({
      kind: "inches for millimetres",
      wouldBe: asMillimetres,
      says: `${written} looks like inches where millimetres are meant; it would be ${show(asMillimetres, 9)}.`,
    });
  }
  const asInches = settle(value / 25.4);
  if (settles(asInches)) {
    suspicions.push({
      kind: "millimetres for inches",
      wouldBe: asInches,
      says: `${written} looks like millimetres where inches are meant; it would be ${show(asInches, 9)}.`,
    });
  }
  const target = bySiblings?.median ?? byHistory?.median;
  if (target !== undefined) {
    const swapped = transpositions(written)
      .filter(settles)
      .sort((a, b) => Math.abs(a - target) - Math.abs(b - target))[0];
    if (swapped !== undefined) {
      suspicions.push({
        kind: "transposed digits",
        wouldBe: swapped,
        says: `${written} looks like two digits exchanged; it would be ${show(swapped, 9)}.`,
      });
    }
  }
  for (const [kind, score, others] of [
    ["far from its siblings", bySiblings, "the other places"],
    ["far from its history", byHistory, "the earlier readings"],
  ] as const) {
    if (score === undefined || !isFar(score)) continue;
    suspicions.push({
      kind,
      wouldBe: score.median,
      says: `${written} is far from ${others}: their middle is ${show(score.median, 9)}, and it lies ${show(Math.abs(score.score), 3)} robust deviations off (more than ${outlierScore}).`,
    });
  }
  return answer({ suspicions });
}
