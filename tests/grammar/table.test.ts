// Rules that the table of words keeps, whatever is added to it.

import { describe, expect, test } from "vitest";
import {
  type CaptureType,
  COMPOSITES,
  type Form,
  formOf,
  isComposite,
  type PrimitiveType,
} from "../../grammar/form.ts";
import { grammarFor, parseLine, positionOf, ROW_WORD, scanned } from "../../grammar/line-parser.ts";
import { ACCEPTS, FIRST_KEYWORD, KEYWORDS, T, UNITS_TOO } from "../../grammar/tokens.ts";
import { ROW_FORM, WORDS } from "../../grammar/words.ts";
import { findUnit } from "../../server/quantity/units.ts";

const headers = WORDS.filter((row) => row.kind === "header").map((row) => row.word);
const leads = WORDS.flatMap((row) => [row.word, ...(row.also ?? [])]);

test("no word leads two kinds of line, so header and member words are disjoint", () => {
  expect(leads.filter((word, i) => leads.indexOf(word) !== i)).toEqual([]);
});

test("every member stands in blocks that exist, each named once, and every block has members", () => {
  const blocks = new Set<string>(headers);
  for (const row of WORDS) {
    expect([row.word, row.blocks.length > 0]).toEqual([row.word, row.kind === "member"]);
    expect(new Set(row.blocks).size).toBe(row.blocks.length);
    expect([row.word, ...row.blocks.filter((block) => !blocks.has(block))]).toEqual([row.word]);
  }
  const used = new Set<string>(WORDS.flatMap((row) => [...row.blocks]));
  expect(headers.filter((block) => !used.has(block))).toEqual([]);
});

test("every word says what it is for, in a sentence, and has an example that is read", () => {
  for (const row of WORDS) {
    expect(row.says).toMatch(/^[A-Z].*\.$/u);
    expect([row.word, row.examples.length]).not.toEqual([row.word, 0]);
    for (const example of row.examples) {
      const plan = parseLine(example);
      expect({ example, word: plan.row?.word, kind: plan.kind, broken: plan.broken, repeated: plan.repeated }).toEqual({
        example,
        word: row.word,
        kind: row.kind,
        broken: -1,
        repeated: undefined,
      });
      expect(scanned.odd).toBe(false);
      expect(scanned.comment).toBe(-1);
    }
  }
});

test("another spelling of a word is read as the word", () => {
  for (const row of WORDS) {
    for (const other of row.also ?? []) {
      for (const example of row.examples)
        expect(parseLine(other + example.slice(row.word.length))).toMatchObject({ row, broken: -1 });
    }
  }
});

test("the scanner knows which keywords are units too", () => {
  expect(KEYWORDS.filter((word) => findUnit(word) !== undefined).sort()).toEqual([...UNITS_TOO].sort());
});

test("keywords are lower case, and there is room for them", () => {
  expect(KEYWORDS.filter((word) => !/^[a-z][a-z-]*$/u.test(word))).toEqual([]);
  expect(new Set(KEYWORDS).size).toBe(KEYWORDS.length);
  // Token types are 16 bits, the table of keywords has 1024 places and is quick while half are empty, and a lead is a byte.
  expect(FIRST_KEYWORD + KEYWORDS.length).toBeLessThan(65_536);
  expect(KEYWORDS.length).toBeLessThanOrEqual(512);
  expect(WORDS.length).toBeLessThan(ROW_WORD);
  const spellings = (word: string): readonly string[] => {
    const row = WORDS[positionOf(word) ?? -1];
    return [row?.word ?? "", ...(row?.also ?? [])];
  };
  expect(leads.filter((word) => !spellings(word).includes(word))).toEqual([]);
});

describe("chevrotain finds nothing ambiguous or unreachable in the grammar of", () => {
  test.each(leads)("%s", (word) => {
    const row = WORDS[positionOf(word) ?? -1];
    expect(() => grammarFor(word, row?.form ?? "", true)).not.toThrow();
  });
  test("a row of a table", () => expect(() => grammarFor(undefined, ROW_FORM, true)).not.toThrow());
  test("and would say so", () => {
    expect(() => grammarFor("until", "( a:text | b:text )", true)).toThrow(/[Aa]mbiguous/u);
  });
});

// ---- what may follow a bare number ---------------------------------------------------------------------------------------------------

interface Leaf {
  readonly role: string;
  readonly type: CaptureType | "keyword";
}

function nullable(form: Form): boolean {
  switch (form.kind) {
    case "keyword":
    case "choice":
      return false;
    case "capture":
      return isComposite(form.type) && nullable(formOf(COMPOSITES[form.type]));
    case "sequence":
      return form.parts.every(nullable);
    case "option":
      return true;
    case "either":
      return form.arms.some(nullable);
    case "repeat":
      return !form.atLeastOne || nullable(form.body);
    case "set":
      return !form.atLeastOne || form.arms.some(nullable);
  }
}

function firsts(form: Form): Leaf[] {
  switch (form.kind) {
    case "keyword":
      return [{ role: form.word, type: "keyword" }];
    case "choice":
      return form.words.map((role) => ({ role, type: "keyword" }));
    case "capture":
      return isComposite(form.type) ? firsts(formOf(COMPOSITES[form.type])) : [form];
    case "sequence": {
      const found: Leaf[] = [];
      for (const part of form.parts) {
        found.push(...firsts(part));
        if (!nullable(part)) break;
      }
      return found;
    }
    case "option":
    case "repeat":
      return firsts(form.body);
    case "either":
    case "set":
      return form.arms.flatMap(firsts);
  }
}

/** Calls back with every pair of captures of one token that can stand side by side. */
function sideBySide(form: Form, follow: readonly Leaf[], pair: (left: Leaf, right: Leaf) => void): void {
  switch (form.kind) {
    case "keyword":
    case "choice":
      break;
    case "capture":
      if (isComposite(form.type)) sideBySide(formOf(COMPOSITES[form.type]), follow, pair);
      else for (const right of follow) pair(form, right);
      break;
    case "sequence": {
      let after = follow;
      for (const part of form.parts.toReversed()) {
        sideBySide(part, after, pair);
        after = nullable(part) ? [...firsts(part), ...after] : firsts(part);
      }
      break;
    }
    case "option":
      sideBySide(form.body, follow, pair);
      break;
    case "either":
      for (const arm of form.arms) sideBySide(arm, follow, pair);
      break;
    case "repeat":
      sideBySide(form.body, [...firsts(form.body), ...follow], pair);
      break;
    case "set": {
      const after = [...form.arms.flatMap(firsts), ...follow];
      for (const arm of form.arms) sideBySide(arm, after, pair);
      break;
    }
  }
}

function pairs(form: string, wanted: (left: CaptureType, right: Leaf["type"], role: string) => boolean): string[] {
  const found = new Set<string>();
  sideBySide(formOf(form), [], (left, right) => {
    if (left.type !== "keyword" && wanted(left.type, right.type, right.role))
      found.add(`${left.role}:${left.type} ${right.role}:${right.type}`);
  });
  return [...found];
}

const accepts = (type: Leaf["type"], token: number): boolean =>
  type !== "keyword" && ACCEPTS[type as PrimitiveType].includes(token);
const startsWithLetter = (type: Leaf["type"]): boolean =>
  [T.Name, T.Place, T.Slashed, T.Column].some((token) => accepts(type, token));

describe("the word after a number is a unit, so", () => {
  test("no line follows a bare count by a name", () => {
    const found = WORDS.flatMap((row) => [
      ...pairs(row.form, (left, right) => (left === "count" || left === "arrangement") && startsWithLetter(right)),
    ]);
    expect(found).toEqual([]);
    expect(pairs("qty:count name:name", (left, right) => left === "count" && startsWithLetter(right))).toHaveLength(1);
    expect(
      pairs("{ qty qty:count | at:place }", (left, right) => left === "count" && startsWithLetter(right)),
    ).toHaveLength(1);
  });

  test("what may follow a name, which may be all digits, is read in that spelling too", () => {
    const unread = WORDS.flatMap((row) =>
      pairs(
        row.form,
        (left, right) =>
          accepts(left, T.Number) &&
          left !== "number" &&
          left !== "numfrac" &&
          startsWithLetter(right) &&
          !accepts(right, T.Unit),
      ).map((pair) => `${row.word}: ${pair}`),
    );
    expect(unread).toEqual([]);
  });

  test("a keyword that is a unit too never stands straight after what may be a number", () => {
    for (const row of WORDS) {
      const found = pairs(
        row.form,
        (left, right, role) => right === "keyword" && UNITS_TOO.includes(role) && accepts(left, T.Number),
      );
      // A formula may end with a bare factor; the reference says that `min` then needs `new` or `wear` before it.
      expect([row.word, ...found]).toEqual(row.word === "limit" ? ["limit", "number:number min:keyword"] : [row.word]);
    }
    expect(pairs("a:name min b:q", (left, right) => right === "keyword" && accepts(left, T.Number))).toEqual([
      "a:name min:keyword",
    ]);
  });

  test.each([
    "notice 10 hours or 30 days",
    "standing 14 hours",
    "oil sample 33 Fe 22 ppm",
    "log time with 4711 crank.speed/rpm oil.pressure/psi",
  ])("%s", (line) => expect(parseLine(line).broken).toBe(-1));

  test.each([
    "engine 0412 Curlew-9",
    'defect 1 baffle[4] "Cracked"',
    "task 50 Curlew-9 every 50 h",
    "sign fitter 12 2026-02-19",
    "serial 12",
  ])("a name of digits: %s", (line) => expect(parseLine(line).broken).toBe(line === "serial 12" ? 1 : -1));
});
