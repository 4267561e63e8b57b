/** Blocks, tables and runs of comments fold. */
import { LEAD_BLANK, LEAD_ROW, opensBlock } from "../../grammar/document.ts";
import type { Context, Folding } from "./feature.ts";
import { readLine } from "./under-cursor.ts";

export function foldingRanges(ctx: Context, path: string): Folding[] {
  const document = ctx.checker.workspace.document(path);
  if (!document) return [];
  const { lines, leads } = document;
  const found: Folding[] = [];
  const isComment = (i: number): boolean => leads[i] === LEAD_BLANK && (lines[i] ?? "").trimStart().startsWith("#");
  const add = (start: number, end: number, kind: Folding["kind"]): void => {
    let last = end;
    // What stands before the next header, blank or a comment at the margin, belongs to that header.
    while (
      last > start &&
      ((lines[last] ?? "").trim() === "" ||
        (kind === "block" && isComment(last) && (lines[last] ?? "").startsWith("#")))
    )
      last--;
    if (last > start) found.push({ start, end: last, kind });
  };
  for (const entry of document.blocks) if (opensBlock(leads[entry.from] ?? 0)) add(entry.from, entry.to - 1, "block");
  for (let i = 0; i < lines.length; i++) {
    if (leads[i] === LEAD_ROW && leads[i - 1] !== LEAD_ROW) {
      let end = i;
      let rows = i;
      while (end + 1 < lines.length && (leads[end + 1] === LEAD_ROW || leads[end + 1] === LEAD_BLANK)) {
        end++;
        if (leads[end] === LEAD_ROW) rows = end;
      }
      const heading = i > 0 && readLine(lines[i - 1] ?? "").plan.row?.opensTable === true ? i - 1 : i;
      add(heading, rows, "table");
      i = rows;
    } else if (isComment(i)) {
      const start = i;
      while (i + 1 < lines.length && isComment(i + 1)) i++;
      add(start, i, "comment");
    }
  }
  return found.sort((a, b) => a.start - b.start || b.end - a.end);
}
