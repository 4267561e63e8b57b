/**
 * Random edits of a shop, as people and their tools make them: words changed, lines broken, moved, doubled, deleted and put back, blocks cut, files
 * removed and added, the day changed. After each the incremental state must equal a fresh run.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { RunTableRequest } from "../../server/checking/ask.ts";
import { Checker } from "../../server/checking/checker.ts";
import type { AnyRule } from "../../server/rules/rule.ts";
import { Workspace } from "../../server/workspace/workspace.ts";
import { day, tellRunTable } from "../support/shop.ts";

/** A small generator with a seed (mulberry32), so that a failure can be run again. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}

export function recordsOf(folder: string): Map<string, string> {
  const files = new Map<string, string>();
  for (const name of readdirSync(folder, { recursive: true, encoding: "utf8" })) {
    if (name.endsWith(".gudgeon")) files.set(name, readFileSync(join(folder, name), "utf8"));
  }
  return files;
}

interface Edit {
  readonly what: string;
  apply(): void;
}

export interface RandomRun {
  readonly edits: number;
  /** Rule calls an edit, over all edits. */
  readonly callsPerEdit: number;
  /** What differed from a fresh run, with the edit after which it did; empty when nothing did. */
  readonly differences: readonly string[];
}

const DAYS = ["2026-02-20", "2026-04-11", "2026-05-02", "2026-12-31", "2028-01-15"];

/**
 * @param files text by path
 * @param edits how many
 * @param rules the rules to run; all when left out
 */
export function runRandomEdits(
  files: ReadonlyMap<string, string>,
  seed: number,
  edits: number,
  rules?: readonly AnyRule[],
): RandomRun {
  const random = seeded(seed);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)];
  const workspace = new Workspace();
  for (const [path, text] of files) workspace.setText(path, text);
  const checker = new Checker(workspace, { asOf: day("2026-05-02"), ...(rules ? { rules } : {}) });
  // A logger's file is there, or not, or has other rows each time that somebody looks.
  const tellLog = (request: RunTableRequest): void => {
    const rows = Array.from(
      { length: 30 },
      (_, row) => `10:${10 + row},${Math.floor(random() * 2500)},${row === 7 ? "OVR" : "60"}`,
    );
    const text = `clock,${request.plan.channels
      .map((channel) => `"${channel.header}"`)
      .slice(0, 2)
      .join(",")}\n${rows.join("\n")}\n`;
    tellRunTable(checker, request, random() < 0.8 ? text : undefined);
  };
  for (const path of checker.filesNamed())
    checker.setFile(path, { exists: random() < 0.8, outside: false, size: 1, digest: "" });
  for (const request of checker.runTablesNamed()) tellLog(request);
  checker.sweep();
  const calls = checker.work.ruleCalls;
  const removed: [string, string][] = [];
  const undo: { path: string; from: number; count: number; lines: string[] }[] = [];
  const allLines = [...files.values()].flatMap((text) => text.split("\n"));
  const words = [...new Set(allLines.flatMap((line) => line.trim().split(/\s+/u)))].filter((word) => word !== "");

  const edit = (path: string, from: number, count: number, lines: string[]): void => {
    const document = workspace.document(path);
    if (!document) return;
    undo.push({ path, from, count: lines.length, lines: document.lines.slice(from, from + count) });
    checker.apply(workspace.edit(path, from, count, lines));
  };

  const propose = (): Edit => {
    const paths = [...workspace.documents.keys()];
    // Deletions win in the long run; a shop that has lost much of its text gets it back in one edit, as a checkout would do it.
    const length = [...workspace.documents.values()].reduce((sum, one) => sum + one.lines.length, 0);
    if (length < allLines.length * 0.8 || length > allLines.length * 1.5) {
      return {
        what: "all files as they were",
        apply: () => {
          for (const [path, text] of files) checker.apply(workspace.setText(path, text));
        },
      };
    }
    const path = pick(paths);
    const document = workspace.document(path);
    const lines = document?.lines ?? [];
    const at = Math.floor(random() * lines.length);
    const line = lines[at] ?? "";
    const kind = random();
    if (kind < 0.3) {
      const parts = line.split(" ");
      const i = Math.floor(random() * parts.length);
      const how = random();
      const word = parts[i] ?? "";
      if (how < 0.4) parts[i] = word.replace(/\d/u, () => String(Math.floor(random() * 10)));
      else if (how < 0.6) parts[i] = pick(words);
      else if (how < 0.75) parts.splice(i, 1);
      else if (how < 0.9) parts[i] = word.slice(0, -1);
      else parts.splice(i, 0, pick(words));
      const text = parts.join(" ");
      return { what: `${path}:${at + 1} becomes ${text}`, apply: () => edit(path, at, 1, [text]) };
    }
    if (kind < 0.45) return { what: `${path}:${at + 1} goes`, apply: () => edit(path, at, 1, []) };
    if (kind < 0.6) {
      const text = pick(allLines);
      return { what: `${path}:${at + 1} gets ${text}`, apply: () => edit(path, at, 0, [text]) };
    }
    if (kind < 0.68) {
      const to = Math.floor(random() * lines.length);
      return {
        what: `${path}:${at + 1} moves to ${to + 1}`,
        apply: () => {
          edit(path, at, 1, []);
          edit(path, Math.min(to, workspace.document(path)?.lines.length ?? 0), 0, [line]);
        },
      };
    }
    if (kind < 0.74 && document) {
      const block = pick(document.blocks);
      if (block) {
        const text = lines.slice(block.from, block.to);
        if (random() < 0.5)
          return {
            what: `${path}: ${block.facts.ref} goes`,
            apply: () => edit(path, block.from, block.to - block.from, []),
          };
        const other = pick(paths);
        return {
          what: `${path}: ${block.facts.ref} again in ${other}`,
          apply: () => edit(other, workspace.document(other)?.lines.length ?? 0, 0, text),
        };
      }
    }
    if (kind < 0.77 && paths.length > 1) {
      return {
        what: `${path} is removed`,
        apply: () => {
          removed.push([path, lines.join("\n")]);
          checker.apply(workspace.remove(path));
        },
      };
    }
    if (kind < 0.81 && removed.length > 0) {
      const [back, text] = removed.pop() as [string, string];
      return { what: `${back} comes back`, apply: () => checker.apply(workspace.setText(back, text)) };
    }
    if (kind < 0.83) {
      const asOf = pick(DAYS);
      return { what: `as of ${asOf}`, apply: () => checker.setAsOf(day(asOf)) };
    }
    const last = undo.pop();
    if (last && workspace.document(last.path)) {
      return {
        what: `undo at ${last.path}:${last.from + 1}`,
        apply: () => {
          const length = workspace.document(last.path)?.lines.length ?? 0;
          if (last.from + last.count <= length)
            checker.apply(workspace.edit(last.path, last.from, last.count, last.lines));
        },
      };
    }
    return { what: `${path}:${at + 1} doubled`, apply: () => edit(path, at, 0, [line]) };
  };

  for (let n = 1; n <= edits; n++) {
    const one = propose();
    one.apply();
    // Now and then a sweep is stopped and another edit comes before it goes on.
    let budget = random() < 0.2 ? Math.floor(random() * 6) : Number.POSITIVE_INFINITY;
    if (!checker.sweep(() => budget-- <= 0)) continue;
    for (const path of checker.filesWanted)
      checker.setFile(path, { exists: random() < 0.8, outside: false, size: 1, digest: "" });
    for (const request of checker.runTablesWanted) tellLog(request);
    for (const request of checker.runTablesAsked) if (random() < 0.02) tellLog(request);
    checker.sweep();
    const differences = checker.paranoid();
    const failures = [...checker.failures].map(([rule, message]) => `${rule} failed: ${message}`);
    if (differences.length > 0 || failures.length > 0) {
      return {
        edits: n,
        callsPerEdit: (checker.work.ruleCalls - calls) / n,
        differences: [`seed ${seed}, edit ${n}: ${one.what}`, ...failures, ...differences],
      };
    }
  }
  return { edits, callsPerEdit: (checker.work.ruleCalls - calls) / edits, differences: [] };
}
