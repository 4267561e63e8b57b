// Lines for the tests of the grammar: every example of the table of words, every line of the samples, and mutations of them.

import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import fc from "fast-check";
import { KEYWORDS } from "../../grammar/tokens.ts";
import { WORDS } from "../../grammar/words.ts";

const root = resolve(import.meta.dirname, "../..");

export const exampleLines: readonly string[] = WORDS.flatMap((row) => row.examples);

/** Rows of tables have no word of their own, so the table of words has no examples of them. */
export const rowLines: readonly string[] = [
  "1  98.012 98.015 98.016 98.017 98.021 98.024",
  "2  98.010 98.011 ?      ?      ?      ?",
  "3: - <0.02 go no-go",
  "front: 0.05 -",
  "10:02 0    0  17  17 17 17 17 17 17 17 17 17",
  "10:03:30 800  48 18  41 40 42 39 44 43 41 40 42",
  "1  76  heard rings exhaust",
  '4 71 heard rings "Wet, 74 with oil"',
  "600 1400 61.5",
];

function gudgeonFiles(folder: string): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((path) => path.endsWith(".gudgeon"))
    .sort()
    .map((path) => join(folder, path));
}

/** The sample files, each as its lines. */
export const sampleFiles: readonly (readonly string[])[] = gudgeonFiles(join(root, "samples")).map((path) =>
  readFileSync(path, "utf8").split("\n"),
);

export const allLines: readonly string[] = [...new Set([...exampleLines, ...rowLines, ...sampleFiles.flat()])];

/** What mutations put in: marks, odd characters, words and ill-formed words. */
const PIECES: readonly string[] = [
  ...Array.from(" \t\"#,;=()[]/:.+-*?<%&'!@_"),
  "\r",
  "\u00a0",
  "\u2009",
  "\u200b",
  "\ufeff",
  "\u3000",
  "\u201c",
  "\u201d",
  "\u201e",
  "\u00ab",
  "\u00bb",
  "\u2013",
  "\u2212",
  "\u00b1",
  "\u00b0",
  "é",
  "Ω",
  "日",
  "\u0301",
  "😀",
  "\ud83d",
  "\udc00",
  "0",
  "7",
  "98.022",
  "98,031",
  "1.",
  ".5",
  "-3",
  "\u22123",
  "+0.5",
  "5/16",
  "1..9",
  "2026-03-02",
  "2026\u201303\u201302",
  "10:02",
  "25:99",
  "12:",
  "<0.02",
  "<x",
  "1e5",
  "mm",
  "min",
  " min ",
  "C/min",
  "N.m",
  "max",
  "with",
  "cylinder.bore[3]",
  "a[",
  "a[1 2]",
  "b[1]/C",
  "crank.speed/rpm",
  "limit/x",
  "a/",
  "a:",
  "x1:y",
  '""',
  '"a b"',
  '"a # b"',
  " # ",
  "#",
  "note ",
  "°C",
  "20°",
  "+/-",
  " +/- ",
  `sha256:${"0f".repeat(32)}`,
];

interface Edit {
  readonly way: number;
  readonly at: number;
  readonly span: number;
  readonly piece: string;
}

function applyEdit(line: string, { way, at, span, piece }: Edit): string {
  const from = line.length === 0 ? 0 : at % (line.length + 1);
  const to = Math.min(line.length, from + 1 + (span % 6));
  switch (way % 5) {
    case 0:
      return line.slice(0, from) + piece + line.slice(from);
    case 1:
      return line.slice(0, from) + line.slice(to);
    case 2:
      return line.slice(0, from) + piece + line.slice(to);
    case 3:
      return line.slice(0, from) + line.slice(from, to).split("").reverse().join("") + line.slice(to);
    default:
      return line.slice(0, from);
  }
}

const edit: fc.Arbitrary<Edit> = fc.record({
  way: fc.nat(4),
  at: fc.nat(400),
  span: fc.nat(5),
  piece: fc.oneof(
    { weight: 4, arbitrary: fc.constantFrom(...PIECES) },
    { weight: 1, arbitrary: fc.constantFrom(...KEYWORDS) },
  ),
});

/** A line of the examples and samples after up to four random edits. */
export const mutatedLine: fc.Arbitrary<string> = fc
  .tuple(fc.constantFrom(...allLines), fc.array(edit, { maxLength: 4 }))
  .map(([line, edits]) => edits.reduce(applyEdit, line));

/** Lines of pieces alone, with no sense in their order. */
export const pieceLine: fc.Arbitrary<string> = fc
  .array(fc.oneof(fc.constantFrom(...PIECES), fc.constantFrom(...KEYWORDS), fc.constant(" ")), { maxLength: 16 })
  .map((pieces) => pieces.join(""));

export const anyLine: fc.Arbitrary<string> = fc.oneof(
  { weight: 6, arbitrary: mutatedLine },
  { weight: 3, arbitrary: pieceLine },
  { weight: 1, arbitrary: fc.string({ unit: "binary", maxLength: 60 }).map((text) => text.replaceAll("\n", " ")) },
);
