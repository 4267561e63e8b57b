/** Rows that the table under the cursor lacks, each in its place, with `?` in every cell. */
import { insertBelow, sealedTo } from "../edits.ts";
import type { TextEdit } from "../feature.ts";
import { labelsIn, tableAt } from "../tables.ts";
import { type Action, refactor } from "./context.ts";

export const addRow: Action = ({ ask, type, path, range, entry }) => {
  const { document } = entry;
  const table = tableAt(ask, type, document, entry, range.start.line);
  if (!table || range.start.line <= sealedTo(entry, true)) return [];
  const there = labelsIn(document.lines, table.heading);
  const missing = table.labels.filter((label) => !there.has(label));
  if (missing.length === 0) return [];
  const row = (label: string): string => `${/^\d+$/u.test(label) ? label : `${label}:`}${" ?".repeat(table.cells)}`;
  // Rows that follow the same one go in together, so that their order is that of the type.
  const below = new Map<number, string[]>();
  let after = table.heading;
  for (const label of table.labels) {
    const line = there.get(label);
    if (line !== undefined) after = line;
    else below.set(after, [...(below.get(after) ?? []), row(label)]);
  }
  const edits: TextEdit[] = [...below].map(([line, texts]) => insertBelow(entry, line, texts));
  return refactor(
    path,
    missing.length === 1 ? `Add row ${missing[0]}, to be measured` : `Add ${missing.length} rows, to be measured`,
    edits,
  );
};
