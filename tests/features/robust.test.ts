/** No feature fails on half-typed text, and repairing all at once is done when it was done once. */
import { readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { splitLines } from "../../grammar/document.ts";
import type { Context, Position } from "../../server/features/feature.ts";
import * as features from "../../server/features/index.ts";
import { edited, textIn } from "../support/cursor.ts";
import { type Shop, shopOf } from "../support/shop.ts";
import { INSPECT, JOB, SHOP, TYPE, withFile } from "./small-shop.ts";

const bench = resolve(import.meta.dirname, "../../samples/bench");
const BENCH = Object.fromEntries(
  readdirSync(bench)
    .filter((name) => name.endsWith(".gudgeon"))
    .map((name) => [name, readFileSync(join(bench, name), "utf8")]),
);
const SEED = { seed: 20260501 };

/** Calls every feature at a place. @returns how many answered with something */
function callAll(ctx: Context, path: string, position: Position): number {
  const range = { start: position, end: position };
  const answers: unknown[] = [
    features.hover(ctx, path, position),
    features.completion(ctx, path, position),
    features.definition(ctx, path, position),
    features.references(ctx, path, position, true),
    features.highlights(ctx, path, position),
    features.prepareRename(ctx, path, position),
    features.rename(ctx, path, position, "New-1"),
    features.codeActions(ctx, path, range),
    features.selectionRanges(ctx, path, [position]),
    features.formatRange(ctx, path, range),
  ];
  return answers.filter((one) => one !== undefined && !(Array.isArray(one) && one.length === 0)).length;
}

function callOnFile(ctx: Context, path: string): void {
  for (const whole of [
    features.documentSymbols,
    features.foldingRanges,
    features.documentLinks,
    features.formatDocument,
    features.fixAll,
  ])
    whole(ctx, path);
}

describe("half-typed text", () => {
  const TEXT = `${INSPECT}  torque cylinder.nut[1/1..2] 40 N.m oiled with TW-2 adapter 50 mm on 300 mm set 34.3 N.m
  compression differential supply 80 psi orifice 0.040 in warm with PG-3
  1 76 heard rings
  fit part "CG-1102" qty 2 batch B71 source "note 1" at cylinder[3]
  accept limit/not-proven E2 cylinder.bore[3] by RPE 2026-02-20 "x"
  concession N1 of E2 cylinder.bore[6] by RPE 2026-03-02 "Größe ✓"
  sign fitter ATH 2026-02-19 seal 1:${"0".repeat(64)}
run R1 2026-04-01 job J26-014 stand TS-1 by ATH second RPE
  log time crank.speed/rpm oil.pressure/psi
  10:00 800 60
  magneto left 65 rpm right 70 rpm at 1700 rpm
`;
  const broken = fc.record({
    cut: fc.nat(TEXT.length),
    drop: fc.nat(12),
    insert: fc.constantFrom(
      "",
      '"',
      "[",
      "]",
      "/",
      " ",
      "\n",
      "\t",
      "\u00a0",
      "é",
      "🛠",
      "sign ",
      "grid ",
      "?",
      "..",
      "1,5 mm",
      "entry ",
      "# ",
    ),
  });
  test("at any place, every feature answers", { timeout: 60_000 }, () => {
    fc.assert(
      fc.property(broken, fc.nat(40), ({ cut, drop, insert }, step) => {
        const text = TEXT.slice(0, cut) + insert + TEXT.slice(cut + drop);
        const ctx: Context = { checker: shopOf(withFile(text)).checker };
        const lines = splitLines(text);
        const line = Math.min(text.slice(0, cut + insert.length).split("\n").length - 1, lines.length - 1);
        let answered = 0;
        for (const at of [cut - text.lastIndexOf("\n", Math.max(0, cut - 1)), step, (lines[line] ?? "").length])
          answered += callAll(ctx, "work.gudgeon", { line, character: Math.max(0, at) });
        callOnFile(ctx, "work.gudgeon");
        expect(answered).toBeGreaterThan(0);
      }),
      { ...SEED, numRuns: 150 },
    );
  });
  test("each line of every kind of block cut short, with the cursor at its end", () => {
    for (const [path, text] of Object.entries({ "type.gudgeon": TYPE, "job.gudgeon": JOB })) {
      const lines = text.split("\n");
      for (const [i, line] of lines.entries()) {
        for (const length of [0, Math.floor(line.length / 3), Math.floor(line.length / 2), line.length - 1]) {
          const cut = [...lines.slice(0, i), line.slice(0, Math.max(0, length)), ...lines.slice(i + 1)].join("\n");
          const ctx: Context = { checker: shopOf({ ...SHOP, [path]: cut }, { rules: [] }).checker };
          expect(callAll(ctx, path, { line: i, character: Math.max(0, length) })).toBeGreaterThan(0);
        }
      }
    }
  });
  test("in an empty file, beyond its end, and in a file that is not there", () => {
    const ctx: Context = { checker: shopOf({ "a.gudgeon": "" }).checker };
    for (const path of ["a.gudgeon", "none.gudgeon"]) {
      callOnFile(ctx, path);
      expect(callAll(ctx, path, { line: 0, character: 0 })).toBeGreaterThan(0);
      expect(callAll(ctx, path, { line: 9, character: 9 })).toBeGreaterThan(0);
    }
    expect(features.workspaceSymbols(ctx, "x")).toEqual([]);
  });
});

describe("all safe repairs of a spoiled sample", () => {
  const path = "J26-021.gudgeon";
  const lines = splitLines(BENCH[path] ?? "");
  /** Slips with one way out: a blank lost before a unit, a blank that is none, the zero before a point. */
  const slips: readonly ((line: string) => string)[] = [
    (line) => line.replace(/(\d) (mm|N\.m|L|h|C)\b/u, "$1$2"),
    (line) => line.replace(/(\S) (\S)/u, "$1\u00a0$2"),
    (line) => line.replace(/ 0\.(\d)/u, " .$1"),
    (line) => line.replace(/ "([^"]*)"/u, " \u201c$1\u201d"),
  ];
  // A line that can be read again may well bring findings of its own (hours that are read make tasks due); slips of writing only go.
  const slipsIn = (shop: Shop): number =>
    shop.checker.findingsOf(path).filter((one) => one.finding.code.startsWith("syntax/")).length;
  const spoiled = fc.array(fc.tuple(fc.nat(lines.length - 1), fc.nat(slips.length - 1)), {
    minLength: 1,
    maxLength: 6,
  });

  test("leaves fewer slips wherever it changes anything, and done again changes nothing", { timeout: 60_000 }, () => {
    let repaired = 0;
    fc.assert(
      fc.property(spoiled, (marks) => {
        const text = [...lines];
        for (const [line, slip] of marks) text[line] = slips[slip]?.(text[line] ?? "") ?? "";
        const before = shopOf({ ...BENCH, [path]: text.join("\n") });
        const edits = features.fixAll({ checker: before.checker }, path);
        const after = shopOf({ ...BENCH, [path]: edited(textIn(before, path), edits) });
        if (edits.length > 0) repaired++;
        expect(Math.sign(slipsIn(before) - slipsIn(after))).toBe(Math.sign(edits.length));
        expect(features.fixAll({ checker: after.checker }, path)).toEqual([]);
      }),
      { ...SEED, numRuns: 60 },
    );
    expect(repaired).toBeGreaterThan(20);
  });
});
