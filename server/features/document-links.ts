/** Links of a file: the photos and logs that it names, and the blocks that its names mean. */
import type { Context, DocumentLink } from "./feature.ts";
import { blockOf, namesInLine } from "./names.ts";
import { leadWord, type ReadLine, rangeOn, readLine, unquoted } from "./under-cursor.ts";

/** Names that lead to another block; a feature or a role leads to no one place. */
const LEADS: ReadonlySet<string> = new Set([
  "job",
  "engine",
  "work",
  "instrument",
  "stand",
  "route",
  "limits",
  "run-in",
  "task",
  "bulletin",
  "engine-type",
  "person",
]);

const FILES: Readonly<Record<string, string>> = { photo: "path", log: "file" };

/** A path that leads out of the shop, or that is no plain path, is never made a link. */
function isInside(path: string): boolean {
  return path !== "" && !/^([a-z][a-z0-9+.-]*:|[\\/~])/iu.test(path) && !path.split(/[\\/]/u).includes("..");
}

function fileLink(read: ReadLine, line: number): DocumentLink | undefined {
  const field = read.plan.by[FILES[leadWord(read)] ?? ""];
  const token = field && read.tokens[field.from];
  const path = token ? unquoted(token.text) : "";
  if (!token || !isInside(path)) return undefined;
  const end = token.text.length > 1 && token.text.endsWith('"') ? token.to - 1 : token.to;
  return {
    range: rangeOn(line, token.from + 1, end),
    path,
    line: undefined,
    tooltip: leadWord(read) === "photo" ? "Open the picture" : "Open the log",
  };
}

export function documentLinks(ctx: Context, path: string): DocumentLink[] {
  const document = ctx.checker.workspace.document(path);
  const found: DocumentLink[] = [];
  for (const entry of document?.blocks ?? []) {
    for (let line = entry.from; line < entry.to; line++) {
      const read = readLine(document?.lines[line] ?? "");
      if (read.tokens.length < 2 || read.plan.kind === "row") continue;
      const file = fileLink(read, line);
      if (file) found.push(file);
      for (const name of namesInLine(read, entry.facts, ctx.checker.ask)) {
        if (
          name.declares ||
          !LEADS.has(name.kind) ||
          found.some((one) => one.range.start.line === line && one.range.start.character === name.from)
        )
          continue;
        const to = blockOf(ctx, name.kind, name.key);
        if (!to || to === entry) continue;
        found.push({
          range: rangeOn(line, name.from, name.to),
          path: to.document.path,
          line: to.from,
          tooltip: `Go to ${name.kind === "work" ? to.facts.ref : `${name.kind} ${name.name}`}`,
        });
      }
    }
  }
  return found;
}
