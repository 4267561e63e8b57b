/** Where a digit is typed: at the end of the last decimal number of rows and of `measure` lines. */

const READING = /^\s+(?:measure\b|\d+ ).*\d\.\d/u;
const LAST_DECIMAL = /^(.*\d\.\d+)(?!.*\d\.\d)/u;

export interface TypingPlace {
  readonly line: number;
  readonly character: number;
}

/** Places in all lines that hold a reading. */
export function readingAt(lines: readonly string[]): TypingPlace[] {
  const at: TypingPlace[] = [];
  for (const [line, text] of lines.entries()) {
    const before = READING.test(text) ? LAST_DECIMAL.exec(text)?.[1] : undefined;
    if (before !== undefined) at.push({ line, character: before.length });
  }
  return at;
}
