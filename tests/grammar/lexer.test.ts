// The scanner against a stock chevrotain lexer. Its patterns are written here from the description of the language, as regular expressions;
// only what depends on the token before (units, notes) is a custom pattern.

import { type CustomPatternMatcherFunc, createToken, type IToken, Lexer, type TokenType } from "chevrotain";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { FIRST_KEYWORD, KEYWORDS, scan, typeName } from "../../grammar/tokens.ts";
import { allLines, anyLine } from "./lines.ts";

const B = " \\t\\r\\u00a0\\u1680\\u2000-\\u200b\\u202f\\u205f\\u3000\\ufeff";
const Q = '"\\u201c\\u201d\\u201e\\u00ab';
const S = `${B}${Q};,()=`;
const LETTER = "(?:[A-Za-z]|(?![\\x00-\\x7f])[\\p{L}\\p{M}\\p{N}]|[\\ud800-\\udfff]|[\\u{10000}-\\u{10ffff}])";
const WORD = `${LETTER}(?:${LETTER}|[0-9._-])*`;
const END = `(?=$|[${S}])`;
const DASH = "[-\\u2010-\\u2015\\u2212]";
const SIGN = `(?:\\+|${DASH})?`;
const NUMBER = `${SIGN}[0-9]+(?:\\.[0-9]+)?`;
/** After a run that began with a digit: a comma before a digit would belong to it. */
const END_DIGITS = `(?=$|,(?![0-9])|[${B}${Q};()=])`;
const HEX = "[0-9a-f]{64}";

const keywords = new Set(KEYWORDS);
const numbers = new Set(["Number", "Range", "Fraction", "Below"]);
const previous = (matched: readonly IToken[]): string => matched.at(-1)?.tokenType.name ?? "";

function sticky(
  source: string,
  holds: (word: string, matched: readonly IToken[], text: string) => boolean = () => true,
): CustomPatternMatcherFunc {
  const pattern = new RegExp(source, "uy");
  return (text, offset, matched) => {
    pattern.lastIndex = offset;
    const found = pattern.exec(text);
    return found && holds(found[0], matched, text) ? found : null;
  };
}

function token(name: string, pattern: CustomPatternMatcherFunc, group?: string): TokenType {
  return createToken({ name, pattern, line_breaks: false, ...(group === undefined ? {} : { group }) });
}

const bySource = (name: string, source: string): TokenType => token(name, sticky(source));

const lexer = new Lexer(
  [
    token(
      "NoteText",
      sticky(`[^${B}](?:[^]*[^${B}])?(?=[${B}]*$)`, (_, matched, text) => {
        const only = matched[0];
        return matched.length === 1 && only?.image === "note" && new RegExp(`^[${B}]*note[${B}]`, "u").test(text);
      }),
    ),
    token("Blanks", sticky(`[${B}]+`), Lexer.SKIPPED),
    token("Degree", sticky("\\u00b0"), Lexer.SKIPPED),
    token("Comment", sticky(`(?<![^${B}])#[^]*`), "comments"),
    token(
      "Keyword",
      sticky(
        `${WORD}${END}`,
        (word, matched) =>
          keywords.has(word) &&
          !(["min", "hours", "start", "stroke", "drop"].includes(word) && numbers.has(previous(matched))),
      ),
    ),
    token(
      "Unit",
      sticky(`${LETTER}[^${S}]*|%${END}`, (_, matched) => numbers.has(previous(matched))),
    ),
    bySource("Place", `${WORD}\\[[^\\]${B}${Q}]+\\]${END}`),
    bySource("Column", `${WORD}\\[[^\\]${B}${Q}]+\\]/[^${S}]+`),
    bySource("Slashed", `${WORD}/[^${S}]+`),
    bySource("Label", `${WORD}:${END}`),
    bySource("Digest", `sha256:${HEX}${END}`),
    bySource("Name", `${WORD}${END}`),
    bySource("Stray", `${WORD}\\[[^\\]${B}${Q}]+\\]/${END}|${WORD}/${END}|${WORD}:[^${S}]+|${WORD}[^${B}${Q}]+`),
    bySource("Number", `${NUMBER}${END_DIGITS}`),
    bySource("Date", `[0-9]{4}${DASH}[0-9]{2}${DASH}[0-9]{2}${END_DIGITS}`),
    bySource("Time", `(?:[01]?[0-9]|2[0-4]):[0-5][0-9](?::[0-5][0-9](?:\\.[0-9]+)?)?${END_DIGITS}`),
    bySource("Range", `${NUMBER}\\.\\.${NUMBER}${END_DIGITS}`),
    bySource("Fraction", `${SIGN}[0-9]+/[0-9]+${END_DIGITS}`),
    bySource("CommaNumber", `${SIGN}[0-9]+(?:,[0-9]+)+(?:\\.[0-9]+)?${END_DIGITS}`),
    bySource("Digest", `[0-9]+:${HEX}${END_DIGITS}`),
    bySource("Label", `${SIGN}[0-9](?:[^${S}:]|,(?=[0-9]))*:${END_DIGITS}`),
    bySource("DigitWord", `${SIGN}[0-9](?:[^${S}]|,(?=[0-9]))*`),
    bySource(
      "Text",
      '"(?:[^"]|"")*"(?!")|[\\u201c\\u201d\\u201e\\u00ab](?:[^"\\u201c\\u201d\\u00bb]|"")*(?:"(?!")|[\\u201c\\u201d\\u00bb])',
    ),
    bySource("OpenText", `[${Q}][^]*?(?=[ \\t\\r]*$)`),
    bySource("Below", `<[0-9]+(?:\\.[0-9]+)?${END}`),
    bySource("PlusMinus", `(?:\\+/-|\\u00b1)${END}`),
    bySource("Dash", `${DASH}${END}`),
    bySource("Plus", `\\+${END}`),
    bySource("Star", `\\*${END}`),
    bySource("Query", `\\?${END}`),
    bySource("Equals", "="),
    bySource("LParen", "\\("),
    bySource("RParen", "\\)"),
    bySource("Comma", ","),
    bySource("Semicolon", ";"),
    bySource("Stray", `[^${S}]+`),
  ],
  {
    positionTracking: "onlyOffset",
    ensureOptimizations: false,
    lineTerminatorCharacters: ["\n"],
    lineTerminatorsPattern: /\n/g,
    skipValidations: true,
  },
);

function byLexer(line: string): { tokens: string[]; comment: number } {
  const { tokens, groups, errors } = lexer.tokenize(line);
  if (errors.length > 0) throw new Error(`the lexer stopped at ${errors[0]?.offset}`);
  return {
    tokens: tokens.map(
      ({ image, startOffset, tokenType }) =>
        `${tokenType.name === "Keyword" ? image : tokenType.name} ${startOffset} ${image}`,
    ),
    comment: groups["comments"]?.[0]?.startOffset ?? -1,
  };
}

function byScanner(line: string): { tokens: string[]; comment: number } {
  const { count, types, starts, ends, comment } = scan(line);
  const tokens = Array.from({ length: count }, (_, i) => {
    const start = starts[i];
    return `${typeName(types[i])} ${start} ${line.slice(start, ends[i])}`;
  });
  return { tokens, comment };
}

describe("the scanner reads what a stock lexer reads", () => {
  test("on every example and sample line", () => {
    for (const line of allLines) expect(byScanner(line)).toEqual(byLexer(line));
  });

  test("on random mutations", () => {
    const met = new Set<string>();
    fc.assert(
      fc.property(anyLine, (line) => {
        const scanned = byScanner(line);
        expect(scanned).toEqual(byLexer(line));
        for (const one of scanned.tokens) met.add(one.slice(0, one.indexOf(" ")));
      }),
      { seed: 20260308, numRuns: 40_000 },
    );
    // Every kind of token came up: the property is about all of them.
    const all = [...Array.from({ length: 29 }, (_, i) => typeName(i + 1)), ...KEYWORDS];
    expect(all.filter((name) => !met.has(name))).toEqual([]);
    expect(FIRST_KEYWORD).toBeGreaterThan(29);
  });
});
