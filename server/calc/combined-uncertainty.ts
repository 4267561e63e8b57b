import { show } from "./figures.ts";
import type { Result, Worked } from "./result.ts";
import { answer, refuse } from "./result.ts";

export interface UncertaintyPart {
  /** As the reader knows it, for example "bore gauge BG-2". */
  readonly name: string;
  readonly expandedUncertainty: number;
  /** Coverage factor of the part's own statement, usually 2. */
  readonly coverageFactor: number;
  /** How much the result moves for one unit of this part: 1 for a sum, -1 for what is taken away. */
  readonly sensitivity: number;
}

export interface CombinedUncertainty extends Worked {
  readonly standard: number;
  /** standard x coverageFactor. */
  readonly expanded: number;
  readonly coverageFactor: number;
}

export interface UncertainReading {
  readonly value: number;
  readonly expandedUncertainty: number;
}

export interface UncertainResult extends CombinedUncertainty {
  readonly value: number;
}

/**
 * Combined uncertainty of a result of several independent parts, by the root of the sum of squares.
 * @param parts one or more; uncertainties zero or more, coverage factors greater than zero
 * @param coverageFactor factor of the answer, by default 2
 * @returns refused without parts or with a part outside its range
 * Source: JCGM 100 (GUM) clause 5.1.2, uncorrelated input quantities; restated at isobudgets.com.
 */
export function combinedUncertainty(
  parts: readonly UncertaintyPart[],
  coverageFactor = 2,
): Result<CombinedUncertainty> {
  if (parts.length === 0) return refuse("There is no part to combine.");
  if (!(coverageFactor > 0) || !Number.isFinite(coverageFactor))
    return refuse("The coverage factor must be greater than zero.");
  let squares = 0;
  const steps: string[] = [];
  for (const part of parts) {
    if (!Number.isFinite(part.expandedUncertainty) || part.expandedUncertainty < 0) {
      return refuse(`The uncertainty of ${part.name} must be zero or more.`);
    }
    if (!Number.isFinite(part.coverageFactor) || part.coverageFactor <= 0) {
      return refuse(`The coverage factor of ${part.name} must be greater than zero.`);
    }
    if (!Number.isFinite(part.sensitivity)) return refuse(`The sensitivity of ${part.name} is not a number.`);
    const share = (part.expandedUncertainty / part.coverageFactor) * part.sensitivity;
    squares += share * share;
    steps.push(
      `${part.name}: ${show(part.expandedUncertainty)} / ${show(part.coverageFactor)}${Math.abs(part.sensitivity) === 1 ? "" : ` x ${show(Math.abs(part.sensitivity))}`} = ${show(Math.abs(share), 4)}.`,
    );
  }
  const standard = Math.sqrt(squares);
  const expanded = standard * coverageFactor;
  steps.push(
    `Root of the sum of squares ${show(standard, 4)}; times ${show(coverageFactor)} = ${show(expanded, 4)}. Independent instruments are assumed.`,
  );
  return answer({ standard, expanded, coverageFactor, steps });
}

/**
 * Value and uncertainty of a formula of two independent readings.
 * @param operation "+", "-", "*" or "/"
 * @param a first reading with its expanded uncertainty
 * @param b second reading with its expanded uncertainty; not zero as a divisor
 * @param coverageFactor factor of both statements and of the answer, by default 2
 * @returns refused for a division by zero or an uncertainty outside its range
 * Source: JCGM 100 (GUM) clause 5.1.2 with the partial derivatives of the formula.
 */
export function formulaUncertainty(
  operation: "+" | "-" | "*" | "/",
  a: UncertainReading,
  b: UncertainReading,
  coverageFactor = 2,
): Result<UncertainResult> {
  if (!Number.isFinite(a.value) || !Number.isFinite(b.value))
    return refuse("A reading of the formula is not a number.");
  if (operation === "/" && b.value === 0) return refuse("A formula cannot divide by zero.");
  const rules = {
    "+": { value: a.value + b.value, slopes: [1, 1] },
    "-": { value: a.value - b.value, slopes: [1, -1] },
    "*": { value: a.value * b.value, slopes: [b.value, a.value] },
    "/": { value: a.value / b.value, slopes: [1 / b.value, -a.value / (b.value * b.value)] },
  } as const;
  const { value, slopes } = rules[operation];
  const combined = combinedUncertainty(
    [
      { name: "first reading", expandedUncertainty: a.expandedUncertainty, coverageFactor, sensitivity: slopes[0] },
      { name: "second reading", expandedUncertainty: b.expandedUncertainty, coverageFactor, sensitivity: slopes[1] },
    ],
    coverageFactor,
  );
  if (!combined.ok) return combined;
  return answer({
    value,
    standard: combined.standard,
    expanded: combined.expanded,
    coverageFactor,
    steps: [`${show(a.value, 9)} ${operation} ${show(b.value, 9)} = ${show(value, 9)}.`, ...combined.steps],
  });
}
