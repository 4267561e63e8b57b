/** The outline of a file: blocks, and in them the lines that a reader looks for. */

import { opensBlock } from "../../grammar/document.ts";
import type { BlockEntry } from "../workspace/workspace.ts";
import type { Context, Symbol as Item } from "./feature.ts";
import { isWorkBlock, leadWord, rangeOn, readLine, textOfField, unquoted } from "./under-cursor.ts";

/** Lines that are items of their own, and the role that names them. */
const ITEMS: Readonly<Record<string, string>> = {
  grid: "head",
  log: "",
  compression: "method",
  defect: "name",
  concession: "name",
  limit: "place",
  torque: "place",
  step: "name",
  places: "place",
  channel: "place",
  role: "role",
};

/** The name of a block as it is called elsewhere. */
export function blockName(entry: BlockEntry): string {
  const { facts } = entry;
  if (facts.kind === "shop") return facts.title || "shop";
  if (facts.kind === "unnamed") return "(cannot be read)";
  if (isWorkBlock(facts) && (facts.kind === "release" || facts.kind === "dispatch"))
    return `${facts.kind} ${facts.job}`;
  return facts.kind === "limits" || facts.kind === "account"
    ? `${facts.kind} ${facts.name.replace("/", " revision ")}`
    : facts.name || facts.kind;
}

/** The last line of a block that says something. */
function lastLine(entry: BlockEntry): number {
  const { lines } = entry.document;
  let last = entry.to - 1;
  while (last > entry.from && (lines[last] ?? "").trim() === "") last--;
  return last;
}

function items(entry: BlockEntry): Item[] {
  const { lines, path } = entry.document;
  const found: Item[] = [];
  const last = lastLine(entry);
  for (let i = entry.from + 1; i <= last; i++) {
    const text = lines[i] ?? "";
    const read = readLine(text);
    const word = leadWord(read);
    const role = ITEMS[word];
    if (role === undefined || read.plan.kind !== "member") continue;
    let end = i;
    if (read.plan.row?.opensTable)
      while (end < last && ["row", "blank"].includes(readLine(lines[end + 1] ?? "").plan.kind)) end++;
    while (end > i && (lines[end] ?? "").trim() === "") end--;
    const field = read.plan.by[role];
    const stat = read.plan.by.stat;
    const name = [textOfField(read, stat), textOfField(read, field)].filter((part) => part !== "").join(" ");
    const about = unquoted(textOfField(read, read.plan.by.about ?? read.plan.by.title));
    found.push({
      name: name === "" ? word : name,
      detail: about === "" ? word : `${word} ${about}`,
      kind: word,
      path,
      range: { start: { line: i, character: 0 }, end: { line: end, character: (lines[end] ?? "").length } },
      selection: rangeOn(i, read.tokens[0]?.from ?? 0, read.tokens.at(-1)?.to ?? text.length),
      children: [],
    });
  }
  return found;
}

export function documentSymbols(ctx: Context, path: string): Item[] {
  const document = ctx.checker.workspace.document(path);
  return (document?.blocks ?? []).flatMap((entry): Item[] => {
    const { facts } = entry;
    if (facts.kind === "preface" || !opensBlock(document?.leads[entry.from] ?? 0)) return [];
    const text = document?.lines[entry.from] ?? "";
    const read = readLine(text);
    const end = lastLine(entry);
    return [
      {
        name: blockName(entry),
        detail: facts.title,
        kind: facts.kind,
        path,
        range: {
          start: { line: entry.from, character: 0 },
          end: { line: end, character: (document?.lines[end] ?? "").length },
        },
        selection: rangeOn(entry.from, read.tokens[0]?.from ?? 0, read.tokens.at(-1)?.to ?? text.length),
        children: items(entry),
      },
    ];
  });
}
