/** The first word of a line: rows of the table above, words of the block, headers. */
import { WORDS, type WordRow } from "../../../grammar/words.ts";
import { parsePlace, pathsOf } from "../../facts/place.ts";
import { cylinderNumbers } from "../../totals/engine-shape.ts";
import { placesOfType } from "../../totals/coverage.ts";
import type { BlockEntry, ShopDocument } from "../../workspace/workspace.ts";
import type { Completion } from "../feature.ts";
import { blockKind, headingOf, leadWord, type ReadLine, readLine } from "../under-cursor.ts";
import { literal, offer, type Typing } from "./context.ts";
import { entrySheets, nextEntry, runCard, signLines } from "./sheets.ts";

const documentation = (row: WordRow): string => [row.says, "", "```gudgeon", ...row.examples, "```"].join("\n");

function words(typing: Typing, rows: readonly WordRow[], rank: number): Completion[] {
  return rows.flatMap((row, i) => [row.word, ...(row.also ?? [])].map((word, k) => offer(typing, { label: word, kind: "word", insert: `${word} `, detail: row.says, documentation: documentation(row) }, rank + (k > 0 ? 1 : 0), i)));
}

/** Labels that stand in a table already. */
function labelsBelow(typing: Typing, heading: number): ReadonlySet<string> {
  const labels = new Set<string>();
  for (let i = heading + 1; i < typing.lines.length; i++) {
    if (i === typing.line) continue;
    const read = readLine(typing.lines[i] ?? "");
    if (read.plan.kind === "blank" || leadWord(read) === "note") continue;
    if (read.plan.kind !== "row") break;
    labels.add((read.tokens[0]?.text ?? "").replace(/:$/u, ""));
  }
  return labels;
}

/** The labels that a table wants and how many cells a row has. */
function tableShape(typing: Typing, heading: ReadLine): { readonly labels: readonly string[]; readonly cells: number } | undefined {
  const word = leadWord(heading);
  if (word === "compression") return { labels: cylinderNumbers(typing.ask.engineType(typing.type)).map(String), cells: 1 };
  if (word !== "grid") return undefined;
  const head = heading.tokens[1]?.text ?? "";
  const place = parsePlace(head.replace(/\/[^\]]*$/u, ""));
  if (!place) return undefined;
  const prefix = place.levels.length > 0 ? `${pathsOf(place)[0]}/` : "";
  const depth = prefix.split("/").length - 1;
  const paths = placesOfType(typing.type, place.feature, typing.ask).filter((path) => path.startsWith(prefix));
  return { labels: [...new Set(paths.map((path) => path.split("/")[depth] ?? ""))].filter((label) => label !== ""), cells: Math.max(1, heading.plan.fields.filter((field) => field.role === "cell").length) };
}

/** Rows of the table above that are not there yet, with a `?` in each cell. */
function rows(typing: Typing, document: ShopDocument, entry: BlockEntry | undefined): Completion[] {
  const heading = entry && headingOf(document, entry, typing.line);
  const shape = heading && tableShape(typing, heading.read);
  if (!heading || !shape) return [];
  const there = labelsBelow(typing, heading.line);
  const missing = shape.labels.filter((label) => !there.has(label));
  const row = (label: string): string => `${literal(label)}${/^\d+$/u.test(label) ? "" : ":"}`;
  const one = missing.map((label, i) => {
    const stops = Array.from({ length: shape.cells }, (_, k) => ` \${${k + 1}:?}`).join("");
    return offer(typing, { label: `${label}${" ?".repeat(shape.cells)}`, kind: "snippet", snippet: true, insert: row(label) + stops, detail: "row still to be taken" }, 0, i + 1);
  });
  if (missing.length < 2) return one;
  let stop = 0;
  const all = missing.map((label) => row(label) + Array.from({ length: shape.cells }, () => ` \${${++stop}:?}`).join("")).join("\n  ");
  return [offer(typing, { label: `rows ${missing[0]} to ${missing.at(-1)}`, kind: "snippet", snippet: true, insert: all, detail: `all ${missing.length} rows that are not there yet` }, 0, 0), ...one];
}

/** @param entry the block in which the line stands */
export function lineStart(typing: Typing, document: ShopDocument, entry: BlockEntry | undefined): Completion[] {
  const kind = blockKind(typing.block);
  const members = WORDS.filter((row) => row.kind === "member" && kind !== undefined && row.blocks.includes(kind));
  const headers = WORDS.filter((row) => row.kind === "header");
  return [
    ...rows(typing, document, entry), ...entrySheets(typing), ...signLines(typing), ...words(typing, members, 5), ...nextEntry(typing), ...runCard(typing), ...words(typing, headers, 9),
  ];
}
