// The plan that is kept for a shape against a fresh parse of the line, and odd, hostile and unclosed text.

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  exportPlans,
  forgetShapes,
  grammarFingerprint,
  importPlans,
  type Plan,
  parseLine,
  planFor,
} from "../../grammar/line-parser.ts";
import { scan, scanned, T, typeName } from "../../grammar/tokens.ts";
import { allLines, anyLine } from "./lines.ts";

function signature({ kind, word, broken, repeated, fields, by }: Plan): string {
  const firsts = Object.entries(by).map(([role, field]) => `${role}@${field?.from}`);
  return `${kind} ${word} ${broken} ${repeated ? fields.indexOf(repeated) : -1} ${fields.map((f) => `${f.role}:${f.type}[${f.from},${f.to})`).join(" ")} | ${firsts.join(" ")}`;
}

describe("a plan that is kept", () => {
  const lines = fc.sample(anyLine, { seed: 20260309, numRuns: 64_000 });

  test("is the plan of a fresh parse, on 64,000 lines", () => {
    forgetShapes();
    for (const line of lines) parseLine(line);
    // Read again in another order, so that most come from the cache, whose plans other lines made.
    const kept = lines
      .toReversed()
      .map((line) => signature(parseLine(line)))
      .toReversed();
    let broken = 0;
    const wrong: string[] = [];
    for (const [i, line] of lines.entries()) {
      forgetShapes();
      const fresh = parseLine(line);
      if (fresh.broken >= 0) broken++;
      if (signature(fresh) !== kept[i]) wrong.push(`${line}: kept ${kept[i]}, fresh ${signature(fresh)}`);
    }
    expect(wrong).toEqual([]);
    expect(broken).toBeGreaterThan(20_000);
  });

  test("survives being written out and read in", () => {
    forgetShapes();
    const before = allLines.map((line) => signature(parseLine(line)));
    const data: unknown = JSON.parse(JSON.stringify(exportPlans()));
    forgetShapes();
    importPlans(data as unknown[], grammarFingerprint());
    expect(allLines.map((line) => signature(parseLine(line)))).toEqual(before);
    forgetShapes();
  });

  test("a value at the end of the line ends with it", () => {
    const plan = parseLine("limit taper cylinder.bore wear max 0.030 mm");
    expect(plan.by["wear"]).toEqual({ role: "wear", type: "bounds", from: 4, to: 7 });
    expect(scanned.count).toBe(7);
  });

  test("fields lie within the tokens, in order, and those before a break do not reach past it", () => {
    for (const line of lines.slice(0, 20_000)) {
      const plan = parseLine(line);
      let at = 0;
      for (const field of plan.fields) {
        expect(field.from).toBeGreaterThanOrEqual(at);
        expect(field.to).toBeGreaterThan(field.from);
        at = field.to;
      }
      expect(at).toBeLessThanOrEqual(plan.broken < 0 ? scanned.count : plan.broken);
      expect(plan.broken).toBeLessThanOrEqual(scanned.count);
    }
  });
});

/** Types and texts of the tokens of a line. */
function tokens(line: string): string[] {
  const { count, types, starts, ends } = scan(line);
  return Array.from({ length: count }, (_, i) => `${typeName(types[i])} ${line.slice(starts[i], ends[i])}`);
}

describe("odd characters are read as their plain equivalents, and are noticed", () => {
  test.each([
    ["curly quotes", "scope \u201cTop overhaul\u201d", 'scope "Top overhaul"'],
    ["low and high quotes", "scope \u201eTop overhaul\u201c", 'scope "Top overhaul"'],
    ["angled quotes", "scope \u00abTop overhaul\u00bb", 'scope "Top overhaul"'],
    ["a curly quote closed by a straight one", 'scope \u201cTop overhaul"', 'scope "Top overhaul"'],
    ["a no-break blank", "bore\u00a098\u00a0mm", "bore 98 mm"],
    ["a thin blank", "bore 98\u2009mm", "bore 98 mm"],
    ["a zero-width blank", "bore 98 \u200bmm", "bore 98 mm"],
    ["an en dash for a cell", "1 98.01 \u2013 ?", "1 98.01 - ?"],
    ["a minus sign", "rework cylinder.bore[3] to size \u22120.5 mm", "rework cylinder.bore[3] to size -0.5 mm"],
    ["en dashes in a date", "wanted 2026\u201305\u201301", "wanted 2026-05-01"],
    ["a plus-minus sign", "torque nut[1] 40 \u00b1 2 N.m", "torque nut[1] 40 +/- 2 N.m"],
    ["a degree sign", "air 24 \u00b0C", "air 24 C"],
  ])("%s", (_, odd, plain) => {
    const plainPlan = parseLine(plain);
    const plainTypes = tokens(plain).map((token) => token.split(" ", 1)[0]);
    expect(scan(plain).odd).toBe(false);
    expect(plainPlan.broken).toBe(-1);
    expect(tokens(odd).map((token) => token.split(" ", 1)[0])).toEqual(plainTypes);
    expect(signature(parseLine(odd))).toBe(signature(plainPlan));
    expect(scanned.odd).toBe(true);
  });

  test("inside quotes, notes and comments they are text", () => {
    for (const line of [
      'scope "24\u00a0\u00b0C \u00b1 2 \u2013 \u201cso\u201d"',
      "note \u201cso\u201d 24\u00b0C",
      "bore 98 mm # 98\u00a0mm \u00b1",
    ]) {
      expect(parseLine(line).broken).toBe(-1);
      expect(scanned.odd).toBe(false);
    }
  });
});

describe("quotes and comments", () => {
  test.each([
    ['owner "Fenland', ["owner owner", 'OpenText "Fenland']],
    ['owner "Fenland # no comment  \r', ["owner owner", 'OpenText "Fenland # no comment']],
    ['owner "', ["owner owner", 'OpenText "']],
    ['owner "3/8"" bolt"', ["owner owner", 'Text "3/8"" bolt"']],
    ['owner "3/8"" bolt', ["owner owner", 'OpenText "3/8"" bolt']],
    ['owner ""', ["owner owner", 'Text ""']],
    ['owner"A""B" x', ["owner owner", 'Text "A""B"', "Name x"]],
    ["owner \u201cA # b\u201d", ["owner owner", "Text \u201cA # b\u201d"]],
  ])("%s", (line, wanted) => expect(tokens(line)).toEqual(wanted));

  test("unclosed text is one token and one field, and the line is otherwise whole", () => {
    const plan = parseLine('defect D1 baffle[4] "Cracked at # the lug');
    expect(plan.broken).toBe(-1);
    expect(scanned.types[scanned.count - 1]).toBe(T.OpenText);
    expect(scanned.comment).toBe(-1);
  });

  test.each([
    ["# all of it", 0, 0],
    ["  \t# all of it", 3, 0],
    ["bore 98 mm # as new", 11, 3],
    ["bore 98 mm #", 11, 3],
    ["bore 98 mm# no comment", -1, 5],
    ["\ufeff# after a mark", 1, 0],
    ["bore 98 mm\u00a0# after a no-break blank", 11, 3],
    ['owner "A # b" # c', 14, 2],
    ["note a # b", -1, 2],
    ["note", -1, 1],
    ["note # b", -1, 2],
    ["notes # b", 6, 1],
    ["x note # b", 7, 2],
  ])("%j: the comment begins at %d, after %d tokens", (line, comment, count) => {
    const found = scan(line);
    expect([found.comment, found.count]).toEqual([comment, count]);
  });

  test("a byte-order mark and a CR say nothing", () => {
    for (const line of ["bore 98 mm", "note as it stands", "# comment", "1 2 3", 'owner "open']) {
      expect(tokens(`\ufeff${line}\r`)).toEqual(tokens(line));
      expect(signature(parseLine(`\ufeff${line}\r`))).toBe(signature(parseLine(line)));
      expect(scanned.odd).toBe(false);
    }
  });
});

describe("hostile text", () => {
  /** How many characters are looked at while a line is scanned: a count of work, not of time. */
  function looks(line: string): number {
    const charCodeAt = Object.getOwnPropertyDescriptor(String.prototype, "charCodeAt");
    const slice = Object.getOwnPropertyDescriptor(String.prototype, "slice");
    if (!charCodeAt || !slice) throw new Error("strings without charCodeAt or slice");
    let count = 0;
    Object.defineProperty(String.prototype, "charCodeAt", {
      ...charCodeAt,
      value(this: string, at: number): number {
        count++;
        return (charCodeAt.value as (at: number) => number).call(this, at);
      },
    });
    Object.defineProperty(String.prototype, "slice", {
      ...slice,
      value(this: string, from?: number, to?: number): string {
        const part = (slice.value as (from?: number, to?: number) => string).call(this, from, to);
        count += part.length;
        return part;
      },
    });
    try {
      scan(line);
    } finally {
      Object.defineProperty(String.prototype, "charCodeAt", charCodeAt);
      Object.defineProperty(String.prototype, "slice", slice);
    }
    return count;
  }

  const MEGABYTE = 1 << 20;
  const units = [
    "a",
    "9",
    " ",
    '"',
    '""',
    '" ',
    "a[",
    "a[ ",
    "a[]",
    "a]",
    "a[1]",
    "1,",
    "1,1 ",
    "1..",
    "1/",
    "1:",
    "a:",
    "a/",
    "<",
    "<1",
    "+",
    "+/-",
    "-",
    "#",
    " #",
    "?",
    "%",
    "9 %",
    "9 a",
    "\u00b0",
    "\u00a0",
    "\u201c",
    "\u201d",
    "\ufeff",
    "😀",
    "\ud83d",
    "note ",
    "a.",
    "a-",
    "()=;,",
    "min ",
    "1 min ",
    "'",
    "[",
    "\t\r",
  ];
  test.each(units)("a megabyte of %j takes work in proportion", (unit) => {
    const line = unit.repeat(Math.ceil(MEGABYTE / unit.length));
    const small = line.slice(0, MEGABYTE / 16);
    expect(looks(line)).toBeLessThan(10 * line.length + 100);
    expect(looks(line)).toBeLessThan(16.5 * looks(small) + 1000);
  });

  test("a row of ten thousand columns, a line of a megabyte", () => {
    expect(parseLine(`1 ${"98.012 ".repeat(10_000)}`)).toMatchObject({ kind: "row", broken: -1 });
    expect(scanned.count).toBe(10_001);
    expect(parseLine(`log time ${"a/C ".repeat(10_000)}`).broken).toBe(-1);
    expect(parseLine(`owner "${"x".repeat(MEGABYTE)}"`).broken).toBe(-1);
    expect(parseLine(`limit ${"a/".repeat(MEGABYTE / 2)}`).broken).toBe(1);
    expect(parseLine("with ".repeat(20_000)).broken).toBe(1);
    forgetShapes();
  });

  test("every code point of every plane, and every lone surrogate, at the start of a word, in it, after a number and in quotes", () => {
    for (let point = 0; point < 0x110000; point += point < 0x3000 ? 1 : 7) {
      const c = point >= 0xd800 && point <= 0xdfff ? String.fromCharCode(point) : String.fromCodePoint(point);
      for (const line of [`${c}x 1`, `a${c}b 1${c} ${c}`, `1 ${c} "${c}`]) {
        const { count, starts, ends } = scan(line);
        let at = 0;
        for (let i = 0; i < count; i++) {
          // Tokens are in order, hold something and never overlap; `expect` for each would take a minute.
          if (starts[i] < at || ends[i] <= starts[i]) throw new Error(`${point.toString(16)} in ${line}`);
          at = ends[i];
        }
        if (at > line.length) throw new Error(`${point.toString(16)} reaches past the end`);
      }
    }
    expect(planFor(scan("\ud800 \udc00\ud800")).kind).toBe("unknown");
  });
});
