/** What a growing selection takes in: the word, the field, the line, the table, the block, the file. */
import type { Context, Position, Range } from "./feature.ts";
import { columnsOfField, headingOf, isWithinRange, rangeOn, readLine, underCursor } from "./under-cursor.ts";

function isLarger(outer: Range, inner: Range): boolean {
  return (
    isWithinRange(outer, inner.start) &&
    isWithinRange(outer, inner.end) &&
    (outer.start.line !== inner.start.line ||
      outer.start.character !== inner.start.character ||
      outer.end.line !== inner.end.line ||
      outer.end.character !== inner.end.character)
  );
}

function rangesAt(ctx: Context, path: string, position: Position): Range[] {
  const under = underCursor(ctx, path, position);
  if (!under) return [];
  const { document, entry, line, text, tokens, token, field } = under;
  const { lines } = document;
  const whole = (from: number, to: number): Range => ({
    start: { line: from, character: 0 },
    end: { line: to, character: (lines[to] ?? "").length },
  });
  const steps: Range[] = [];
  const here = tokens[token];
  if (here) {
    const quoted = here.text.startsWith('"') && here.text.length > 2 && here.text.endsWith('"');
    if (quoted && position.character > here.from && position.character < here.to)
      steps.push(rangeOn(line, here.from + 1, here.to - 1));
    steps.push(rangeOn(line, here.from, here.to));
  }
  if (field) {
    const { from, to } = columnsOfField(under, field);
    steps.push(rangeOn(line, from, to));
  }
  const first = tokens[0];
  const last = tokens.at(-1);
  if (first && last) steps.push(rangeOn(line, first.from, last.to));
  steps.push(rangeOn(line, 0, text.length));
  if (entry) {
    const heading = under.plan.row?.opensTable ? line : headingOf(document, entry, line)?.line;
    if (heading !== undefined) {
      let end = heading;
      for (let i = heading + 1; i < entry.to; i++) {
        const kind = readLine(lines[i] ?? "").plan.kind;
        if (kind === "row") end = i;
        else if (kind !== "blank") break;
      }
      if (line <= end && end > heading) steps.push(whole(heading, end));
    }
    let end = entry.to - 1;
    while (end > entry.from && (lines[end] ?? "").trim() === "") end--;
    steps.push(whole(entry.from, Math.max(end, line)));
  }
  steps.push(whole(0, lines.length - 1));
  const grown: Range[] = [];
  for (const step of steps) {
    const inner = grown.at(-1);
    if (!inner || isLarger(step, inner)) grown.push(step);
  }
  return grown;
}

/** @returns for each position its ranges, the innermost first */
export function selectionRanges(ctx: Context, path: string, positions: readonly Position[]): Range[][] {
  return positions.map((position) => rangesAt(ctx, path, position));
}
