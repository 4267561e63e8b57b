/**
 * The formatter: layout only. It never joins or splits lines and never changes a token, so the facts and every seal stay as they were.
 *
 * Headers stand at the margin, everything else two blanks in. Between tokens stands one blank where there was one or more, and none where there
 * was none. Cells of the rows of one table are aligned right. Lines outside tables are not aligned with each other: a change to
 * one line then never touches its neighbours, and records merge line by line.
 */
import { afterNoteWord, collapsePlain, trimPlain } from "./blanks.ts";
import { noteRest } from "./canonical.ts";
import { columnWidth } from "./column-width.ts";
import { LEAD_ROW, type Lead, leadOfPlan, opensBlock } from "./document.ts";
import { parseLine, scanned } from "./line-parser.ts";

const INDENT = "  ";
/** A wider cell is no figure, and pads no neighbour. */
const WIDEST_CELL = 24;

/** A row of a table, cut where layout may stand. */
interface Row {
  readonly head: string;
  /** The label, then the cells. */
  readonly cells: readonly string[];
  /** What stands behind the cells, with its blank. */
  readonly rest: string;
}

/** A line that was laid out, or a row that waits for the widths of its table. */
interface Laid {
  readonly text: string;
  readonly row: Row | undefined;
  /** The line belongs to no table: rows before and after it are aligned apart. */
  readonly endsTable: boolean;
}

/**
 * Lays out lines.
 * @param lines lines without their line ends
 * @returns as many lines
 */
export function formatLines(lines: readonly string[]): string[] {
  const out: string[] = [];
  let waiting: Laid[] = [];
  const flush = (): void => {
    alignRows(waiting, out);
    waiting = [];
  };
  for (const line of lines) {
    const laid = layOut(line);
    if (laid.endsTable) flush();
    waiting.push(laid);
    if (laid.endsTable) flush();
  }
  flush();
  return out;
}

/**
 * Lays out the lines `from` up to but not including `to`, as `formatLines` would within the whole.
 * @returns the `to - from` lines that replace them
 */
export function formatRange(lines: readonly string[], from: number, to: number): string[] {
  const first = Math.max(0, Math.min(from, lines.length));
  const last = Math.max(first, Math.min(to, lines.length));
  let start = first;
  while (start > 0 && start < lines.length && !layOut(lines[start - 1]).endsTable) start--;
  let end = last;
  while (end > 0 && end < lines.length && !layOut(lines[end]).endsTable) end++;
  return formatLines(lines.slice(start, end)).slice(first - start, last - start);
}

function layOut(line: string): Laid {
  const bom = line.charCodeAt(0) === 0xfeff ? "\ufeff" : "";
  const text = trimPlain(bom === "" ? line : line.slice(1));
  if (text === "") return { text: bom, row: undefined, endsTable: false };
  const plan = parseLine(text);
  const lead = leadOfPlan(plan, text);
  const head = bom + indentOf(line.slice(bom.length), lead, plan.kind === "blank");
  const note = afterNoteWord(text);
  if (note >= 0) {
    return { text: head + collapsePlain(text.slice(0, note)) + noteRest(text, note), row: undefined, endsTable: true };
  }
  if (plan.kind === "blank") return { text: head + text, row: undefined, endsTable: false };
  if (plan.kind === "unknown" || plan.broken >= 0) {
    return { text: head + text, row: undefined, endsTable: lead !== LEAD_ROW };
  }
  const pieces = piecesOf(text);
  if (lead !== LEAD_ROW) return { text: head + pieces.join(""), row: undefined, endsTable: true };
  let cells = 1;
  for (const field of plan.fields) if (field.role === "cell") cells++;
  return { text: head + pieces.join(""), row: rowOf(head, pieces, cells), endsTable: false };
}

function indentOf(line: string, lead: Lead, saysNothing: boolean): string {
  if (opensBlock(lead)) return "";
  // A comment at the margin stands above a header and speaks of it; an indented one belongs to the lines around it.
  if (saysNothing && line === line.trimStart()) return "";
  return INDENT;
}

/** Gaps and tokens of the line in `scanned`, in turn: gap, token, gap, token, ..., and the comment with its gap. */
function piecesOf(text: string): string[] {
  const { count, starts, ends, comment } = scanned;
  const pieces: string[] = [];
  let at = 0;
  for (let i = 0; i < count; i++) {
    const start = starts[i];
    const end = ends[i];
    pieces.push(collapsePlain(text.slice(at, start)), text.slice(start, end));
    at = end;
  }
  if (comment >= 0) {
    const gap = collapsePlain(text.slice(at, comment));
    pieces.push(gap === " " ? "  " : gap, text.slice(comment));
  } else {
    pieces.push(collapsePlain(text.slice(at)));
  }
  return pieces;
}

/** @returns undefined when something other than plain blanks parts the cells: such a row is not aligned */
function rowOf(head: string, pieces: readonly string[], count: number): Row | undefined {
  if (pieces[0] !== "") return undefined;
  const cells: string[] = [];
  for (let i = 0; i < count; i++) {
    if (i > 0 && pieces[2 * i] !== " ") return undefined;
    cells.push(pieces[2 * i + 1]);
  }
  return { head, cells, rest: pieces.slice(2 * count).join("") };
}

function alignRows(table: readonly Laid[], out: string[]): void {
  const widths: number[] = [];
  for (const { row } of table) {
    if (!row) continue;
    for (const [column, cell] of row.cells.entries()) {
      const width = columnWidth(cell, WIDEST_CELL);
      if (width <= WIDEST_CELL) widths[column] = Math.max(widths[column] ?? 0, width);
    }
  }
  for (const { text, row } of table) out.push(row ? printRow(row, widths) : text);
}

function printRow(row: Row, widths: readonly number[]): string {
  let text = row.head;
  for (const [column, cell] of row.cells.entries()) {
    const pad = " ".repeat(Math.max(0, (widths[column] ?? 0) - columnWidth(cell, WIDEST_CELL)));
    // Labels are read from the margin, figures from their last digit.
    if (column === 0) text += row.cells.length > 1 ? cell + pad : cell;
    else text += ` ${pad}${cell}`;
  }
  return text + row.rest;
}
