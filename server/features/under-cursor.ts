/** What stands under the cursor: the line read into tokens and fields, the block, the line's number within it. Shared by all features. */

import { type Field, type Plan, parseLine, scanned } from "../../grammar/line-parser.ts";
import type { BlockKind } from "../../grammar/words.ts";
import { scopeOf } from "../facts/refs.ts";
import type { At, Block, WorkBlock } from "../facts/types.ts";
import { atOf, type BlockEntry, blockAt, type ShopDocument } from "../workspace/workspace.ts";
import type { Context, Position, Range } from "./feature.ts";

export interface Token {
  readonly type: number;
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/** A line with its tokens; unlike the scanner's own arrays these stay as they are. */
export interface ReadLine {
  readonly text: string;
  readonly plan: Plan;
  readonly tokens: readonly Token[];
  /** Where the comment begins, or -1. */
  readonly comment: number;
}

export function readLine(text: string): ReadLine {
  const plan = parseLine(text);
  const tokens: Token[] = [];
  for (let i = 0; i < scanned.count; i++) {
    const from = scanned.starts[i];
    const to = scanned.ends[i];
    tokens.push({ type: scanned.types[i], from, to, text: text.slice(from, to) });
  }
  return { text, plan, tokens, comment: scanned.comment };
}

/** Columns of a field. */
export function columnsOfField(line: ReadLine, field: Field): { readonly from: number; readonly to: number } {
  const first = line.tokens[field.from];
  const last = line.tokens[Math.max(field.to - 1, field.from)];
  return { from: first?.from ?? 0, to: last?.to ?? first?.to ?? 0 };
}

export function textOfField(line: ReadLine, field: Field | undefined): string {
  if (!field) return "";
  const { from, to } = columnsOfField(line, field);
  return line.text.slice(from, to);
}

/** Text without its quotes; doubled quotes are one. */
export function unquoted(text: string): string {
  return text.startsWith('"')
    ? text.slice(1, text.length > 1 && text.endsWith('"') ? -1 : undefined).replaceAll('""', '"')
    : text;
}

export interface UnderCursor extends ReadLine {
  readonly document: ShopDocument;
  readonly line: number;
  /** Undefined in an empty file. */
  readonly entry: BlockEntry | undefined;
  readonly block: Block | undefined;
  /** The line within its block; undefined for blank lines and notes. */
  readonly at: At | undefined;
  /** The token in which the cursor stands or at whose end it stands; -1 for none. */
  readonly token: number;
  readonly field: Field | undefined;
  /** Of a table row: which cell, 0 the first; -1 elsewhere. */
  readonly cell: number;
}

/** @returns undefined when the file or the line is not there */
export function underCursor(ctx: Context, path: string, position: Position): UnderCursor | undefined {
  const document = ctx.checker.workspace.document(path);
  const text = document?.lines[position.line];
  if (!document || text === undefined) return undefined;
  const read = readLine(text);
  const entry = blockAt(document, position.line);
  // Of two tokens that touch at the cursor the one behind it is meant, as an editor marks the word.
  let token = read.tokens.findIndex((one) => position.character >= one.from && position.character < one.to);
  if (token < 0) token = read.tokens.findIndex((one) => position.character === one.to);
  const field = token < 0 ? undefined : read.plan.fields.find((one) => token >= one.from && token < one.to);
  const cells = read.plan.fields.filter((one) => one.role === "cell");
  return {
    ...read,
    document,
    line: position.line,
    entry,
    block: entry?.facts,
    at: entry && atOf(entry, position.line),
    token,
    field,
    cell: read.plan.kind === "row" && field?.role === "cell" ? cells.indexOf(field) : -1,
  };
}

/** The first word of a line in the spelling of the table of words; `""` for rows and unknown lines. */
export function leadWord(line: Pick<ReadLine, "plan">): string {
  return line.plan.row?.word ?? "";
}

/** The heading of the table to which a row belongs, as a line of the document; undefined where there is none. */
export function headingOf(
  document: ShopDocument,
  entry: BlockEntry,
  line: number,
): { readonly line: number; readonly read: ReadLine } | undefined {
  for (let i = line - 1; i >= entry.from; i--) {
    const read = readLine(document.lines[i] ?? "");
    if (read.plan.kind === "blank" || read.plan.kind === "row") continue;
    const word = leadWord(read);
    if (read.plan.row?.opensTable) return { line: i, read };
    // Notes and the day line of a log do not end a table.
    if (word !== "note" && word !== "date") return undefined;
  }
  return undefined;
}

export function isWorkBlock(block: Block | undefined): block is WorkBlock {
  return block?.kind === "entry" || block?.kind === "run" || block?.kind === "release" || block?.kind === "dispatch";
}

/** The job or engine in whose scope the names of a block stand; `""` outside any. */
export function scopeOfBlock(block: Block | undefined): string {
  if (isWorkBlock(block)) return block.job === "" && block.engine === "" ? "" : scopeOf(block);
  if (block?.kind === "job") return block.name;
  if (block?.kind === "account") return block.job;
  return "";
}

/** Kinds that a header word opens; the others are made by the reader. */
export function blockKind(block: Block | undefined): BlockKind | undefined {
  return block === undefined || block.kind === "unnamed" || block.kind === "preface" ? undefined : block.kind;
}

export function rangeOn(line: number, from: number, to: number): Range {
  return { start: { line, character: from }, end: { line, character: to } };
}

export function isWithinRange(range: Range, position: Position): boolean {
  const { start, end } = range;
  if (position.line < start.line || position.line > end.line) return false;
  return (
    (position.line > start.line || position.character >= start.character) &&
    (position.line < end.line || position.character <= end.character)
  );
}
