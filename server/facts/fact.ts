/** What every fact has: which line says it, and how bounds and slips are kept. */
import type { Measure } from "../quantity/compare.ts";

/**
 * A line of a block: which one, counting lines with content (no blank lines, comments or notes) from the header, which is 0.
 * Of two facts of one block the one with the smaller `at` stands above the other.
 */
export type At = number;

export interface Fact {
  readonly at: At;
}

/** A slip of spelling or grammar in one line. Columns are within the line. */
export interface Problem extends Fact {
  /** Which rule of the `syntax` family words it. */
  readonly what: string;
  readonly from: number;
  readonly to: number;
  /** What the message needs: the word, the unit, what was expected. */
  readonly data: readonly string[];
}

/** Bounds as written; an end that is missing is open. */
export interface Bounds {
  readonly low: Measure | undefined;
  readonly high: Measure | undefined;
  /** As written, for messages. */
  readonly text: string;
}
