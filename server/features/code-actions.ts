/** What can be done about the findings in a selection, and about the lines that are there; and all safe repairs of a file at once. */
import { Checker } from "../checking/checker.ts";
import type { LocatedFinding } from "../checking/finding.ts";
import { jobContext } from "../totals/job-context.ts";
import { blockAt, Workspace } from "../workspace/workspace.ts";
import { accept } from "./code-actions/accept.ts";
import { addPlaces } from "./code-actions/add-places.ts";
import { addRow } from "./code-actions/add-row.ts";
import { addSign } from "./code-actions/add-sign.ts";
import { addTorques } from "./code-actions/add-torques.ts";
import type { Action, Selected } from "./code-actions/context.ts";
import { explain } from "./code-actions/explain.ts";
import { matchParts } from "./code-actions/match-parts.ts";
import { repairs, repairsOf } from "./code-actions/repairs.ts";
import { supersede } from "./code-actions/supersede.ts";
import { editBetween, editsOf, sealedTo } from "./edits.ts";
import type { CodeAction, Context, Range, TextEdit } from "./feature.ts";
import { isWorkBlock, scopeOfBlock } from "./under-cursor.ts";

/** In the order in which they are offered. */
const ACTIONS: readonly Action[] = [
  repairs,
  addRow,
  addPlaces,
  addTorques,
  addSign,
  matchParts,
  accept,
  supersede,
  explain,
];

/** Findings on the lines of a range; those that hold its beginning first. */
function findingsIn(ctx: Context, path: string, range: Range): LocatedFinding[] {
  const near = ctx.checker
    .findingsOf(path)
    .filter((one) => one.line >= range.start.line && one.line <= range.end.line && one.quiet === undefined);
  const holds = (one: LocatedFinding): boolean =>
    one.line === range.start.line && range.start.character >= one.from && range.start.character <= one.to;
  return [...near.filter(holds), ...near.filter((one) => !holds(one))];
}

export function codeActions(ctx: Context, path: string, range: Range): CodeAction[] {
  const document = ctx.checker.workspace.document(path);
  const entry = document && blockAt(document, Math.min(range.start.line, document.lines.length - 1));
  if (!entry) return [];
  const { ask } = ctx.checker;
  const { facts } = entry;
  const scope = scopeOfBlock(facts);
  const selected: Selected = {
    ctx,
    ask,
    path,
    range,
    entry,
    work: isWorkBlock(facts) ? facts : undefined,
    scope,
    type: ask.total(jobContext, scope).type,
    findings: findingsIn(ctx, path, range),
  };
  const found: CodeAction[] = [];
  const seen = new Set<string>();
  for (const action of ACTIONS) {
    for (const one of action(selected)) {
      // Two ways to the same text are one action.
      const mark = `${one.opens ?? ""}${JSON.stringify(one.edits)}`;
      if (!seen.has(mark)) found.push(one);
      seen.add(mark);
    }
  }
  return found;
}

/** Rounds of repairing: one repair may bring out another on the same word. */
const ROUNDS = 5;

/** Applies edits that lie apart, the last of the line first; one that overlaps another waits for the next round. */
function applied(lines: string[], edits: readonly TextEdit[]): boolean {
  let changed = false;
  let lastLine = -1;
  let lastFrom = 0;
  for (const edit of edits.toSorted(
    (a, b) => b.range.start.line - a.range.start.line || b.range.start.character - a.range.start.character,
  )) {
    const { start, end } = edit.range;
    if (start.line === lastLine && end.character > lastFrom) continue;
    const text = lines[start.line] ?? "";
    lines[start.line] = text.slice(0, start.character) + edit.text + text.slice(end.character);
    lastLine = start.line;
    lastFrom = start.character;
    changed = true;
  }
  return changed;
}

/** The safe repairs of a file that stay within a line and above no signature. */
function safeEdits(checker: Checker, path: string): TextEdit[] {
  const document = checker.workspace.document(path);
  if (!document) return [];
  return checker.findingsOf(path).flatMap((found) => {
    const entry = blockAt(document, found.line);
    // What was signed is corrected by an entry that amends it, never in one sweep.
    if (!entry || found.quiet !== undefined || found.line <= sealedTo(entry, false)) return [];
    const repair = repairsOf(found, entry).find(
      (one) => one.grade === "safe" && one.edits.every((edit) => edit.kind === "replace"),
    );
    return (repair && editsOf(entry, repair)) ?? [];
  });
}

/**
 * All safe repairs of a file at once; done again on the result it finds nothing more to do.
 * @returns edits that are as small as can be
 */
export function fixAll(ctx: Context, path: string): TextEdit[] {
  const document = ctx.checker.workspace.document(path);
  if (!document) return [];
  const before = [...document.lines];
  const lines = [...document.lines];
  let changed = applied(lines, safeEdits(ctx.checker, path));
  for (let round = 1; changed && round < ROUNDS; round++) {
    const workspace = new Workspace();
    workspace.setText(path, lines.join("\n"));
    const alone = new Checker(workspace, { asOf: ctx.checker.asOf, recording: false });
    alone.sweep();
    changed = applied(lines, safeEdits(alone, path));
  }
  return lines.flatMap((after, i) => editBetween(i, before[i] ?? "", after));
}
