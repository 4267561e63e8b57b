import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { describeExpected, type Expected, expectedAfter } from "../../grammar/expect.ts";
import { COMPOSITES, type Form, formOf, isComposite, type PrimitiveType } from "../../grammar/form.ts";
import { formTokenType, parseLine } from "../../grammar/line-parser.ts";
import { ACCEPTS, FIRST_KEYWORD, scanned, typeName } from "../../grammar/tokens.ts";
import { WORDS } from "../../grammar/words.ts";
import { exampleLines, mutatedLine, rowLines } from "./lines.ts";

/** Whether a token of this type is what an expectation asks for. */
function meets(expected: Expected, type: number): boolean {
  switch (expected.kind) {
    case "keyword":
      return formTokenType(expected.word) === type;
    case "value":
      return ACCEPTS[(expected.part ?? expected.type) as PrimitiveType].includes(type);
    case "end":
      return false;
  }
}

function leadWord(): string | undefined {
  const first = scanned.types[0];
  return first >= FIRST_KEYWORD ? typeName(first) : undefined;
}

test.each([...exampleLines, ...rowLines])("at every token of: %s", (line) => {
  expect(parseLine(line).broken).toBe(-1);
  const types = scanned.types.slice(0, scanned.count);
  const word = leadWord();
  if (word === "note") return;
  for (let count = word === undefined ? 0 : 1; count < types.length; count++) {
    const list = expectedAfter(word, types, count);
    expect(list.some((expected) => meets(expected, types[count]))).toBe(true);
  }
  expect(expectedAfter(word, types, types.length)).toContainEqual({ kind: "end" });
});

function describeAfter(line: string): string {
  parseLine(line);
  return describeExpected(expectedAfter(leadWord(), scanned.types, scanned.count));
}

describe("in plain words", () => {
  test.each([
    ["role fitter", "`from`"],
    ["role fitter from 2024-01-08", "`until`, `for`, or the end of the line"],
    ["role fitter from 2024-01-08 for", "a name"],
    ["role fitter from 2024-01-08 for Curlew-9", "`,`, `until`, or the end of the line"],
    ["calibrated", "a date such as 2026-03-02"],
    ["bore 98", "a unit"],
    ["decision", "`guarded` or `simple`"],
    ["limit taper", "a place such as cylinder.bore[3]"],
    ["note", "text in quotes or the end of the line"],
    ["calibrated 12", "nothing more"],
  ])("after `%s`: %s", (line, words) => expect(describeAfter(line)).toBe(words));

  test("an arm of a set that was taken is not offered again, but what follows it is still read", () => {
    const following = (line: string): Expected[] => {
      parseLine(line);
      return expectedAfter(leadWord(), scanned.types, scanned.count);
    };
    const words = (list: readonly Expected[]): string[] =>
      list.flatMap((one) => (one.kind === "keyword" ? [one.word] : []));
    expect(words(following("run R1 2026-04-11 job J1"))).toEqual(["stand", "by", "second", "run-in"]);
    expect(words(following("run R1 2026-04-11 job J1 job J2"))).toEqual(["stand", "by", "second", "run-in"]);
    expect(following("bore")).toEqual([{ kind: "value", role: "value", type: "q", part: "numfrac" }]);
    expect(expectedAfter(undefined, [], 0)).toEqual([{ kind: "value", role: "label", type: "rowlabel" }]);
    expect(expectedAfter("bogus", [], 0)).toEqual([]);
  });
});

/** The keywords and types of a form, by a walk of their own. */
function leaves(form: Form, into: Set<string>): Set<string> {
  if (form.kind === "keyword") into.add(form.word);
  else if (form.kind === "choice") for (const word of form.words) into.add(word);
  else if (form.kind === "capture") {
    if (isComposite(form.type)) leaves(formOf(COMPOSITES[form.type]), into);
    else into.add(form.type);
  } else if (form.kind === "sequence") for (const part of form.parts) leaves(part, into);
  else if (form.kind === "option" || form.kind === "repeat") leaves(form.body, into);
  else for (const arm of form.arms) leaves(arm, into);
  return into;
}

test("following the expectations alone reaches every part of every form", () => {
  for (const row of WORDS) {
    if (row.word === "note") continue;
    const wanted = leaves(formOf(row.form), new Set());
    const met = new Set<string>();
    // Breadth first over token types; what was offered is read next, each kind of offer once or twice a form.
    let lines: number[][] = [[formTokenType(row.word)]];
    const tried = new Map<string, number>();
    for (let depth = 0; depth < 24 && lines.length > 0; depth++) {
      const longer: number[][] = [];
      for (const types of lines) {
        for (const one of expectedAfter(row.word, types, types.length)) {
          if (one.kind === "end") continue;
          const key = one.kind === "keyword" ? one.word : (one.part ?? one.type);
          met.add(key);
          const seen = tried.get(`${key} ${types.length}`) ?? 0;
          if (seen >= 3) continue;
          tried.set(`${key} ${types.length}`, seen + 1);
          const type = one.kind === "keyword" ? formTokenType(one.word) : ACCEPTS[key as PrimitiveType][0];
          longer.push([...types, type]);
        }
      }
      lines = longer.slice(0, 400);
    }
    expect([row.word, ...[...wanted].filter((leaf) => !met.has(leaf))]).toEqual([row.word]);
  }
});

test("this walk and the chevrotain grammar, two readings of one table, break every line at the same token", () => {
  let broken = 0;
  fc.assert(
    fc.property(mutatedLine, (line) => {
      const plan = parseLine(line);
      if (plan.kind === "blank" || plan.kind === "unknown" || plan.row?.word === "note") return;
      const word = leadWord();
      const types = scanned.types.slice(0, scanned.count);
      let at = word === undefined ? 0 : 1;
      while (at < types.length && expectedAfter(word, types, at + 1).length > 0) at++;
      const ends = at === types.length && expectedAfter(word, types, at).some((one) => one.kind === "end");
      expect(ends ? -1 : at).toBe(plan.broken);
      if (plan.broken >= 0) broken++;
    }),
    { seed: 20260307, numRuns: 20_000 },
  );
  expect(broken).toBeGreaterThan(3000);
});

test("ten thousand tokens take work in proportion", () => {
  const line = `1 ${"98.5 ".repeat(10_000)}`;
  parseLine(line);
  expect(scanned.count).toBe(10_001);
  expect(describeExpected(expectedAfter(undefined, scanned.types, scanned.count))).toContain("the end of the line");
});
