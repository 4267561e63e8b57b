/**
 * A published check: one figure of a computation held against something outside the project.
 *
 * `read`        the figure stands in a named public text that was read;
 * `oracle-run`  the figure was produced by running a named open program or library of a stated version;
 * `memory`      the figure is recalled from a text that was not open;
 * `computed`    the figure was worked out for this project from a formula that was read.
 *
 * Only the first two count as outside checks. The others are kept because they guard against regressions.
 */
export type CheckKind = "read" | "oracle-run" | "memory" | "computed";

/** The eleven groups of computations. */
export type CheckGroup = 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9 | 10 | 11;

export interface PublishedCheck {
  /** File name of the computation in server/calc without its ending. */
  computation: string;
  group: CheckGroup;
  /** What is compared, with its unit. */
  what: string;
  /** Where the expected figure stands, or program and version. */
  source: string;
  kind: CheckKind;
  expected: number;
  /** Greatest accepted difference, absolute, in the unit of the expected figure. Zero means equal. */
  tolerance: number;
  /** Runs the computation. A refusal must throw, so that it can never pass as a figure. */
  got: () => number;
}

/** A computation for which nothing outside the project was found, and why. */
export interface UncheckedComputation {
  computation: string;
  group: CheckGroup;
  why: string;
}

/** What a module of this folder exports. Other files of the folder export none of these names. */
export interface CheckModule {
  checks: PublishedCheck[];
  unchecked?: UncheckedComputation[];
}

export const groupNames: Readonly<Record<CheckGroup, string>> = {
  1: "Dimensions",
  2: "Proof of conformity",
  3: "Torque",
  4: "Test stand",
  5: "Run log",
  6: "Compression",
  7: "Layout",
  8: "Due",
  9: "Trends",
  10: "Selective assembly",
  11: "Plausibility",
};

/** Whether a check counts as one made outside the project. */
export function countsAsOutside(kind: CheckKind): boolean {
  return kind === "read" || kind === "oracle-run";
}

/**
 * Unwraps an answer for a check.
 * @throws Error with the refusal, so that a refused computation fails its check
 */
export function figures<T extends object>(result: T): Exclude<T, { ok: false }> {
  if ("ok" in result && result.ok === false) {
    throw new Error("refused" in result ? String(result.refused) : "refused");
  }
  return result as Exclude<T, { ok: false }>;
}

export interface CheckOutcome {
  got: number;
  /** Undefined when the check holds, otherwise one sentence. */
  failure: string | undefined;
}

/** Runs one check; a thrown error or a figure that is not finite is a failure. */
export function runCheck(check: PublishedCheck): CheckOutcome {
  let got: number;
  try {
    got = check.got();
  } catch (error) {
    return {
      got: Number.NaN,
      failure: error instanceof Error ? error.message : String(error),
    };
  }
  if (!Number.isFinite(got)) return { got, failure: `got ${got}, which is not a figure` };
  // A tolerance of half a last digit is often met exactly at its edge; binary arithmetic must not decide that.
  const slack = 1e-12 * Math.max(1, Math.abs(check.expected));
  const difference = Math.abs(got - check.expected);
  if (difference <= check.tolerance + (check.tolerance > 0 ? slack : 0)) return { got, failure: undefined };
  return {
    got,
    failure: `expected ${check.expected} within ${check.tolerance}, got ${got}`,
  };
}
