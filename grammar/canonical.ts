/**
 * Canonical text: what a seal is computed over. `seals.md` states the same rules for other programs.
 *
 * It is about characters, not tokens: a later version of the language, with other words, reads the same canonical text from the same lines.
 */
import {
  afterNoteWord,
  collapsePlain,
  endOfQuoted,
  isOpenQuote,
  isPlainBlank,
  isWideBlank,
  trimPlain,
} from "./blanks.ts";

/**
 * The canonical text of one line: without its comment and its layout, otherwise character for character as written.
 * @param line one line without its LF; a CR at its end is layout
 * @returns the empty string for a line that says nothing
 */
export function canonicalLine(line: string): string {
  // A byte-order mark says how a file is stored; leading ones are layout, as the blanks among them.
  const text = trimPlain(line.replace(/^[ \t\r\ufeff]+/u, ""));
  const note = afterNoteWord(text);
  if (note >= 0) return collapsePlain(text.slice(0, note)) + noteRest(text, note);
  let out = "";
  let from = 0; // what was written since is copied in one piece
  let i = 0;
  while (i < text.length) {
    const code = text.charCodeAt(i);
    if (isPlainBlank(code)) {
      out += `${text.slice(from, i)} `;
      while (i < text.length && isPlainBlank(text.charCodeAt(i))) i++;
      from = i;
    } else if (code === 0x23 && (i === 0 || isWideBlank(text.charCodeAt(i - 1)))) {
      return trimPlain(out + text.slice(from, i));
    } else if (isOpenQuote(code)) {
      i = endOfQuoted(text, i);
    } else {
      i++;
    }
  }
  return out + text.slice(from);
}

/** The text of a note as it stands, with the blanks between the word and it as one space. */
export function noteRest(text: string, from: number): string {
  let i = from;
  while (i < text.length && isPlainBlank(text.charCodeAt(i))) i++;
  return (i > from ? " " : "") + text.slice(i);
}

/**
 * The canonical text of a block, or of the part of it above a `sign` line.
 * @param lines the lines from the header on, without their LF
 * @returns the canonical lines that are not empty, joined with LF, without one at the end
 */
export function canonicalBlock(lines: readonly string[]): string {
  const kept: string[] = [];
  for (const line of lines) {
    const text = canonicalLine(line);
    if (text !== "") kept.push(text);
  }
  return kept.join("\n");
}

/** A block that a release relies on: an entry or run by its seal, any other block by the digest of its canonical text. */
export interface ReliedOn {
  /** The header word of the block, such as `entry` or `limits`. */
  readonly block: string;
  /** What names the block: `E3`; for limits the type, `revision` and the revision (`Curlew-9 revision C`). */
  readonly name: string;
  /** 64 lower-case hexadecimal digits. */
  readonly digest: string;
}

/**
 * The canonical text of a release: its own block, then a line for every block that it relies on, in the order of their characters (UTF-16
 * code units), whatever order they were found in.
 */
export function canonicalRelease(lines: readonly string[], reliedOn: readonly ReliedOn[]): string {
  const cited = reliedOn.map(({ block, name, digest }) => `relies-on ${block} ${name} 1:${digest}`).sort(byCodeUnits);
  return [canonicalBlock(lines), ...cited].join("\n");
}

const DAY = /^\d{4}-\d{2}-\d{2}$/u;

/** Words of a canonical line that hold no quoted text, with where they stand. */
function bareWords(line: string): { readonly from: number; readonly to: number; readonly text: string }[] {
  const words: { from: number; to: number; text: string }[] = [];
  let from = 0;
  let quoted = false;
  for (let i = 0; i <= line.length; ) {
    if (i === line.length || line[i] === " ") {
      if (i > from && !quoted) words.push({ from, to: i, text: line.slice(from, i) });
      from = ++i;
      quoted = false;
    } else if (isOpenQuote(line.charCodeAt(i))) {
      quoted = true;
      i = endOfQuoted(line, i);
    } else i++;
  }
  return words;
}

/**
 * The canonical text of a block that goes on growing, as it stood on a day: without notes, without lines whose first date is later, and without ends of
 * validity (`until DATE`) that had not come.
 * @param text canonical text of the whole block
 * @param day `2026-04-20`
 */
export function asOfDay(text: string, day: string): string {
  const kept: string[] = [];
  for (const [i, line] of text.split("\n").entries()) {
    if (i > 0 && afterNoteWord(line) >= 0) continue;
    const words = bareWords(line);
    const first = words.find((word) => DAY.test(word.text));
    if (i > 0 && first && first.text > day) continue;
    let out = line;
    for (let w = words.length - 1; w > 0; w--) {
      const [before, word] = [words[w - 1], words[w]];
      if (before?.text === "until" && word && before.to + 1 === word.from && DAY.test(word.text) && word.text >= day) {
        out = out.slice(0, Math.max(0, before.from - 1)) + out.slice(word.to);
      }
    }
    kept.push(out);
  }
  return kept.join("\n");
}

function byCodeUnits(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
