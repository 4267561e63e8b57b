/**
 * Blanks, and where a comment or a quoted text begins and ends, by characters alone. The scanner, the formatter and the canonical text
 * agree about these, so that neither layout nor a comment ever moves a seal.
 */

/** A blank that layout may change: space, tab, and the CR of a CRLF. */
export function isPlainBlank(code: number): boolean {
  return code === 0x20 || code === 0x09 || code === 0x0d;
}

/** A blank of any kind: it parts words, and a `#` after it begins a comment. Only plain ones are layout; the others stay as written. */
export function isWideBlank(code: number): boolean {
  if (code < 0x80) return isPlainBlank(code);
  return (
    code === 0xa0 ||
    code === 0x1680 ||
    (code >= 0x2000 && code <= 0x200b) ||
    code === 0x202f ||
    code === 0x205f ||
    code === 0x3000 ||
    code === 0xfeff
  );
}

/** Opens quoted text: the straight quote, and the curly and angled ones that are read as it. */
export function isOpenQuote(code: number): boolean {
  return code === 0x22 || code === 0x201c || code === 0x201d || code === 0x201e || code === 0xab;
}

/** Closes quoted text that a curly or angled quote opened; a straight one closes any. */
export function isOddCloseQuote(code: number): boolean {
  return code === 0x201c || code === 0x201d || code === 0xbb;
}

/**
 * The end of the quoted text that opens at `from`.
 * @returns the position after its closing quote, or the length of the line when nothing closes it
 */
export function endOfQuoted(text: string, from: number): number {
  const odd = text.charCodeAt(from) !== 0x22;
  for (let i = from + 1; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (code === 0x22) {
      if (text.charCodeAt(i + 1) !== 0x22) return i + 1;
      i++; // a doubled quote is one quote inside the text
    } else if (odd && isOddCloseQuote(code)) return i + 1;
  }
  return text.length;
}

/** `text` without plain blanks at its ends. */
export function trimPlain(text: string): string {
  let from = 0;
  let to = text.length;
  while (from < to && isPlainBlank(text.charCodeAt(from))) from++;
  while (to > from && isPlainBlank(text.charCodeAt(to - 1))) to--;
  return text.slice(from, to);
}

/** `text` with each run of plain blanks as one space. */
export function collapsePlain(text: string): string {
  return text.replaceAll(/[ \t\r]+/gu, " ");
}

/**
 * Where the text of a `note` line begins.
 * @param line a line without plain blanks at its ends and without a byte-order mark
 * @returns the position after the word `note`, or -1 when the line is no note
 */
export function afterNoteWord(line: string): number {
  let i = 0;
  while (i < line.length && isWideBlank(line.charCodeAt(i))) i++;
  if (!line.startsWith("note", i)) return -1;
  const end = i + 4;
  return end === line.length || isWideBlank(line.charCodeAt(end)) ? end : -1;
}
