/**
 * The scanner: one line of text to tokens, by spelling alone.
 *
 * It works over char codes into arrays that are used again for each line, because every line of a shop's records passes through here and
 * nothing of a token is kept. The only context that a token's type depends on is the token before it: the word straight after a number is a
 * unit, unless it is a keyword that is no unit (`min` is one: after a number it is minutes, before one the bound).
 */
import { isOddCloseQuote, isOpenQuote, isPlainBlank, isWideBlank } from "./blanks.ts";
import { FIRST_KEYWORD, KEYWORDS, keywordType, T } from "./token-types.ts";

export { ACCEPTS, FIRST_KEYWORD, KEYWORDS, keywordType, MARKS, T, typeName } from "./token-types.ts";

/** Keywords that are spellings of units as well: after a number they are the unit (`10 min`, `25 hours`), elsewhere the keyword. */
export const UNITS_TOO: readonly string[] = ["min", "hours", "start", "stroke", "drop"];
const unitsToo = new Uint8Array(FIRST_KEYWORD + KEYWORDS.length);
for (const word of UNITS_TOO) unitsToo[keywordType(word) ?? 0] = 1;
const NOTE = keywordType("note") ?? 0;

/** Open addressing over a rolling hash, so that looking a keyword up makes no substring. */
const HASH_SIZE = 1024;
const hashed = new Int16Array(HASH_SIZE).fill(-1);
function hashStep(hash: number, code: number): number {
  return (Math.imul(hash, 31) + code) | 0;
}
function place(hash: number): number {
  return (hash ^ (hash >>> 10)) & (HASH_SIZE - 1);
}
for (const [position, word] of KEYWORDS.entries()) {
  let hash = 0;
  for (let i = 0; i < word.length; i++) hash = hashStep(hash, word.charCodeAt(i));
  let slot = place(hash);
  while (hashed[slot] !== -1) slot = (slot + 1) & (HASH_SIZE - 1);
  hashed[slot] = position;
}
function lookUp(text: string, from: number, to: number, hash: number): number {
  for (let slot = place(hash); ; slot = (slot + 1) & (HASH_SIZE - 1)) {
    const position = hashed[slot];
    if (position < 0) return 0;
    const word = KEYWORDS[position];
    if (word.length === to - from && text.startsWith(word, from)) return FIRST_KEYWORD + position;
  }
}

// Classes of ASCII characters.
const BLANK = 1;
const LETTER = 2;
const DIGIT = 4;
/** In names after the first letter: `.`, `-`, `_`. */
const JOINER = 8;
/** Ends a unit or a digit-first word. */
const STOP = 16;
/** Opens quoted text wherever it stands outside one, so that the scanner and the canonical text agree about what is quoted. */
const QUOTE = 32;
const classes = new Uint8Array(128);
for (let c = 0; c < 128; c++) {
  const ch = String.fromCharCode(c);
  if (ch === " " || ch === "\t" || ch === "\r") classes[c] = BLANK | STOP;
  else if (/[A-Za-z]/u.test(ch)) classes[c] = LETTER;
  else if (/[0-9]/u.test(ch)) classes[c] = DIGIT;
  else if (ch === "." || ch === "-" || ch === "_") classes[c] = JOINER;
  else if (ch === ";" || ch === "," || ch === ")" || ch === "(" || ch === "=") classes[c] = STOP;
  else if (ch === '"') classes[c] = STOP | QUOTE;
}

const NON_ASCII_LETTER = /[\p{L}\p{M}\p{N}]/u;

function classOf(text: string, i: number): number {
  const code = text.charCodeAt(i);
  if (code < 128) return classes[code];
  if (code >= 0xd800 && code <= 0xdfff) return LETTER; // a half of a pair: kept together as part of a word
  if (isOpenQuote(code)) return STOP | QUOTE;
  const ch = text[i];
  if (NON_ASCII_LETTER.test(ch)) return LETTER;
  if (isWideBlank(code)) return BLANK | STOP;
  return 0;
}

const ODD_DASH = /[\u2010-\u2015\u2212]/u;
const ODD_DASHES = /[\u2010-\u2015\u2212]/gu;
const isDash = (code: number): boolean => code === 0x2d || (code >= 0x2010 && code <= 0x2015) || code === 0x2212;

/** What the last call of `scan` found. The arrays are used again by the next call. */
export interface Scanned {
  count: number;
  types: Uint16Array;
  starts: Int32Array;
  ends: Int32Array;
  /** A hash of the token types in order: the shape of the line. */
  shape: number;
  /** Where the comment begins, or -1. */
  comment: number;
  /** The line has characters that are read as their plain equivalent (curly quotes, long dashes, no-break blanks, degree signs). */
  odd: boolean;
}

export const scanned: Scanned = {
  count: 0,
  types: new Uint16Array(256),
  starts: new Int32Array(256),
  ends: new Int32Array(256),
  shape: 0,
  comment: -1,
  odd: false,
};

function grow(): void {
  const { types, starts, ends } = scanned;
  scanned.types = new Uint16Array(types.length * 2);
  scanned.types.set(types);
  scanned.starts = new Int32Array(starts.length * 2);
  scanned.starts.set(starts);
  scanned.ends = new Int32Array(ends.length * 2);
  scanned.ends.set(ends);
}

const DATE = /^\d{4}-\d{2}-\d{2}$/u;
const TIME = /^([01]?\d|2[0-4]):[0-5]\d(:[0-5]\d(\.\d+)?)?$/u;
const FRACTION = /^[+-]?\d+\/\d+$/u;
const RANGE = /^[+-]?\d+(\.\d+)?\.\.[+-]?\d+(\.\d+)?$/u;
const COMMA_NUMBER = /^[+-]?\d+(,\d+)+(\.\d+)?$/u;
const DIGEST = /^(sha256|\d+):[0-9a-f]{64}$/u;

/** What a digit-first run of characters is, when it is not a plain number (those are told apart without a substring). */
function digitType(run: string): number {
  if (DATE.test(run)) return T.Date;
  if (TIME.test(run)) return T.Time;
  if (RANGE.test(run)) return T.Range;
  if (FRACTION.test(run)) return T.Fraction;
  if (COMMA_NUMBER.test(run)) return T.CommaNumber;
  if (DIGEST.test(run)) return T.Digest;
  if (run.endsWith(":") && run.indexOf(":") === run.length - 1) return T.Label;
  return T.DigitWord;
}

/**
 * Scans one line (without its line ending) into `scanned`.
 * Never throws; text that belongs to no token becomes `Stray`, an unclosed quote `OpenText`.
 */
export function scan(text: string): Scanned {
  const out = scanned;
  let { types, starts, ends } = out;
  const length = text.length;
  let count = 0;
  let shape = 17;
  let i = 0;
  let last = 0;
  out.comment = -1;
  out.odd = false;
  if (length > 0 && text.charCodeAt(0) === 0xfeff) i = 1;

  while (i < length) {
    let code = text.charCodeAt(i);
    if (code === 0x20 || code === 0x09 || code === 0x0d) {
      i++;
      continue;
    }
    let cls = code < 128 ? classes[code] : classOf(text, i);
    if ((cls & BLANK) !== 0) {
      out.odd = true;
      i++;
      continue;
    }
    if (code === 0x23 && (i === 0 || (classOf(text, i - 1) & BLANK) !== 0)) {
      out.comment = i;
      break;
    }
    if (count === types.length) {
      grow();
      ({ types, starts, ends } = out);
    }
    const start = i;
    let type: number = T.Stray;

    if ((cls & LETTER) !== 0) {
      let hash = 0;
      let slash = false;
      let bracket = false;
      const afterNumber = last === T.Number || last === T.Range || last === T.Fraction || last === T.Below;
      do {
        hash = hashStep(hash, code);
        i++;
        if (i >= length) break;
        code = text.charCodeAt(i);
        cls = code < 128 ? classes[code] : classOf(text, i);
      } while ((cls & (LETTER | DIGIT | JOINER)) !== 0);
      const keyword = lookUp(text, start, i, hash);
      const ended = i >= length || (cls & STOP) !== 0;
      if (keyword !== 0 && ended && (!afterNumber || unitsToo[keyword] === 0)) {
        type = keyword;
      } else if (afterNumber) {
        while (i < length && (classOf(text, i) & STOP) === 0) i++;
        type = T.Unit;
      } else {
        type = T.Name;
        if (!ended && code === 0x5b) {
          // A place: the brackets belong to the word and hold no blanks.
          let j = i + 1;
          while (j < length && text.charCodeAt(j) !== 0x5d && (classOf(text, j) & (BLANK | QUOTE)) === 0) j++;
          if (j < length && text.charCodeAt(j) === 0x5d && j > i + 1) {
            i = j + 1;
            bracket = true;
            type = T.Place;
          } else {
            while (i < length && (classOf(text, i) & (BLANK | QUOTE)) === 0) i++;
            type = T.Stray;
          }
        }
        if (type !== T.Stray && i < length && (classOf(text, i) & STOP) === 0) {
          code = text.charCodeAt(i);
          if (code === 0x2f) {
            const from = i;
            while (i < length && (classOf(text, i) & STOP) === 0) i++;
            slash = i > from + 1;
            type = slash ? (bracket ? T.Column : T.Slashed) : T.Stray;
          } else if (code === 0x3a && !bracket) {
            const next = i + 1;
            while (i < length && (classOf(text, i) & STOP) === 0) i++;
            if (i === next) type = T.Label;
            else type = DIGEST.test(text.slice(start, i)) ? T.Digest : T.Stray;
          } else {
            while (i < length && (classOf(text, i) & (BLANK | QUOTE)) === 0) i++;
            type = T.Stray;
          }
        }
      }
      if (keyword === NOTE && count === 0 && last === 0 && type === NOTE && (i >= length || (cls & BLANK) !== 0)) {
        types[0] = NOTE;
        starts[0] = start;
        ends[0] = i;
        shape = (Math.imul(shape, 33) + NOTE) | 0;
        count = 1;
        while (i < length && (classOf(text, i) & BLANK) !== 0) i++;
        let end = length;
        while (end > i && (classOf(text, end - 1) & BLANK) !== 0) end--;
        if (end > i) {
          types[1] = T.NoteText;
          starts[1] = i;
          ends[1] = end;
          shape = (Math.imul(shape, 33) + T.NoteText) | 0;
          count = 2;
        }
        out.odd = false;
        break;
      }
    } else if (
      (cls & DIGIT) !== 0 ||
      ((code === 0x2b || isDash(code)) &&
        i + 1 < length &&
        text.charCodeAt(i + 1) >= 0x30 &&
        text.charCodeAt(i + 1) <= 0x39)
    ) {
      if (code > 127) out.odd = true;
      i++;
      let points = 0;
      let plain = true;
      while (i < length) {
        code = text.charCodeAt(i);
        cls = code < 128 ? classes[code] : classOf(text, i);
        if ((cls & STOP) !== 0) {
          // A comma between digits is part of the number as typed, so that its message can be about the comma.
          if (code === 0x2c && i + 1 < length && text.charCodeAt(i + 1) >= 0x30 && text.charCodeAt(i + 1) <= 0x39) {
            plain = false;
            i++;
            continue;
          }
          break;
        }
        if ((cls & DIGIT) === 0) {
          if (code === 0x2e) points++;
          else plain = false;
        }
        i++;
      }
      if (plain && points === 0) type = T.Number;
      else if (plain && points === 1 && text.charCodeAt(i - 1) !== 0x2e) type = T.Number;
      else {
        let run = text.slice(start, i);
        if (ODD_DASH.test(run)) {
          out.odd = true;
          run = run.replaceAll(ODD_DASHES, "-");
        }
        type = digitType(run);
      }
    } else if (isOpenQuote(code)) {
      if (code !== 0x22) out.odd = true;
      const curly = code !== 0x22;
      i++;
      type = T.OpenText;
      while (i < length) {
        code = text.charCodeAt(i);
        if (code === 0x22) {
          if (text.charCodeAt(i + 1) === 0x22) {
            i += 2;
            continue;
          }
          i++;
          type = T.Text;
          break;
        }
        if (curly && isOddCloseQuote(code)) {
          i++;
          type = T.Text;
          break;
        }
        i++;
      }
      // The end of the line is no part of unclosed text: trailing blanks and the CR of a CRLF say nothing.
      if (type === T.OpenText) while (i > start + 1 && isPlainBlank(text.charCodeAt(i - 1))) i--;
    } else if (code === 0x3c && i + 1 < length && (classOf(text, i + 1) & DIGIT) !== 0) {
      i++;
      while (i < length && (classOf(text, i) & STOP) === 0) i++;
      type = /^<\d+(\.\d+)?$/u.test(text.slice(start, i)) ? T.Below : T.Stray;
    } else if (code === 0xb0) {
      // A degree sign says nothing that the unit does not say.
      out.odd = true;
      if (last === 0) last = T.Stray; // a note begins its line, with nothing but blanks before it
      i++;
      continue;
    } else {
      i++;
      if (code === 0x2b && text.startsWith("/-", i)) {
        i += 2;
        type = T.PlusMinus;
      } else if (code === 0xb1) {
        out.odd = true;
        type = T.PlusMinus;
      } else if (isDash(code)) {
        if (code !== 0x2d) out.odd = true;
        type = T.Dash;
      } else if (code === 0x2b) type = T.Plus;
      else if (code === 0x2a) type = T.Star;
      else if (code === 0x3d) type = T.Equals;
      else if (code === 0x28) type = T.LParen;
      else if (code === 0x29) type = T.RParen;
      else if (code === 0x2c) type = T.Comma;
      else if (code === 0x3b) type = T.Semicolon;
      else if (code === 0x3f) type = T.Query;
      // A mark that is glued to more text is none: the whole run is read as one thing that belongs nowhere.
      const glued =
        type === T.Stray ||
        type === T.Dash ||
        type === T.Query ||
        type === T.PlusMinus ||
        type === T.Plus ||
        type === T.Star;
      if (glued && i < length && (classOf(text, i) & STOP) === 0) {
        while (i < length && (classOf(text, i) & STOP) === 0) i++;
        type = T.Stray;
      } else if (code === 0x25 && (last === T.Number || last === T.Range || last === T.Fraction || last === T.Below)) {
        type = T.Unit;
      }
    }
    types[count] = type;
    starts[count] = start;
    ends[count] = i;
    shape = (Math.imul(shape, 33) + type) | 0;
    last = type;
    count++;
  }
  out.count = count;
  out.shape = shape;
  return out;
}
