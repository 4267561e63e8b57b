/** Where in a file a spot is, worked out from the text as it is now. */
import type { Field } from "../../grammar/line-parser.ts";
import { parseLine, scanned } from "../../grammar/line-parser.ts";
import type { Spot } from "../rules/rule.ts";
import { type BlockEntry, lineOf } from "./workspace.ts";

export interface Located {
  readonly line: number;
  readonly from: number;
  readonly to: number;
}

/** @returns the columns of the field or cell that the spot names, or of the whole content of its line */
export function locate(entry: BlockEntry, spot: Spot): Located {
  const line = lineOf(entry, spot.at);
  const text = entry.document.lines[line] ?? "";
  if (spot.from !== undefined && spot.to !== undefined)
    return { line, from: Math.min(spot.from, text.length), to: Math.min(spot.to, text.length) };
  const known = columns.get(spot);
  if (known && known.text === text) return { line, from: known.from, to: known.to };
  const { from, to } = columnsIn(text, spot);
  columns.set(spot, { text, from, to });
  return { line, from, to };
}

/** Columns found before, as long as the line reads the same: a file's findings are located again after every edit of it. */
const columns = new WeakMap<Spot, { readonly text: string; readonly from: number; readonly to: number }>();

/** The columns of a spot within the text of its line. */
export function columnsIn(text: string, spot: Omit<Spot, "at">): { from: number; to: number } {
  if (spot.from !== undefined && spot.to !== undefined) return { from: spot.from, to: spot.to };
  const plan = parseLine(text);
  if (scanned.count === 0) return { from: 0, to: text.length };
  let field: Field | undefined;
  if (spot.cell !== undefined && spot.cell >= 0) field = plan.fields.filter((one) => one.role === "cell")[spot.cell];
  else if (spot.role !== undefined) field = plan.fields.filter((one) => one.role === spot.role)[spot.nth ?? 0];
  const first = field ? field.from : 0;
  const last = field ? Math.max(field.to - 1, field.from) : scanned.count - 1;
  return { from: scanned.starts[first], to: scanned.ends[last] };
}
