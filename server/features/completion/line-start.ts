/** The first word of a line: rows of the table above, words of the block, headers. */
import { WORDS, type WordRow } from "../../../grammar/words.ts";
import type { BlockEntry, ShopDocument } from "../../workspace/workspace.ts";
import type { Completion } from "../feature.ts";
import { labelsIn, tableAt } from "../tables.ts";
import { blockKind } from "../under-cursor.ts";
import { literal, offer, type Typing } from "./context.ts";
import { entrySheets, nextEntry, runCard, signLines } from "./sheets.ts";

const documentation = (row: WordRow): string => [row.says, "", "```gudgeon", ...row.examples, "```"].join("\n");

function words(typing: Typing, rows: readonly WordRow[], rank: number): Completion[] {
  return rows.flatMap((row, i) =>
    [row.word, ...(row.also ?? [])].map((word, k) =>
      offer(
        typing,
        { label: word, kind: "word", insert: `${word} `, detail: row.says, documentation: documentation(row) },
        rank + (k > 0 ? 1 : 0),
        i,
      ),
    ),
  );
}

/** Rows of the table above that are not there yet, with a `?` in each cell. */
function rows(typing: Typing, document: ShopDocument, entry: BlockEntry | undefined): Completion[] {
  const table = entry && tableAt(typing.ask, typing.type, document, entry, typing.line);
  if (!table) return [];
  const there = labelsIn(document.lines, table.heading, typing.line);
  const missing = table.labels.filter((label) => !there.has(label));
  const row = (label: string): string => `${literal(label)}${/^\d+$/u.test(label) ? "" : ":"}`;
  const one = missing.map((label, i) => {
    const stops = Array.from({ length: table.cells }, (_, k) => ` \${${k + 1}:?}`).join("");
    return offer(
      typing,
      {
        label: `${label}${" ?".repeat(table.cells)}`,
        kind: "snippet",
        snippet: true,
        insert: row(label) + stops,
        detail: "row still to be taken",
      },
      0,
      i + 1,
    );
  });
  if (missing.length < 2) return one;
  let stop = 0;
  const all = missing
    .map((label) => row(label) + Array.from({ length: table.cells }, () => ` \${${++stop}:?}`).join(""))
    .join("\n  ");
  return [
    offer(
      typing,
      {
        label: `rows ${missing[0]} to ${missing.at(-1)}`,
        kind: "snippet",
        snippet: true,
        insert: all,
        detail: `all ${missing.length} rows that are not there yet`,
      },
      0,
      0,
    ),
    ...one,
  ];
}

/** @param entry the block in which the line stands */
export function lineStart(typing: Typing, document: ShopDocument, entry: BlockEntry | undefined): Completion[] {
  const kind = blockKind(typing.block);
  const members = WORDS.filter((row) => row.kind === "member" && kind !== undefined && row.blocks.includes(kind));
  const headers = WORDS.filter((row) => row.kind === "header");
  return [
    ...rows(typing, document, entry),
    ...entrySheets(typing),
    ...signLines(typing),
    ...words(typing, members, 5),
    ...nextEntry(typing),
    ...runCard(typing),
    ...words(typing, headers, 9),
  ];
}
