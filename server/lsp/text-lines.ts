/** The lines of an open document as the editor has them, kept apart from the checker's so that they outlive its failures. */

export interface Place {
  readonly line: number;
  readonly character: number;
}

/** A change as the protocol sends it; without a range it is the whole text. */
export interface ContentChange {
  readonly range?: { readonly start: Place; readonly end: Place };
  readonly text: string;
}

/** Lines that were replaced. */
export interface LineEdit {
  readonly from: number;
  readonly count: number;
  readonly lines: readonly string[];
}

/** Splits at LF, CRLF and CR, as the protocol counts lines. */
export function linesOf(text: string): string[] {
  return text.includes("\r") ? text.split(/\r\n|\n|\r/u) : text.split("\n");
}

/** Without the byte-order mark, which an editor does not count as a character. */
export function withoutMark(text: string): string {
  return text.charCodeAt(0) === 0xfeff ? text.slice(1) : text;
}

function clamp(value: number, least: number, most: number): number {
  return Math.max(least, Math.min(value, most));
}

/**
 * What a change does to lines. Positions beyond the text count as its end, as the protocol asks.
 * @throws TypeError when a position is no whole number: the editor and the server no longer agree on the text
 */
export function lineEditOf(lines: readonly string[], change: ContentChange): LineEdit {
  if (change.range === undefined) return { from: 0, count: lines.length, lines: linesOf(change.text) };
  const { start, end } = change.range;
  for (const place of [start, end]) {
    if (!Number.isInteger(place.line) || !Number.isInteger(place.character))
      throw new TypeError("a change without whole positions");
  }
  const last = lines.length - 1;
  const first = clamp(start.line, 0, last);
  const final = clamp(end.line, first, last);
  const head = lines[first].slice(0, start.line > last ? undefined : Math.max(0, start.character));
  const tail = end.line > last ? "" : lines[final].slice(Math.max(0, end.character));
  return { from: first, count: final - first + 1, lines: linesOf(head + change.text + tail) };
}

/** Carries out an edit without spreading a long list into arguments. */
export function applyLineEdit(lines: string[], edit: LineEdit): void {
  if (edit.lines.length < 10_000) {
    lines.splice(edit.from, edit.count, ...edit.lines);
    return;
  }
  const tail = lines.slice(edit.from + edit.count);
  lines.length = edit.from;
  for (const line of edit.lines) lines.push(line);
  for (const line of tail) lines.push(line);
}
