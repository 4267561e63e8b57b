/** A name that nobody declares, and names that are spelled nearly like it: wherever on the line it stands, also in the heading of a table. */
import { nearest } from "../../../grammar/nearest.ts";
import type { BlockKind } from "../../../grammar/words.ts";
import { sealedTo } from "../edits.ts";
import type { NameKind } from "../names.ts";
import { namesInLine } from "../names.ts";
import { rangeOn, readLine } from "../under-cursor.ts";
import type { Action } from "./context.ts";

/** Names that a block of their own declares. */
const DECLARED: ReadonlySet<NameKind> = new Set([
  "person",
  "instrument",
  "stand",
  "engine-type",
  "task",
  "bulletin",
  "route",
  "engine",
  "job",
]);
const SHOWN = 3;

export const nearestName: Action = ({ ask, path, range, entry, findings }) => {
  const line = range.start.line;
  if (line <= sealedTo(entry, true)) return [];
  const read = readLine(entry.document.lines[line] ?? "");
  return namesInLine(read, entry.facts, ask).flatMap((name) => {
    if (name.declares || !DECLARED.has(name.kind) || ask.declared(name.kind as BlockKind, name.key).refs.length > 0)
      return [];
    const finding = findings.find((one) => one.finding.code === "name/unknown");
    return nearest(name.key, ask.names(name.kind as BlockKind))
      .slice(0, SHOWN)
      .map((other) => ({
        title: `Write ${other}`,
        grade: "review" as const,
        kind: "quickfix" as const,
        edits: { [path]: [{ range: rangeOn(line, name.from, name.to), text: other }] },
        finding,
      }));
  });
};
