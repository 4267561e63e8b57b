/**
 * Says why a line could not be read to its end: one problem a line, as near to the cause as its text allows.
 */

import { isMistypedHeader } from "../../grammar/document.ts";
import { describeExpected, type Expected, expectedAfter } from "../../grammar/expect.ts";
import { nearest } from "../../grammar/nearest.ts";
import { scanned, T } from "../../grammar/tokens.ts";
import { WORDS } from "../../grammar/words.ts";
import type { Cursor } from "./cursor.ts";

const leading = WORDS.flatMap((row) => [row.word, ...(row.also ?? [])]);
const headers = WORDS.filter((row) => row.kind === "header").map((row) => row.word);

const NUMBER_THEN_LETTERS = /^[+-]?\d+(\.\d+)?[\p{L}%\u00b0]/u;
const WITH_EXPONENT = /^[+-]?\d+(\.\d+)?[eE][+-]?\d+$/u;
const LIKE_A_DATE = /^\d{1,4}[-./]\d{1,2}[-./]\d{1,4}$/u;
const LIKE_A_NUMBER = /^[+-]?[\d.]*\d[\d.]*([eE][+-]?\d+)?$|^[+-]?\d+\.$/u;

/** Words that the table knows and that are spelled nearly like this one. */
export function nearLeading(word: string): string[] {
  return nearest(word, leading).slice(0, 3);
}

export function nearHeaders(word: string): string[] {
  return nearest(word, headers).slice(0, 3);
}

/** The first word of an unknown line, as far as it looks like a word. */
export function unknownWord(cursor: Cursor): void {
  const word = cursor.image(0);
  if (isMistypedHeader(cursor.plan, cursor.text)) cursor.problemAt("unnamed-block", 0, 1, word, ...nearHeaders(word));
  else if (scanned.types[0] === T.OpenText) cursor.problemAt("unclosed-quote", 0, 1);
  else cursor.problemAt("unknown-word", 0, 1, word, ...nearLeading(word));
}

/** A number or range with nothing of the kind "unit" after it. */
function lacksUnit(broken: number, expected: readonly Expected[]): boolean {
  if (broken === 0 || !expected.some((one) => one.kind === "value" && one.part === "unit")) return false;
  const before = scanned.types[broken - 1];
  return before === T.Number || before === T.Range || before === T.Fraction || before === T.Below;
}

/** A usual slip of spelling in the word at which reading broke off, and what its message needs besides the word. */
function slipOf(found: string, type: number): readonly [what: string, ...data: string[]] | undefined {
  if (type === T.DigitWord || type === T.Stray || type === T.Slashed) {
    if (found.includes("..") && /^[+-]?[\d.]+$/u.test(found)) return ["bad-range"];
    if (NUMBER_THEN_LETTERS.test(found) && !WITH_EXPONENT.test(found)) return ["missing-blank"];
    if (LIKE_A_DATE.test(found)) return ["bad-date"];
    if (LIKE_A_NUMBER.test(found) || /^[+-]?\.\d/u.test(found))
      return ["bad-number", "a number with digits on both sides of the point"];
    if (found.includes("[")) return ["bad-place"];
  }
  return type === T.Range && /\.\.$|^\.\./u.test(found) ? ["bad-range"] : undefined;
}

/** Reports the break of the line that the cursor stands on. */
export function explainBreak(cursor: Cursor): void {
  const { plan } = cursor;
  const broken = plan.broken;
  for (let i = 0; i < scanned.count; i++) {
    if (scanned.types[i] === T.CommaNumber) {
      cursor.problemAt("comma-number", i, i + 1, cursor.image(i));
      return;
    }
  }
  const atEnd = broken >= scanned.count;
  const token = atEnd ? scanned.count - 1 : broken;
  const found = cursor.image(token);
  const word = plan.kind === "row" ? undefined : plan.row?.word;
  const expected = expectedAfter(word, scanned.types, Math.min(broken, scanned.count));
  const slip = atEnd ? undefined : slipOf(found, scanned.types[broken]);
  if (slip) {
    cursor.problemAt(slip[0], broken, broken + 1, found, ...slip.slice(1));
    return;
  }
  if (lacksUnit(broken, expected)) {
    cursor.problemAt("missing-unit", broken - 1, broken, cursor.image(broken - 1));
    return;
  }
  const wanted = describeExpected(expected);
  const words = expected.flatMap((one) => (one.kind === "keyword" ? [one.word] : []));
  if (atEnd) cursor.problem("unexpected", scanned.starts[token], scanned.ends[token], "", wanted);
  else cursor.problemAt("unexpected", broken, broken + 1, found, wanted, ...nearest(found, words).slice(0, 2));
}
