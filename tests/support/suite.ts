/**
 * Markdown suites. Headings are test names, prose says why, fenced blocks are files, and a line that begins with `^` marks the finding that is
 * expected in the line above it. The listed findings and no others must appear.
 *
 *     ## faulty: bore above wear
 *     ```settings
 *     as-of 2026-05-01
 *     only limit/*
 *     ```
 *     ```gudgeon job.gudgeon
 *     measure cylinder.bore[3] 98.080 mm with BG-2
 *                              ^^^^^^^^^ limit/out-of-limit: 0.010 mm over
 *     ```
 *     ```edit job.gudgeon
 *     - measure cylinder.bore[3] 98.080 mm with BG-2
 *     + measure cylinder.bore[3] 98.060 mm with BG-2
 *     ```
 */
import type { FileState, SignatureState } from "../../server/checking/ask.ts";
import type { LocatedFinding } from "../../server/checking/finding.ts";
import { type Shop, shopOf } from "./shop.ts";

interface Fence {
  readonly language: string;
  readonly name: string;
  readonly lines: readonly string[];
  /** Line of the suite on which the block begins, counted from 1. */
  readonly at: number;
}

export interface SuiteTest {
  readonly name: string;
  readonly at: number;
  readonly fences: readonly Fence[];
}

export interface Suite {
  readonly title: string;
  readonly base: readonly Fence[];
  readonly tests: readonly SuiteTest[];
}

/** Reads a suite. @throws Error for a fence that is never closed */
export function readSuite(markdown: string): Suite {
  const lines = markdown.split(/\r?\n/u);
  const base: Fence[] = [];
  const tests: { name: string; at: number; fences: Fence[] }[] = [];
  let title = "";
  for (let i = 0; i < lines.length; i++) {
    const line = lines[i];
    if (line.startsWith("# ")) title = line.slice(2).trim();
    else if (line.startsWith("## ")) tests.push({ name: line.slice(3).trim(), at: i + 1, fences: [] });
    else if (line.startsWith("```")) {
      const [language = "", name = ""] = line.slice(3).trim().split(/\s+/u);
      const from = i + 1;
      while (i + 1 < lines.length && !lines[i + 1].startsWith("```")) i++;
      if (i + 1 >= lines.length) throw new Error(`line ${from}: the block is never closed`);
      const fence = { language, name, lines: lines.slice(from, i + 1), at: from + 1 };
      i++;
      const test = tests.at(-1);
      if (test) test.fences.push(fence);
      else base.push(fence);
    }
  }
  return { title, base, tests };
}

interface Expectation {
  readonly path: string;
  readonly line: number;
  readonly from: number;
  readonly to: number;
  readonly code: string;
  readonly contains: string;
}

const MARK = /^\s*(\^+)\s+([a-z-]+\/[a-z-]+)(?::\s*(.*))?$/u;

/** Takes the marks out of a file. @throws Error for a mark that cannot be read */
export function readMarks(path: string, lines: readonly string[]): { text: string; expected: Expectation[] } {
  const kept: string[] = [];
  const expected: Expectation[] = [];
  for (const line of lines) {
    if (!line.trimStart().startsWith("^")) {
      kept.push(line);
      continue;
    }
    const mark = MARK.exec(line);
    if (!mark) throw new Error(`a mark that cannot be read: ${line}`);
    const from = line.indexOf("^");
    expected.push({
      path,
      line: kept.length - 1,
      from,
      to: from + mark[1].length,
      code: mark[2],
      contains: (mark[3] ?? "").trim(),
    });
  }
  return { text: kept.join("\n"), expected };
}

interface Settings {
  asOf: string;
  only: RegExp | undefined;
  files: Record<string, FileState>;
  signatures: Record<string, SignatureState>;
}

function globs(list: string): RegExp {
  const parts = list.split(/[\s,]+/u).filter((part) => part !== "");
  return new RegExp(`^(${parts.map((part) => part.replaceAll("*", "[a-z-]*")).join("|")})$`, "u");
}

function readSettings(lines: readonly string[], into: Settings): void {
  for (const line of lines) {
    const [word, ...rest] = line.trim().split(/\s+/u);
    if (word === undefined || word === "") continue;
    if (word === "as-of") into.asOf = rest[0] ?? "";
    else if (word === "only") into.only = globs(rest.join(" "));
    else if (word === "signature") {
      const [path = "", standing] = rest;
      if (standing !== "good" && standing !== "refused") throw new Error(`a setting that is not known: ${line}`);
      into.signatures[path] = { standing, message: standing === "good" ? "" : "The signature does not fit the text." };
    } else if (word === "file") {
      const [path = "", state, digest = ""] = rest;
      into.files[path] = {
        exists: state === "exists" || state === "outside",
        outside: state === "outside",
        size: 100,
        digest: digest.replace(/^sha256:/u, ""),
      };
    } else throw new Error(`a setting that is not known: ${line}`);
  }
}

const show = (one: Expectation | LocatedFinding, code: string, message: string): string =>
  `${one.path}:${one.line + 1}:${one.from + 1}-${one.to} ${code}${message === "" ? "" : `: ${message}`}`;

/**
 * Runs one test of a suite.
 * @returns what differs from what is expected, one line each; empty when all is as it should be
 */
export function runSuiteTest(suite: Suite, test: SuiteTest): string[] {
  const settings: Settings = { asOf: "2026-05-01", only: undefined, files: {}, signatures: {} };
  const texts: Record<string, string> = {};
  const expected: Expectation[] = [];
  const edits: Fence[] = [];
  const take = (fence: Fence, isBase: boolean) => {
    if (fence.language === "settings") readSettings(fence.lines, settings);
    else if (fence.language === "edit") edits.push(fence);
    else if (fence.language === "csv") texts[fence.name] = fence.lines.join("\n");
    else if (fence.language === "gudgeon") {
      const path = isBase && fence.name === "base" ? "base.gudgeon" : fence.name || "shop.gudgeon";
      if (texts[path] !== undefined) throw new Error(`line ${fence.at}: ${path} stands twice`);
      const read = readMarks(path, fence.lines);
      texts[path] = read.text;
      expected.push(...read.expected);
    }
  };
  for (const fence of suite.base) take(fence, true);
  for (const fence of test.fences) take(fence, false);
  if (Object.keys(texts).length === 0) throw new Error(`the test "${test.name}" has no file`);
  const shop = shopOf(texts, { asOf: settings.asOf, files: settings.files, signatures: settings.signatures });
  const differences = compare(shop, expected, settings.only);
  for (const edit of edits) differences.push(...runEdit(shop, edit));
  for (const [rule, message] of shop.checker.failures) differences.push(`${rule} failed: ${message}`);
  return differences;
}

function compare(shop: Shop, expected: readonly Expectation[], only: RegExp | undefined): string[] {
  const found = shop.checker
    .allFindings()
    .filter((one) => !one.quiet && one.path !== "base.gudgeon" && (only === undefined || only.test(one.finding.code)));
  const left = [...found];
  const differences: string[] = [];
  for (const want of expected) {
    const i = left.findIndex(
      (one) =>
        one.path === want.path &&
        one.line === want.line &&
        one.from === want.from &&
        one.to === want.to &&
        one.finding.code === want.code &&
        one.finding.message.includes(want.contains),
    );
    if (i < 0) differences.push(`not found: ${show(want, want.code, want.contains)}`);
    else left.splice(i, 1);
  }
  for (const one of left) differences.push(`not expected: ${show(one, one.finding.code, one.finding.message)}`);
  return differences;
}

/** Replaces lines, sweeps, and compares with a fresh run. */
function runEdit(shop: Shop, edit: Fence): string[] {
  const document = shop.workspace.document(edit.name);
  if (!document) return [`line ${edit.at}: there is no file ${edit.name} to edit`];
  const differences: string[] = [];
  for (let i = 0; i < edit.lines.length; i++) {
    const old = edit.lines[i];
    const next = edit.lines[i + 1];
    const replaces = old.startsWith("- ") || old === "-";
    const at = replaces ? document.lines.indexOf(old.slice(2)) : document.lines.length;
    if (at < 0) {
      differences.push(`line ${edit.at + i}: no such line: ${old.slice(2)}`);
      continue;
    }
    const inserted = replaces ? (next?.startsWith("+ ") ? [next.slice(2)] : []) : [old.slice(2)];
    if (replaces && inserted.length > 0) i++;
    shop.checker.apply(shop.workspace.edit(edit.name, at, replaces ? 1 : 0, inserted));
    shop.checker.sweep();
    differences.push(...shop.checker.paranoid().map((line) => `after the edit at line ${edit.at + i}: ${line}`));
  }
  return differences;
}
