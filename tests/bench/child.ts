/**
 * One measurement in a fresh process: `child.mjs WHAT FOLDER`, one line of JSON out. Times are of the work alone; starting the process and
 * loading the code are measured elsewhere.
 */

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { forgetShapes, parseLine, shapeCache } from "../../grammar/line-parser.ts";
import { Checker } from "../../server/checking/checker.ts";
import { answerSignatures } from "../../server/cli/shop.ts";
import { writeText } from "../../server/cli/writers/text.ts";
import { fileState } from "../../server/host/shop-files.ts";
import { type CivilDate, parseDate } from "../../server/quantity/civil-date.ts";
import { Workspace } from "../../server/workspace/workspace.ts";
import { quantile } from "./figures.ts";
import { readAll, recordPaths, splitAndParse } from "./floor.ts";
import { readingAt } from "./typing.ts";

const AS_OF = parseDate("2026-05-02") as CivilDate;
const [what = "", folder = "."] = process.argv.slice(2);
const now = (): number => performance.now();

function report(figures: Record<string, number>): void {
  console.log(JSON.stringify({ ...figures, rss_MB: process.resourceUsage().maxRSS / 1024 }));
}

function heap(): number {
  const { gc } = globalThis as { gc?: () => void };
  if (!gc) throw new Error("memory is measured under --expose-gc");
  gc();
  gc();
  return process.memoryUsage().heapUsed;
}

/** A checked shop with the time of each phase. Files that records name are looked at outside the phases, as the floor does not read them. */
async function checked(recording: boolean): Promise<{ checker: Checker; figures: Record<string, number> }> {
  const t0 = now();
  const paths = recordPaths(folder);
  const texts = readAll(folder, paths);
  const t1 = now();
  const workspace = new Workspace();
  for (const [i, path] of paths.entries()) workspace.setText(path, texts[i]);
  texts.length = 0;
  const t2 = now();
  const checker = new Checker(workspace, { asOf: AS_OF, recording });
  const t3 = now();
  for (const path of checker.filesNamed()) checker.setFile(path, await fileState(folder, path));
  await answerSignatures(checker, folder, checker.signaturesNamed());
  const t4 = now();
  if (!checker.sweep()) throw new Error("the sweep stopped before its end");
  const t5 = now();
  const lines = [...workspace.documents.values()].reduce((sum, one) => sum + one.lines.length, 0);
  return {
    checker,
    figures: {
      read: t1 - t0,
      facts: t2 - t1,
      index: t3 - t2,
      sweep: t5 - t4,
      lines,
      ruleCalls: checker.work.ruleCalls,
    },
  };
}

const MODES: Readonly<Record<string, () => Promise<void> | void>> = {
  floor() {
    const t0 = now();
    const texts = readAll(folder, recordPaths(folder));
    const t1 = now();
    const { lines, numbers } = splitAndParse(texts);
    report({ read: t1 - t0, total: now() - t0, lines, numbers });
  },

  /** Scanner and grammar only: no facts. */
  parse() {
    const t0 = now();
    const texts = readAll(folder, recordPaths(folder));
    new Workspace(); // loads the plans that ship with the program
    let broken = 0;
    for (const text of texts) for (const line of text.split("\n")) if (parseLine(line).broken >= 0) broken++;
    report({ total: now() - t0, broken, asked: shapeCache.asked, missed: shapeCache.missed });
  },

  async check() {
    const { checker, figures } = await checked(false);
    const t0 = now();
    const findings = checker.allFindings();
    const t1 = now();
    let length = 0;
    writeText(
      { root: ".", checker, unreadable: [], wanted: () => true },
      findings,
      findings,
      (text) => (length += text.length),
    );
    const output = now() - t0;
    const { read = 0, facts = 0, index = 0, sweep = 0 } = figures;
    report({
      ...figures,
      collect: t1 - t0,
      output,
      total: read + facts + index + sweep + output,
      findings: findings.length,
      length,
    });
  },

  async record() {
    const { figures } = await checked(true);
    const { read = 0, facts = 0, index = 0, sweep = 0 } = figures;
    report({ ...figures, total: read + facts + index + sweep });
  },

  async memory() {
    const before = heap();
    const held = await checked(process.argv[4] === "recording");
    const after = heap();
    report({
      perLine: (after - before) / held.figures["lines"],
      findings: held.checker.allFindings().length,
    });
  },

  /** A digit typed into a reading and taken out again, over and over, at places spread over the record. */
  async keys() {
    const { checker } = await checked(true);
    const { workspace } = checker;
    const [document] = workspace.documents.values();
    if (!document) throw new Error("no record");
    const { path } = document;
    const at = readingAt(document.lines);
    const times: number[] = [];
    const calls = checker.work.ruleCalls;
    const count = Number(process.argv[4] ?? 600);
    for (let i = 0; i < count; i++) {
      const { line, character } = at[((i >> 1) * 7919) % at.length];
      const text = document.lines[line];
      const typed =
        i % 2 === 0
          ? `${text.slice(0, character)}3${text.slice(character)}`
          : text.slice(0, character) + text.slice(character + 1);
      const t0 = now();
      checker.apply(workspace.edit(path, line, 1, [typed]));
      checker.sweep();
      checker.findingsOf(path);
      times.push(now() - t0);
    }
    const warm = times.slice(Math.min(100, count >> 2));
    report({
      p50: quantile(warm, 0.5),
      p95: quantile(warm, 0.95),
      p99: quantile(warm, 0.99),
      most: Math.max(...warm),
      keys: warm.length,
      callsPerKey: (checker.work.ruleCalls - calls) / count,
      lines: document.lines.length,
      findings: checker.findingsOf(path).length,
      differences: checker.paranoid().length,
    });
  },

  /** Shape cache: with the plans that ship, and from nothing. */
  shapes() {
    const texts = recordPaths(folder).map((path) => readFileSync(join(folder, path), "utf8"));
    new Workspace();
    const run = (): { asked: number; missed: number } => {
      shapeCache.asked = 0;
      shapeCache.missed = 0;
      for (const text of texts) for (const line of text.split("\n")) parseLine(line);
      return { asked: shapeCache.asked, missed: shapeCache.missed };
    };
    const shipped = run();
    forgetShapes();
    const empty = run();
    report({ asked: shipped.asked, missed: shipped.missed, missedFromNothing: empty.missed });
  },
};

const run = MODES[what];
if (!run) throw new Error(`no measurement is called ${what}`);
await run();
