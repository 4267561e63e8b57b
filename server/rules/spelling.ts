/**
 * What the rules about spelling and grammar share: the facts of a block list its slips, and each rule words one kind of them.
 */
import type { Block } from "../facts/types.ts";
import type { Repair, Report, Spot } from "./rule.ts";

/** Every kind of block: a slip may stand anywhere. */
export const EVERYWHERE = [
  "shop",
  "person",
  "instrument",
  "stand",
  "engine-type",
  "limits",
  "run-in",
  "task",
  "bulletin",
  "route",
  "alert",
  "engine",
  "job",
  "entry",
  "run",
  "release",
  "dispatch",
  "account",
  "unnamed",
  "preface",
] as const satisfies readonly Block["kind"][];

/** What a slip carries: the word, the unit, what was expected. */
export type Slip = readonly string[];

/** Reports every slip of one kind. @param what the last part of the rule's id */
export function slips(block: Block, what: string, report: Report<Slip>): void {
  for (const problem of block.problems) {
    if (problem.what === what) report({ at: problem.at, from: problem.from, to: problem.to }, problem.data);
  }
}

/** `a`, `a or b`, `a, b or c`. */
export function anyOf(words: readonly string[], joiner = "or"): string {
  if (words.length < 2) return words[0] ?? "";
  return `${words.slice(0, -1).join(", ")} ${joiner} ${words.at(-1)}`;
}

/** ` Did you mean x or y?`, or nothing. */
export function didYouMean(words: readonly string[]): string {
  return words.length === 0 ? "" : ` Did you mean ${anyOf(words.map((word) => `"${word}"`))}?`;
}

/** A repair that puts one text in the place of another. */
export function put(spot: Spot, text: string, title: string, grade: Repair["grade"] = "review"): Repair {
  return { title, grade, edits: [{ kind: "replace", spot, text }] };
}

/** A repair for each word offered. */
export function offers(spot: Spot, words: readonly string[]): readonly Repair[] {
  return words.map((word) => put(spot, word, `Write "${word}"`));
}

const NAMED: readonly Block["kind"][] = [
  "person",
  "instrument",
  "stand",
  "engine-type",
  "task",
  "bulletin",
  "route",
  "alert",
  "engine",
  "job",
  "entry",
  "run",
];

/**
 * Whether a header broke because a word of the language stands where its name belongs: any other word in lower case would have been taken as the name.
 */
export function isKeywordName(block: Block, problem: Block["problems"][number]): boolean {
  return (
    problem.what === "unexpected" &&
    problem.at === 0 &&
    block.name === "" &&
    NAMED.includes(block.kind) &&
    /^[a-z][a-z-]*$/u.test(problem.data[0] ?? "")
  );
}
