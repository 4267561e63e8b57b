import Fraction from "fraction.js";

/**
 * Numbers as they are written in a record.
 *
 * A record keeps the text of a number. Two readings of it are needed: a double, for anything fast or
 * drawn, and an exact rational, for anything that is compared with a limit. Both accept the same
 * spellings: an optional sign, digits, and either a point with digits on both sides or a fraction
 * such as `5/16`.
 */

const PLUS = 43;
const MINUS = 45;
const POINT = 46;
const SLASH = 47;
const ZERO = 48;
const NINE = 57;

/** Shape of a well-formed number, found in one pass over its character codes. */
type Spelling = "whole" | "decimal" | "fraction" | "none";

function spellingOf(text: string): Spelling {
  const end = text.length;
  let at = 0;
  const sign = text.charCodeAt(0);
  if (sign === PLUS || sign === MINUS) at = 1;
  const first = at;
  let code = 0;
  while (at < end) {
    code = text.charCodeAt(at);
    if (code < ZERO || code > NINE) break;
    at++;
  }
  if (at === first) return "none";
  if (at === end) return "whole";
  if (code !== POINT && code !== SLASH) return "none";
  const tail = ++at;
  while (at < end) {
    const digit = text.charCodeAt(at);
    if (digit < ZERO || digit > NINE) return "none";
    at++;
  }
  if (at === tail) return "none";
  return code === POINT ? "decimal" : "fraction";
}

/** Powers of ten that a double holds exactly. */
const POWERS_OF_TEN = Array.from({ length: 16 }, (_, power) => 10 ** power);

/**
 * Value of a written number as a double.
 *
 * The double is the one nearest to the written value for decimals (so a greater double always means
 * a greater written number). A fraction whose denominator is zero is not a number.
 *
 * @param text one number: `98.012`, `-3`, `+0.5`, `5/16`
 * @returns the value, or `NaN` if the text is not a well-formed number
 */
export function parseDecimal(text: string): number {
  return parseDecimalAt(text, 0, text.length);
}

/**
 * The same for a number that stands inside a line, without cutting it out first.
 *
 * @param line the text that holds the number
 * @param start offset of its first character
 * @param end offset after its last character
 * @returns the value, or `NaN` if that stretch is not a well-formed number
 */
export function parseDecimalAt(line: string, start: number, end: number): number {
  const sign = line.charCodeAt(start);
  const first = sign === PLUS || sign === MINUS ? start + 1 : start;
  let digits = 0;
  let point = end;
  for (let at = first; at < end; at++) {
    const code = line.charCodeAt(at);
    if (code >= ZERO && code <= NINE) digits = digits * 10 + (code - ZERO);
    else if (code === POINT && point === end) point = at;
    else return parseUnusual(line.slice(start, end));
  }
  const length = end - first - (point === end ? 0 : 1);
  if (length < 1 || length > 15 || point === first || point === end - 1) return parseUnusual(line.slice(start, end));
  // At most 15 digits and a power of ten up to 10^15 are both exact doubles, so one division rounds once, to the nearest.
  const value = point === end ? digits : digits / (POWERS_OF_TEN[end - 1 - point] ?? 1);
  return sign === MINUS ? -value : value;
}

/** Fractions, long numbers and texts that are no number. */
function parseUnusual(text: string): number {
  switch (spellingOf(text)) {
    case "whole":
    case "decimal":
      return +text;
    case "fraction": {
      const slash = text.indexOf("/");
      const below = +text.slice(slash + 1);
      return below === 0 ? Number.NaN : +text.slice(0, slash) / below;
    }
    case "none":
      return Number.NaN;
  }
}

/**
 * Exact value of a written number.
 *
 * @param text the same spellings as {@link parseDecimal} accepts
 * @returns the exact rational number
 * @throws {SyntaxError} if the text is not a well-formed number, or its denominator is zero
 */
export function exact(text: string): Fraction {
  let value = kept.get(text);
  if (value === undefined) {
    value = exactOf(text);
    if (kept.size >= KEPT_AT_MOST) kept.clear();
    kept.set(text, value);
  }
  return value;
}

/** The same readings and limits are compared again after each edit; fractions are never changed, so they can be kept. */
const kept = new Map<string, Fraction>();
const KEPT_AT_MOST = 16_384;

function exactOf(text: string): Fraction {
  switch (spellingOf(text)) {
    case "whole":
      return new Fraction(BigInt(unsigned(text)) * signOf(text), 1n);
    case "decimal": {
      const point = text.indexOf(".");
      const places = text.length - point - 1;
      const digits = unsigned(text.slice(0, point)) + text.slice(point + 1);
      return new Fraction(BigInt(digits) * signOf(text), 10n ** BigInt(places));
    }
    case "fraction": {
      const slash = text.indexOf("/");
      const below = BigInt(text.slice(slash + 1));
      if (below === 0n) throw new SyntaxError(`"${text}" divides by zero`);
      return new Fraction(BigInt(unsigned(text.slice(0, slash))) * signOf(text), below);
    }
    case "none":
      throw new SyntaxError(`"${text}" is not a number`);
  }
}

function signOf(text: string): bigint {
  return text.charCodeAt(0) === MINUS ? -1n : 1n;
}

function unsigned(text: string): string {
  const code = text.charCodeAt(0);
  return code === PLUS || code === MINUS ? text.slice(1) : text;
}

/**
 * True if two texts whose doubles are equal must also be equal exactly.
 *
 * A decimal of at most 15 significant digits survives the way into a double and back (IEEE 754
 * binary64, DBL_DIG = 15), so two such decimals with one double are one number. Fractions are left
 * to exact arithmetic.
 *
 * @param text a well-formed number
 */
export function isShortDecimal(text: string): boolean {
  return text.length <= 15 && !text.includes("/");
}
