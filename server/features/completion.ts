/** What may be typed next: words of the block, names that fit the place, places not yet measured, whole sheets. */
import { expectedAfter } from "../../grammar/expect.ts";
import { T } from "../../grammar/tokens.ts";
import { jobContext } from "../totals/job-context.ts";
import { type BlockEntry, blockAt } from "../workspace/workspace.ts";
import { offer, type Typing } from "./completion/context.ts";
import { lineStart } from "./completion/line-start.ts";
import { valuesFor } from "./completion/values.ts";
import type { Completion, Context, Position } from "./feature.ts";
import { isWorkBlock, leadWord, rangeOn, readLine, scopeOfBlock } from "./under-cursor.ts";

/** Where the word that is being typed begins: a blank outside quotes ends the word before, as does a comma between items, but not one in brackets. */
function wordStart(text: string, character: number): number {
  let quoted = -1;
  let bracket = false;
  let start = 0;
  for (let i = 0; i < character; i++) {
    const ch = text[i];
    if (ch === '"') quoted = quoted < 0 ? i : -1;
    else if (quoted >= 0) continue;
    else if (ch === "[" || ch === "]") bracket = ch === "[";
    else if (ch === " " || ch === "\t" || (ch === "," && !bracket) || ch === ";") {
      start = i + 1;
      bracket = false;
    }
  }
  return quoted >= 0 ? Math.max(start, quoted) : start;
}

/** A half-typed header is a line of the block above until it can be read; a whole one opens its own. */
function entryFor(ctx: Context, path: string, line: number): BlockEntry | undefined {
  const document = ctx.checker.workspace.document(path);
  const entry = document && blockAt(document, line);
  if (!document || !entry || entry.from !== line || line === 0) return entry;
  return readLine(document.lines[line] ?? "").plan.kind === "header" && entry.facts.kind !== "unnamed"
    ? entry
    : blockAt(document, line - 1);
}

/** The job or engine that a header names although the line cannot be read yet. */
function scopeWritten(text: string): string {
  const { plan, tokens } = readLine(text);
  if (plan.kind !== "header") return "";
  const after = (word: string): string =>
    tokens[tokens.findIndex((token, i) => i > 0 && token.text === word) + 1 || tokens.length]?.text ?? "";
  const job = after("job");
  return job !== "" ? job : after("engine") === "" ? "" : `engine:${after("engine")}`;
}

function typeFor(typing: Pick<Typing, "block" | "ask" | "scope">): string {
  const { block, ask, scope } = typing;
  if (block?.kind === "engine-type") return block.name;
  if (block && "type" in block && block.type !== "") return block.type;
  return ask.total(jobContext, scope).type;
}

/**
 * @param position the cursor; what stands behind it on the line is not looked at
 * @returns empty inside comments, notes and free text
 */
export function completion(ctx: Context, path: string, position: Position): Completion[] {
  const { ask, workspace } = ctx.checker;
  const document = workspace.document(path);
  const text = document?.lines[position.line];
  if (!document || text === undefined) return [];
  const character = Math.min(position.character, text.length);
  const upTo = readLine(text.slice(0, character));
  if (upTo.comment >= 0) return [];
  const start = wordStart(text, character);
  const before = readLine(text.slice(0, start));
  const entry = entryFor(ctx, path, position.line);
  const block = entry?.facts;
  // A header line names its job behind the cursor perhaps: until then the block above says which one is meant.
  const above =
    entry && entry.from === position.line && entry.from > 0 && scopeOfBlock(block) === ""
      ? blockAt(document, entry.from - 1)?.facts
      : undefined;
  const scope = scopeOfBlock(block) || scopeWritten(text) || scopeOfBlock(above);
  const work = isWorkBlock(block) ? block : undefined;
  const typing: Typing = {
    ask,
    before,
    typed: text.slice(start, character),
    range: rangeOn(position.line, start, character),
    block,
    work,
    scope,
    type: typeFor({ block, ask, scope }),
    day: work?.date ?? ask.asOf(),
    lines: document.lines,
    line: position.line,
    blockFrom: entry?.from ?? 0,
  };
  if (before.tokens.length === 0) return typing.typed.startsWith('"') ? [] : lineStart(typing, document, entry);
  if (leadWord(before) === "note") return [];
  const first = before.tokens[0];
  const isRow = first !== undefined && (first.type === T.Number || first.type === T.Label || first.type === T.Time);
  const types = before.tokens.map((token) => token.type);
  const expected = expectedAfter(isRow ? undefined : first?.text, types, types.length);
  const found: Completion[] = [];
  const seen = new Set<string>();
  const add = (one: Completion): void => {
    // Within quotes only text is offered, and text only there or where nothing is typed yet.
    if (typing.typed.startsWith('"') !== one.label.startsWith('"') && typing.typed !== "") return;
    if (seen.has(one.label)) return;
    seen.add(one.label);
    found.push(one);
  };
  for (const one of expected) if (one.kind === "value") for (const value of valuesFor(typing, one)) add(value);
  for (const [i, one] of expected.entries()) {
    if (one.kind === "keyword")
      add(
        offer(
          typing,
          { label: one.word, kind: "word", insert: one.word, detail: one.role === undefined ? "" : one.role },
          8,
          i,
        ),
      );
  }
  return found;
}
