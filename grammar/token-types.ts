/**
 * The types of tokens: a few that are told by spelling, then one for each keyword in the order of the table of words. Which types a value of a
 * form accepts stands here too, since parser, completion and scanner must agree about it.
 */
import { COMPOSITES, formOf, keywordsOf, type PrimitiveType } from "./form.ts";
import { ROW_FORM, WORDS } from "./words.ts";

/** Token types that are not keywords. Keywords follow from `FIRST_KEYWORD` on, in the order of the table of words. */
export const T = {
  Name: 1,
  Number: 2,
  DigitWord: 3,
  Slashed: 4,
  Place: 5,
  Column: 6,
  Unit: 7,
  Range: 8,
  Fraction: 9,
  Date: 10,
  Time: 11,
  Text: 12,
  Digest: 13,
  Label: 14,
  Below: 15,
  CommaNumber: 16,
  Dash: 17,
  Query: 18,
  Plus: 19,
  Star: 20,
  Equals: 21,
  LParen: 22,
  RParen: 23,
  Comma: 24,
  Semicolon: 25,
  PlusMinus: 26,
  Stray: 27,
  OpenText: 28,
  NoteText: 29,
} as const;

export const TOKEN_NAMES: readonly string[] = ["", ...Object.keys(T)];
export const FIRST_KEYWORD = 32;

/** Every keyword, leading words first, in the order of the table. The position fixes the token type. */
export const KEYWORDS: readonly string[] = (() => {
  const all = new Set<string>();
  for (const row of WORDS) {
    all.add(row.word);
    for (const other of row.also ?? []) all.add(other);
  }
  for (const row of WORDS) keywordsOf(formOf(row.form), all);
  keywordsOf(formOf(ROW_FORM), all);
  for (const form of Object.values(COMPOSITES)) keywordsOf(formOf(form), all);
  return [...all];
})();

const keywordTypes = new Map<string, number>(KEYWORDS.map((word, position) => [word, FIRST_KEYWORD + position]));

/** @returns the token type of a keyword, or undefined when the word is not one. */
export function keywordType(word: string): number | undefined {
  return keywordTypes.get(word);
}

/** The word that a keyword type stands for, or the name of another token type. */
export function typeName(type: number): string {
  return type >= FIRST_KEYWORD ? (KEYWORDS[type - FIRST_KEYWORD] ?? "") : (TOKEN_NAMES[type] ?? "");
}

/** Keywords that also serve as the name of a column or of a sub-place: they never begin what may follow there. */
const SOFT = new Set([
  "front",
  "rear",
  "left",
  "right",
  "first",
  "second",
  "mean",
  "new",
  "used",
  "radial",
  "inline",
  "spread",
  "open",
  "close",
]);
/** Keywords that are parts of an engine or of its surroundings as well: places may be called so. */
const PARTS = new Set(["magneto", "oil", "fuel", "engine", "plate", "air", "club"]);
/** Keywords that begin a need of their own. */
const NEED_STARTERS = new Set(["photo", "limits", "torque", "sign", "run-in", "no", "all"]);

/** Marks that forms name as they stand. */
export const MARKS: Readonly<Record<string, number>> = {
  ",": T.Comma,
  ";": T.Semicolon,
  "=": T.Equals,
  "+": T.Plus,
  "-": T.Dash,
  "*": T.Star,
  "?": T.Query,
  "+/-": T.PlusMinus,
};

/** Which token types each one-token type of a form accepts. */
export const ACCEPTS: Readonly<Record<PrimitiveType, readonly number[]>> = (() => {
  const keywords = KEYWORDS.map((_, position) => FIRST_KEYWORD + position);
  const soft = KEYWORDS.flatMap((word, position) => (SOFT.has(word) ? [FIRST_KEYWORD + position] : []));
  const needs = KEYWORDS.flatMap((word, position) => (NEED_STARTERS.has(word) ? [] : [FIRST_KEYWORD + position]));
  const parts = KEYWORDS.flatMap((word, position) => (PARTS.has(word) ? [FIRST_KEYWORD + position] : []));
  const goNoGo = ["go", "no-go"].map((word) => keywordTypes.get(word) ?? 0);
  return {
    // After a name that is all digits (`engine 0412 Curlew-9`) the next word has the spelling of a unit.
    name: [T.Name, T.Number, T.DigitWord, T.Unit],
    word: [T.Name, T.Unit],
    stepname: [T.Name, T.Number, T.DigitWord, ...keywords],
    needword: [T.Name, ...needs],
    ref: [T.Name, T.Slashed, T.Number, T.DigitWord],
    text: [T.Text, T.OpenText],
    date: [T.Date],
    time: [T.Time],
    digest: [T.Digest],
    count: [T.Number],
    arrangement: [T.Number, T.DigitWord],
    place: [T.Place, T.Name, T.Unit, ...parts],
    colname: [T.Place, T.Name, ...soft, ...parts],
    column: [T.Column, T.Slashed, T.Unit],
    code: [T.Slashed],
    unitword: [T.Name, T.Slashed],
    rowlabel: [T.Number, T.Label, T.Time],
    // A cell that is no cell is still one: it is named as bad, and its neighbours keep their columns.
    cell: [
      T.Number,
      T.Dash,
      T.Query,
      T.Below,
      T.CommaNumber,
      T.Fraction,
      T.DigitWord,
      T.Unit,
      T.Name,
      T.Stray,
      T.Range,
      T.Date,
      T.Time,
      T.Slashed,
      ...goNoGo,
    ],
    number: [T.Number],
    numfrac: [T.Number, T.Fraction],
    unit: [T.Unit],
    rangetok: [T.Range],
    belowtok: [T.Below],
  };
})();
