/**
 * The shape every computation answers with, and the few helpers that build it.
 *
 * A computation of the trade never answers with a number that it does not stand behind: input outside its range of
 * validity gives a refusal with one clear sentence, and the caller has to look at `ok` before it can reach a figure.
 */

/** A computation that would not answer, and why, in one sentence for the reader of the record. */
export interface Refused {
  readonly ok: false;
  readonly refused: string;
}

/** Either the figures (`ok: true` and the fields of T) or a refusal. */
export type Result<T> = ({ readonly ok: true } & T) | Refused;

/** The working of a formula, step by step, in plain words with figures: what a hover shows. */
export interface Worked {
  readonly steps: readonly string[];
}

/**
 * Builds a refusal.
 * @param sentence one sentence, ending with a full stop, that names the value and the range that it missed
 */
export function refuse(sentence: string): Refused {
  return { ok: false, refused: sentence };
}

/** Marks figures as an answer. */
export function answer<T extends object>(figures: T): { readonly ok: true } & T {
  return { ok: true, ...figures };
}

/**
 * The first refusal among named inputs that are not finite numbers, or undefined when all are usable.
 * @param inputs name as the reader knows it -> value
 */
export function refuseUnusable(inputs: Readonly<Record<string, number>>): Refused | undefined {
  for (const [name, value] of Object.entries(inputs)) {
    if (!Number.isFinite(value)) return refuse(`The ${name} is not a number.`);
  }
  return undefined;
}

/**
 * The first refusal among named inputs that are not finite and greater than zero, or undefined when all are usable.
 * @param inputs name as the reader knows it -> value
 */
export function refuseNotPositive(inputs: Readonly<Record<string, number>>): Refused | undefined {
  for (const [name, value] of Object.entries(inputs)) {
    if (!Number.isFinite(value)) return refuse(`The ${name} is not a number.`);
    if (value <= 0) return refuse(`The ${name} must be greater than zero, not ${value}.`);
  }
  return undefined;
}
