/** Blocks, defects and concessions of the whole shop whose names or titles hold what was typed. */
import { shortRef } from "../facts/refs.ts";
import type { BlockEntry } from "../workspace/workspace.ts";
import type { Context, Symbol as Item } from "./feature.ts";
import { lineLocation } from "./names.ts";
import { isWorkBlock, rangeOn, readLine } from "./under-cursor.ts";

/** A list that is longer helps nobody; the editor asks again with more typed. */
const AT_MOST = 500;

/** Whether the letters of the query stand in the name in that order, as editors match names. */
function matches(text: string, query: string): boolean {
  let at = 0;
  const low = text.toLowerCase();
  for (const ch of query) {
    at = low.indexOf(ch, at);
    if (at < 0) return false;
    at += ch.length;
  }
  return true;
}

/** Titles are searched for whole words: letters in order would find nearly every sentence. */
function tells(title: string, query: string): boolean {
  return title.toLowerCase().replaceAll(/\s+/gu, "").includes(query);
}

/** Names of blocks as they are called across the shop. */
function nameOf(entry: BlockEntry): string {
  const { facts } = entry;
  if (isWorkBlock(facts)) return facts.ref.replace(/^engine:/u, "");
  if (facts.kind === "limits") return `${facts.type} revision ${facts.revision}`;
  return facts.kind === "shop" ? facts.title : facts.kind === "account" ? `account ${facts.job}` : facts.name;
}

export function workspaceSymbols(ctx: Context, query: string): Item[] {
  const wanted = query.trim().toLowerCase().replaceAll(/\s+/gu, "");
  const found: Item[] = [];
  for (const path of [...ctx.checker.workspace.documents.keys()].sort()) {
    const document = ctx.checker.workspace.document(path);
    for (const entry of document?.blocks ?? []) {
      if (found.length >= AT_MOST) return found;
      const { facts } = entry;
      if (facts.kind === "preface" || facts.kind === "unnamed") continue;
      const name = nameOf(entry);
      if (name !== "" && (matches(name, wanted) || tells(facts.title, wanted))) {
        const text = document?.lines[entry.from] ?? "";
        const { tokens } = readLine(text);
        const range = rangeOn(entry.from, tokens[0]?.from ?? 0, tokens.at(-1)?.to ?? text.length);
        found.push({ name, detail: facts.title, kind: facts.kind, path, range, selection: range, children: [] });
      }
      if (!isWorkBlock(facts)) continue;
      for (const [kind, list] of [
        ["defect", facts.defects],
        ["concession", facts.concessions],
      ] as const) {
        for (const one of list) {
          const full = `${facts.ref.slice(0, facts.ref.length - shortRef(facts.ref).length)}${one.name}`.replace(
            /^engine:/u,
            "",
          );
          const about = "about" in one ? one.about : one.reason;
          if (!matches(full, wanted) && !tells(about, wanted)) continue;
          const { range } = lineLocation(ctx, entry, one.at, kind);
          found.push({ name: full, detail: about, kind, path, range, selection: range, children: [] });
        }
      }
    }
  }
  return found;
}
