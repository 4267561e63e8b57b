/** Layout of a file or a part of it, as edits that are as small as can be: lines that are laid out already are not touched. */
import { formatLines, formatRange as layOutRange } from "../../grammar/print.ts";
import { editBetween } from "./edits.ts";
import type { Context, Range, TextEdit } from "./feature.ts";

export function formatDocument(ctx: Context, path: string): TextEdit[] {
  const lines = ctx.checker.workspace.document(path)?.lines ?? [];
  return formatLines(lines).flatMap((after, i) => editBetween(i, lines[i] ?? "", after));
}

/** A range that ends at the beginning of a line does not hold that line. */
export function formatRange(ctx: Context, path: string, range: Range): TextEdit[] {
  const lines = ctx.checker.workspace.document(path)?.lines ?? [];
  const to = range.end.character === 0 && range.end.line > range.start.line ? range.end.line : range.end.line + 1;
  return layOutRange(lines, range.start.line, to).flatMap((after, i) =>
    editBetween(range.start.line + i, lines[range.start.line + i] ?? "", after),
  );
}
