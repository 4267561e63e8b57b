// What the reference shows is read: every example, every unit, every link. And it is complete.

import { existsSync, readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, test } from "vitest";
import { formOf } from "../../grammar/form.ts";
import { parseLine, scanned } from "../../grammar/line-parser.ts";
import { formatLines } from "../../grammar/print.ts";
import { languageReference, notation } from "../../grammar/reference.ts";
import { KEYWORDS } from "../../grammar/tokens.ts";
import { WORDS } from "../../grammar/words.ts";
import { findUnit } from "../../server/quantity/units.ts";

const folder = resolve(import.meta.dirname, "../../grammar");
const prose = readFileSync(resolve(folder, "reference-prose.md"), "utf8");
const reference = languageReference(prose);

const blocks = [...reference.matchAll(/^```gudgeon\n([\s\S]*?)\n```$/gmu)].map((found) => (found[1] ?? "").split("\n"));

test("the written file is the generated one", () => {
  expect(readFileSync(resolve(folder, "reference.md"), "utf8")).toBe(reference);
});

test("every example is read, and no plain one has odd characters or a repeated part", () => {
  expect(blocks.length).toBeGreaterThan(WORDS.length);
  for (const line of blocks.flat()) {
    const plan = parseLine(line);
    expect({ line, broken: plan.broken, repeated: plan.repeated, kind: plan.kind === "unknown" }).toEqual({
      line,
      broken: -1,
      repeated: undefined,
      kind: false,
    });
    expect(scanned.odd).toBe(false);
  }
});

test("the first record is laid out as the formatter would, but for its comments", () => {
  const first = (blocks[0] ?? []).map((line) => line.replace(/ +#.*$/u, ""));
  expect(first.length).toBeGreaterThan(20);
  expect(formatLines(first)).toEqual(first);
});

test("every word has a section with its sentence, its form and its examples; every block lists its lines", () => {
  for (const row of WORDS) {
    const heading = row.kind === "header" ? "##" : "###";
    const at = reference.indexOf(`\n${heading} ${row.word}\n\n${row.says}\n`);
    expect([row.word, at]).not.toEqual([row.word, -1]);
    const section = reference.slice(at, reference.indexOf("\n##", at + 5));
    for (const example of row.examples) expect(section).toContain(`\n${example}\n`);
    for (const other of row.also ?? []) expect(section).toContain(`\`${other}\``);
  }
  for (const keyword of KEYWORDS) expect(reference).toContain(`\`${keyword}\``);
  for (const header of WORDS) {
    if (header.kind !== "header") continue;
    const at = reference.indexOf(`\n## ${header.word}\n`);
    const next = reference.slice(at + 4).search(/^#{1,2} /mu);
    const section = reference.slice(at, next < 0 ? undefined : at + 4 + next);
    const members = WORDS.filter((row) => (row.blocks as readonly string[]).includes(header.word)).map(
      (row) => row.word,
    );
    const listed = (word: string): boolean =>
      section.includes(`\n### ${word}\n`) || section.includes(`[\`${word}\`](#${word})`);
    expect([header.word, ...members.filter((word) => !listed(word))]).toEqual([header.word]);
  }
});

describe("the prose", () => {
  test("names units that are known", () => {
    const table = prose.slice(
      prose.search(/^\| kind +\| units +\|$/mu),
      prose.indexOf("The word straight after a number"),
    );
    const units = [...table.matchAll(/`([^`]+)`/gu)].map((found) => found[1] ?? "");
    expect(units.length).toBeGreaterThan(40);
    expect(units.filter((unit) => findUnit(unit) === undefined)).toEqual([]);
    for (const unit of ["g/kW.h", "C/min", "GBP/h"]) expect([unit, findUnit(unit)]).not.toEqual([unit, undefined]);
  });

  test("links to headings and files that exist", () => {
    const headings = [...reference.matchAll(/^#+ (.*)$/gmu)].map((found) =>
      (found[1] ?? "")
        .toLowerCase()
        .replaceAll(/[^a-z0-9 -]/gu, "")
        .replaceAll(" ", "-"),
    );
    const targets = [...reference.matchAll(/\]\(([^)]+)\)/gu)].map((found) => found[1] ?? "");
    const leadsTo = (target: string): number =>
      target.startsWith("#")
        ? headings.filter((one) => `#${one}` === target).length
        : existsSync(resolve(folder, target))
          ? 1
          : 0;
    expect(targets.length).toBeGreaterThan(10);
    expect(targets.filter((target) => leadsTo(target) !== 1)).toEqual([]);
  });
});

test.each([
  ["a:name [until b:date]", "A [until B]"],
  ["a:name ( , a:name )*", "A [, A]..."],
  ["( a:word b:q )+", "(A B)..."],
  ["( a:place )+", "A..."],
  ["( x | a:q )*", "[(x | A)]..."],
  ["( x | a:q )+", "(x | A)..."],
  ["{ a:<hot|cold> | by by:name }+", "{ (hot | cold) | by BY }+"],
  ["{ about:text }", "[ABOUT]"],
  ["left:<left>", "left"],
])("the form %s is written %s", (form, written) => expect(notation(formOf(form))).toBe(written));
