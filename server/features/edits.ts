/** Changes of text: between two lines, and in a block, where a new line has its place. */

import type { Repair, RepairEdit } from "../rules/rule.ts";
import { columnsIn } from "../workspace/locate.ts";
import { type BlockEntry, lineOf } from "../workspace/workspace.ts";
import type { TextEdit } from "./feature.ts";
import { isWorkBlock, rangeOn } from "./under-cursor.ts";

const INDENT = "  ";

/** The one stretch in which two lines differ. */
export function editBetween(line: number, before: string, after: string): TextEdit[] {
  if (before === after) return [];
  let start = 0;
  const shorter = Math.min(before.length, after.length);
  while (start < shorter && before[start] === after[start]) start++;
  let end = 0;
  while (end < shorter - start && before[before.length - 1 - end] === after[after.length - 1 - end]) end++;
  return [{ range: rangeOn(line, start, before.length - end), text: after.slice(start, after.length - end) }];
}

/** New lines below a line. An insertion at the end of the file's last line makes the line break itself. */
export function insertBelow(entry: BlockEntry, line: number, texts: readonly string[]): TextEdit {
  const at = (entry.document.lines[line] ?? "").length;
  return { range: rangeOn(line, at, at), text: texts.map((text) => `\n${text === "" ? "" : INDENT + text}`).join("") };
}

/** The last line of a block that says something of it: blank lines and comments at the margin stand for the next one. */
export function lastLineOf(entry: BlockEntry): number {
  const { lines } = entry.document;
  let last = entry.to - 1;
  while (last > entry.from && ((lines[last] ?? "").trim() === "" || (lines[last] ?? "").startsWith("#"))) last--;
  return last;
}

/** The line above the first signature of a block, or its last: a line added there is covered by whoever signs. */
export function beforeSigns(entry: BlockEntry): number {
  const first = isWorkBlock(entry.facts) ? entry.facts.signs[0] : undefined;
  return first ? lineOf(entry, first.at) - 1 : lastLineOf(entry);
}

/** The last line that a seal covers, or that was signed at all; -1 for none. What stands there stays as it was written. */
export function sealedTo(entry: BlockEntry, sealedOnly: boolean): number {
  if (!isWorkBlock(entry.facts)) return -1;
  const signs = entry.facts.signs.filter((sign) => !sealedOnly || sign.seal !== "");
  const last = signs.at(-1);
  return last ? lineOf(entry, last.at) : -1;
}

function toEdit(entry: BlockEntry, edit: RepairEdit): TextEdit {
  switch (edit.kind) {
    case "replace": {
      const line = lineOf(entry, edit.spot.at);
      const { from, to } = columnsIn(entry.document.lines[line] ?? "", edit.spot);
      return { range: rangeOn(line, from, to), text: edit.text };
    }
    case "insert-after":
      return insertBelow(entry, lineOf(entry, Math.max(0, edit.at)), [edit.text]);
    case "append":
      return insertBelow(entry, edit.text.startsWith("sign ") ? lastLineOf(entry) : beforeSigns(entry), [edit.text]);
  }
}

/** A repair as edits; undefined when it would change text that a seal covers. */
export function editsOf(entry: BlockEntry, repair: Repair): TextEdit[] | undefined {
  const edits = repair.edits.map((edit) => toEdit(entry, edit));
  const sealed = sealedTo(entry, true);
  return edits.some(
    (edit) => edit.range.start.line < sealed || (edit.range.start.line === sealed && !edit.text.startsWith("\n")),
  )
    ? undefined
    : edits;
}
