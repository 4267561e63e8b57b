// The check values of grammar/seals.md, the agreement between scanner and canonical text, and a second reading of the page's rules.

import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { canonicalBlock, canonicalLine, canonicalRelease } from "../../grammar/canonical.ts";
import { keywordType, scan, T } from "../../grammar/tokens.ts";
import { anyLine } from "./lines.ts";

const page = readFileSync(resolve(import.meta.dirname, "../../grammar/seals.md"), "utf8");
const sha256 = (text: string): string => createHash("sha256").update(text, "utf8").digest("hex");

interface Vector {
  readonly name: string;
  readonly lines: readonly string[];
  readonly canonical: string | undefined;
  readonly digest: string;
}

const vectors: readonly Vector[] = page
  .slice(page.indexOf("## Check values"))
  .split("\n### ")
  .slice(1)
  .map((part) => ({
    name: part.slice(0, part.indexOf("\n")),
    lines: JSON.parse(/^ {4}(\[.*\])$/mu.exec(part)?.[1] ?? "null") as string[],
    canonical: JSON.parse(/^ {4}(".*")$/mu.exec(part)?.[1] ?? "null") as string | undefined,
    digest: /SHA-256: `([^`]*)`/u.exec(part)?.[1] ?? "",
  }));

describe("check values of the page", () => {
  test("there are four", () =>
    expect(vectors.map((vector) => vector.name)).toEqual(["plain", "layout", "text", "empty"]));
  test.each(vectors)("$name", ({ lines, canonical, digest }) => {
    const text = canonicalBlock(lines);
    expect(text).toBe(canonical ?? text);
    expect(sha256(text)).toBe(digest);
  });
  test("the digest of no bytes is the published one", () => {
    // The value is the widely printed SHA-256 of the empty message, here from memory.
    expect(vectors.at(-1)?.digest).toBe("e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    expect(vectors[1]?.digest).toBe(vectors[0]?.digest);
  });
});

/** The rules of the page once more, by regular expressions instead of by characters. */
function byThePage(line: string): string {
  const text = line.replace(/^[ \t\r\ufeff]+/u, "").replace(/[ \t\r]+$/u, "");
  const blank = "[ \\t\\r\\u00a0\\u1680\\u2000-\\u200b\\u202f\\u205f\\u3000\\ufeff]";
  const note = new RegExp(`^(${blank}*note)(?=$|${blank})([ \\t\\r]*)([^]*)$`, "u").exec(text);
  if (note) return (note[1] ?? "").replace(/[ \t\r]+/gu, " ") + (note[2] === "" ? "" : " ") + (note[3] ?? "");
  const piece = new RegExp(
    [
      '"(?:[^"]|"")*(?:"(?!")|$)',
      '[\\u201c\\u201d\\u201e\\u00ab](?:[^"\\u201c\\u201d\\u00bb]|"")*(?:"(?!")|[\\u201c\\u201d\\u00bb]|$)',
      `(?<!(?!${blank})[^])#[^]*`,
      "[ \\t\\r]+",
      "[^]",
    ].join("|"),
    "gu",
  );
  let out = "";
  for (const [part] of text.matchAll(piece)) {
    if (part.startsWith("#") && (out === "" || new RegExp(`${blank}$`, "u").test(out)))
      return out.replace(/[ \t\r]+$/u, "");
    out += /^[ \t\r]/u.test(part) ? " " : part;
  }
  return out;
}

test("a second reading of the page gives the same text", () => {
  fc.assert(
    fc.property(anyLine, (line) => {
      expect(canonicalLine(line)).toBe(byThePage(line));
    }),
    { seed: 20260302, numRuns: 30_000 },
  );
});

test("the canonical text leaves out what the scanner reads as a comment, and nothing else", () => {
  const noteType = keywordType("note");
  fc.assert(
    fc.property(anyLine, (line) => {
      const { comment, count, types, starts, ends } = scan(line);
      const content = comment < 0 ? line : line.slice(0, comment);
      // Without its comment the line has the same canonical text, and scanned again it has no comment.
      expect(canonicalLine(content)).toBe(canonicalLine(line));
      const isNote = count > 0 && types[0] === noteType && (count === 1 || types[1] === T.NoteText);
      expect(isNote && comment >= 0).toBe(false);
      // Every token stands in the canonical text, in order and character for character.
      const text = canonicalLine(line);
      let at = 0;
      for (let i = 0; i < count; i++) {
        const found = text.indexOf(line.slice(starts[i], ends[i]), at);
        expect(found).toBeGreaterThanOrEqual(at);
        at = found + ends[i] - starts[i];
      }
    }),
    { seed: 20260303, numRuns: 30_000 },
  );
});

test("a canonical line is its own canonical line", () => {
  fc.assert(
    fc.property(anyLine, (line) => {
      expect(canonicalLine(canonicalLine(line))).toBe(canonicalLine(line));
    }),
    { seed: 20260304, numRuns: 10_000 },
  );
});

test("a figure, a sign, a word, a line or a photograph's digest that changes, changes the text", () => {
  const block = [
    "entry E3 2026-02-19 inspect",
    "  measure a.b[1] 97.889 mm",
    '  photo "p.jpg" "Crack" sha256:00',
    "  sign fitter ATH 2026-02-19",
  ];
  const changes = ["97.8890", "-97.889", "97.889 in", "97,889"].map((to) =>
    block.map((line) => line.replace("97.889 mm", to)),
  );
  const texts = [block, ...changes, block.slice(0, 3), block.toReversed(), [...block, "  note x"]].map(canonicalBlock);
  expect(new Set(texts).size).toBe(texts.length);
});

test("a release lists what it relies on in one order, however it was found", () => {
  const relied = [
    { block: "run", name: "R1", digest: "b".repeat(64) },
    { block: "entry", name: "E3", digest: "a".repeat(64) },
    { block: "limits", name: "Curlew-9 revision C", digest: "c".repeat(64) },
  ];
  const lines = ['release 2026-04-20  J26-014 by CNO "Done"'];
  expect(canonicalRelease(lines, relied)).toBe(
    [
      'release 2026-04-20 J26-014 by CNO "Done"',
      `relies-on entry E3 1:${"a".repeat(64)}`,
      `relies-on limits Curlew-9 revision C 1:${"c".repeat(64)}`,
      `relies-on run R1 1:${"b".repeat(64)}`,
    ].join("\n"),
  );
  expect(canonicalRelease(lines, relied.toReversed())).toBe(canonicalRelease(lines, relied));
});
