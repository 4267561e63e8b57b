// A broken line is one finding and takes no neighbour down, and no misspelt header lends its lines to the block above.

import { describe, expect, test } from "vitest";
import {
  type BlockSpan,
  blocksOf,
  LEAD_BLANK,
  type Lead,
  leadOf,
  leadOfPlan,
  opensBlock,
} from "../../grammar/document.ts";
import { type Plan, parseLine, scanned } from "../../grammar/line-parser.ts";
import { WORDS } from "../../grammar/words.ts";
import { sampleFiles } from "./lines.ts";

/** A document with every line kind: each block with examples of all its members. */
const everything: readonly string[] = WORDS.filter((row) => row.kind === "header").flatMap((header) => [
  ...header.examples.slice(0, 1),
  ...WORDS.filter((row) => (row.blocks as readonly string[]).includes(header.word)).flatMap((row) => [
    ...row.examples.map((example) => `  ${example}`),
    ...(row.opensTable ? ["  1  98.012 ? 98.015", "  2  98.010 - 98.016"] : []),
  ]),
  "",
]);

const documents: readonly (readonly string[])[] = [everything, ...sampleFiles];

interface Read {
  readonly plans: readonly Plan[];
  readonly leads: readonly Lead[];
  readonly images: readonly string[];
}

function read(lines: readonly string[]): Read {
  const plans: Plan[] = [];
  const leads: Lead[] = [];
  const images: string[] = [];
  for (const line of lines) {
    const plan = parseLine(line);
    plans.push(plan);
    leads.push(leadOfPlan(plan, line));
    images.push(
      Array.from({ length: scanned.count }, (_, i) => line.slice(scanned.starts[i], scanned.ends[i])).join("\n"),
    );
  }
  return { plans, leads, images };
}

const MANGLED: readonly ((line: string) => string)[] = [
  () => "",
  (line) => line.slice(0, Math.ceil(line.length / 2)),
  (line) => `${line} "`,
  (line) => `${line} [`,
  (line) => line.split("").reverse().join(""),
  (line) => line.replaceAll(/\d/gu, ","),
  (line) => line.replace(/^\s*\S+/u, "$& $& $&"),
  () => '"',
  () => "\ud800 \u0000 \u202e",
];

test("when any line is dropped or mangled, every other line reads as before", () => {
  let changed = 0;
  const wrong: string[] = [];
  for (const lines of documents) {
    const whole = read(lines);
    // Long logs are alike: of many lines, every few are mangled.
    const step = Math.max(1, Math.floor(lines.length / 60));
    for (let i = 0; i < lines.length; i += step) {
      for (const mangle of MANGLED) {
        const line = mangle(lines[i]);
        const after = read([...lines.slice(0, i), line, ...lines.slice(i + 1)]);
        if (after.images[i] !== whole.images[i]) changed++;
        for (const [other, plan] of whole.plans.entries()) {
          if (other === i) continue;
          // A plan of the same shape may have been made again in between.
          const same = after.plans[other] === plan || JSON.stringify(after.plans[other]) === JSON.stringify(plan);
          if (!same || after.images[other] !== whole.images[other]) wrong.push(`line ${other} after ${i}: ${line}`);
        }
      }
    }
  }
  expect(wrong).toEqual([]);
  expect(changed).toBeGreaterThan(3000);
});

describe("blocks", () => {
  const spans = blocksOf(read(everything).leads);

  test("hold every line once, in order, and begin at headers", () => {
    for (const lines of documents) {
      const { leads } = read(lines);
      let at = 0;
      for (const span of blocksOf(leads)) {
        expect(span.from).toBe(at);
        expect(span.to).toBeGreaterThan(span.from);
        expect(
          span.lead === LEAD_BLANK ? span.from === 0 : opensBlock(span.lead) && leads[span.from] === span.lead,
        ).toBe(true);
        at = span.to;
      }
      expect(at).toBe(lines.length);
    }
  });

  test("a broken header still opens its block", () => {
    for (const row of WORDS) {
      if (row.kind !== "header") continue;
      for (const rest of ["", " ", " ???", ' "', " ,", " [", " 98,031", " = ="])
        expect([row.word + rest, opensBlock(leadOf(row.word + rest))]).toEqual([row.word + rest, true]);
    }
  });

  test("a mangled member moves no boundary", () => {
    const whole = read(everything);
    for (const [i, lead] of whole.leads.entries()) {
      if (opensBlock(lead)) continue;
      for (const mangle of MANGLED) {
        const line = mangle(everything[i]);
        const after = [...whole.leads];
        after[i] = leadOf(line);
        // A mangled member may look like a header; then it opens a block, and never takes a boundary away.
        const starts = (all: readonly BlockSpan[]): number[] => all.map((span) => span.from);
        const kept = starts(blocksOf(after));
        expect(starts(spans).filter((start) => !kept.includes(start))).toEqual([]);
      }
    }
  });
});

/** Every spelling one slip away: a letter left out, doubled with another, replaced, or swapped with its neighbour. */
function slips(word: string): string[] {
  const letters = "abcdefghijklmnopqrstuvwxyz-";
  const found = new Set<string>();
  for (let i = 0; i <= word.length; i++) {
    const head = word.slice(0, i);
    found.add(head + word.slice(i + 1));
    if (i + 1 < word.length) found.add(head + word.charAt(i + 1) + word.charAt(i) + word.slice(i + 2));
    for (const letter of letters) {
      found.add(head + letter + word.slice(i));
      if (i < word.length) found.add(head + letter + word.slice(i + 1));
    }
    if (i < word.length) found.add(head + word.charAt(i).toUpperCase() + word.slice(i + 1));
  }
  found.add(word.toUpperCase());
  found.delete(word);
  return [...found].filter((slip) => /^[a-z]/iu.test(slip));
}

test("a header with one slip opens a block, so that no line of it joins the block above", () => {
  let tried = 0;
  const through = new Set<string>();
  for (const row of WORDS) {
    if (row.kind !== "header") continue;
    for (const example of row.examples) {
      for (const slip of slips(row.word)) {
        tried++;
        if (!opensBlock(leadOf(slip + example.slice(row.word.length)))) through.add(slip);
      }
    }
  }
  expect(tried).toBeGreaterThan(5000);
  expect([...through]).toEqual([]);
});
