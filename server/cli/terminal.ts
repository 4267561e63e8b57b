/** What the command knows of the terminal it writes to. */

import process from "node:process";
import { styleText } from "node:util";

type Style = Parameters<typeof styleText>[0];

/** Colours are for people: never into a file or a pipe, and never where NO_COLOR is set. */
const coloured = (stream: NodeJS.WriteStream): boolean =>
  stream.isTTY === true && (process.env["NO_COLOR"] ?? "") === "";

/** @returns the text in a style where standard output is a terminal */
export function style(format: Style, text: string): string {
  return coloured(process.stdout) ? styleText(format, text, { validateStream: false }) : text;
}

const OBEYED = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/gu;

/**
 * Text from a record without what a terminal would obey: records come from others, and an escape sequence in one must not move the cursor,
 * change colours or set a title.
 */
export function plain(text: string): string {
  return text.replace(OBEYED, (ch) => `\\u${ch.charCodeAt(0).toString(16).padStart(4, "0")}`);
}

/** Writes to standard output; large texts in pieces, since a pipe may be slower than the checker. */
export function write(text: string): void {
  process.stdout.write(text);
}

/** A line of progress on a terminal, overwritten by the next; nothing elsewhere. */
export function progress(text: string): void {
  if (process.stderr.isTTY === true) process.stderr.write(`\r\u001b[K${text}`);
}

/** A message that the command could not do what it was asked. */
export class Refusal extends Error {}
