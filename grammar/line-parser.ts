/**
 * The parser: one line to a plan.
 *
 * chevrotain holds the only grammar. A plan says which token of a line has which role, and depends on token types alone; so the first line of
 * each sequence of types (its shape) goes through chevrotain and later lines of that shape use its plan. A broken shape keeps its plan too: what
 * was understood before the break, and where the break is. Messages are made from the text of the line at hand.
 *
 * Each leading word has a small parser of its own, built when a shape of it is first met, so that a command that checks a few files
 * does not pay for the whole grammar.
 */

import type { IToken, ParserMethod, TokenType } from "chevrotain";
import * as chevrotain from "chevrotain";
import {
  type CaptureType,
  COMPOSITES,
  type CompositeType,
  compositesOf,
  type Form,
  formOf,
  isComposite,
  repeatableRoles,
} from "./form.ts";
import {
  ACCEPTS,
  FIRST_KEYWORD,
  KEYWORDS,
  keywordType,
  MARKS,
  type Scanned,
  scan,
  scanned,
  T,
  typeName,
} from "./tokens.ts";
import { ROW_FORM, WORDS, type WordRow } from "./words.ts";

/** A captured value: the tokens from `from` up to but not including `to`. */
export interface Field {
  readonly role: string;
  readonly type: CaptureType | "choice";
  readonly from: number;
  readonly to: number;
}

export type LineKind = "blank" | "header" | "member" | "row" | "unknown";

export interface Plan {
  readonly kind: LineKind;
  /** The row of the table of words, for headers and members. */
  readonly row: WordRow | undefined;
  /** Position of `row` in the table, `ROW_WORD` for rows, -1 otherwise. */
  readonly word: number;
  readonly fields: readonly Field[];
  /** The first field of each role. */
  readonly by: Readonly<Record<string, Field | undefined>>;
  /** The token at which reading broke off (the count of tokens when the line ended too early), or -1. */
  readonly broken: number;
  /** A field whose role may stand only once and came again. */
  readonly repeated: Field | undefined;
  /** The shape: checked before a plan is used, since shapes are found by a hash. */
  readonly types: Uint16Array;
}

/** Stands for table rows where a position in the table of words is asked for. */
export const ROW_WORD = 255;

const wordPosition = new Map<string, number>();
for (const [position, row] of WORDS.entries()) {
  wordPosition.set(row.word, position);
  for (const other of row.also ?? []) wordPosition.set(other, position);
}

/** @returns the position in the table of words, or undefined for a word that leads no line. */
export function positionOf(word: string): number | undefined {
  return wordPosition.get(word);
}

// ---- chevrotain -----------------------------------------------------------------------------------------------------------------

const tokenTypes = new Map<number, TokenType>();
const categoryTypes = new Map<string, TokenType>();

function category(name: string): TokenType {
  let found = categoryTypes.get(name);
  if (!found) {
    found = chevrotain.createToken({ name: `any-${name}`, pattern: chevrotain.Lexer.NA });
    categoryTypes.set(name, found);
  }
  return found;
}

function tokenTypeOf(type: number): TokenType {
  let found = tokenTypes.get(type);
  if (!found) {
    const categories = Object.entries(ACCEPTS).flatMap(([name, accepted]) =>
      accepted.includes(type) ? [category(name)] : [],
    );
    found = chevrotain.createToken({
      name: type >= FIRST_KEYWORD ? `keyword-${typeName(type)}` : typeName(type),
      pattern: chevrotain.Lexer.NA,
      categories,
    });
    tokenTypes.set(type, found);
  }
  return found;
}

/** The token type that a keyword or mark of a form stands for. @throws Error for a mark that the scanner does not know. */
export function formTokenType(word: string): number {
  const type = MARKS[word] ?? keywordType(word);
  if (type === undefined) throw new Error(`the scanner has no token for ${word}`);
  return type;
}

function vocabularyOf(form: Form, into: Set<TokenType>): Set<TokenType> {
  switch (form.kind) {
    case "keyword":
      into.add(tokenTypeOf(formTokenType(form.word)));
      break;
    case "choice":
      for (const word of form.words) into.add(tokenTypeOf(formTokenType(word)));
      break;
    case "capture":
      if (isComposite(form.type)) vocabularyOf(formOf(COMPOSITES[form.type]), into);
      else {
        into.add(category(form.type));
        for (const type of ACCEPTS[form.type]) into.add(tokenTypeOf(type));
      }
      break;
    case "sequence":
      for (const part of form.parts) vocabularyOf(part, into);
      break;
    case "option":
    case "repeat":
      vocabularyOf(form.body, into);
      break;
    case "either":
    case "set":
      for (const arm of form.arms) vocabularyOf(arm, into);
      break;
  }
  return into;
}

/** What the rest of this file knows of a grammar. */
interface LineReader {
  fields: Field[];
  count: number;
  input: IToken[];
  readonly errors: readonly { readonly token: IToken }[];
  readonly line: ParserMethod<[], void>;
}

type LineGrammarClass = new (lead: TokenType | undefined, form: Form, validate: boolean) => LineReader;

let lineGrammar: LineGrammarClass | undefined;

/** One leading word's grammar. The index of each form node serves as chevrotain's occurrence index, so recording and parsing agree.
 *
 * The class is made when the first grammar is asked for, so that a program which never meets an unusual line never loads chevrotain.
 */
function lineGrammarClass(): LineGrammarClass {
  lineGrammar ??= class LineGrammar extends chevrotain.EmbeddedActionsParser {
    fields: Field[] = [];
    /** How many tokens the line has; the input that chevrotain keeps is padded at its end. */
    count = 0;
    readonly line: ParserMethod<[], void>;
    readonly #composites = new Map<CompositeType, ParserMethod<[], void>>();

    constructor(lead: TokenType | undefined, form: Form, validate: boolean) {
      const vocabulary = vocabularyOf(form, new Set());
      if (lead) vocabulary.add(lead);
      super([...vocabulary], { maxLookahead: 2, recoveryEnabled: false, skipValidations: !validate });
      for (const type of compositesOf(form)) {
        this.#composites.set(
          type,
          this.RULE(type, () => this.#walk(formOf(COMPOSITES[type]), false)),
        );
      }
      this.line = this.RULE("line", () => {
        if (lead) this.consume(0, lead);
        this.#walk(form, true);
      });
      this.performSelfAnalysis();
    }

    /** The position of the token that comes next: tokens carry it as their offset. */
    #here(): number {
      const next = this.LA(1);
      return next.tokenType.name === "EOF" ? this.count : next.startOffset;
    }

    #walk(form: Form, keep: boolean): void {
      switch (form.kind) {
        case "keyword":
          this.consume(form.index, tokenTypeOf(formTokenType(form.word)));
          break;
        case "choice": {
          let taken: IToken | undefined;
          const take = (word: string) => (): void => {
            taken = this.consume(form.index, tokenTypeOf(formTokenType(word)));
          };
          this.or(
            form.index,
            form.words.map((word) => ({ ALT: take(word) })),
          );
          if (!taken) break;
          this.#keep(keep, form.role, "choice", taken.startOffset, taken.startOffset + 1);
          break;
        }
        case "capture": {
          if (isComposite(form.type)) {
            const from = this.#here();
            const rule = this.#composites.get(form.type);
            if (rule) this.subrule(form.index, rule);
            this.#keep(keep, form.role, form.type, from, this.#here());
          } else {
            const taken = this.consume(form.index, category(form.type));
            this.#keep(keep, form.role, form.type, taken.startOffset, taken.startOffset + 1);
          }
          break;
        }
        case "sequence":
          for (const part of form.parts) this.#walk(part, keep);
          break;
        case "option":
          this.option(form.index, () => this.#walk(form.body, keep));
          break;
        case "either":
          this.or(
            form.index,
            form.arms.map((arm) => ({ ALT: () => this.#walk(arm, keep) })),
          );
          break;
        case "repeat":
          if (form.atLeastOne) this.atLeastOne(form.index, () => this.#walk(form.body, keep));
          else this.many(form.index, () => this.#walk(form.body, keep));
          break;
        case "set": {
          const arms = (): void => {
            this.or(
              form.index,
              form.arms.map((arm) => ({ ALT: () => this.#walk(arm, keep) })),
            );
          };
          if (form.atLeastOne) this.atLeastOne(form.index, arms);
          else this.many(form.index, arms);
          break;
        }
      }
    }

    #keep(keep: boolean, role: string, type: CaptureType | "choice", from: number, to: number): void {
      if (keep && !this.RECORDING_PHASE) this.fields.push({ role, type, from, to });
    }
  };
  return lineGrammar;
}

interface Grammar {
  readonly parser: LineReader;
  readonly repeatable: ReadonlySet<string>;
}

const grammars = new Map<string, Grammar>();

/** @param validate chevrotain's own check of the grammar: on in tests, off in what ships. */
export function grammarFor(lead: string | undefined, source: string, validate = false): Grammar {
  const key = `${validate ? "!" : ""}${lead ?? ""}`;
  let found = grammars.get(key);
  if (!found) {
    const form = formOf(source);
    const type = lead === undefined ? undefined : tokenTypeOf(keywordType(lead) ?? 0);
    found = { parser: new (lineGrammarClass())(type, form, validate), repeatable: repeatableRoles(form) };
    grammars.set(key, found);
  }
  return found;
}

function withGrammar(
  line: Scanned,
  lead: string | undefined,
  source: string,
): { fields: Field[]; broken: number; repeated: Field | undefined } {
  const { parser, repeatable } = grammarFor(lead, source);
  const tokens: IToken[] = [];
  for (let i = 0; i < line.count; i++) {
    const tokenType = tokenTypeOf(line.types[i]);
    tokens.push({ image: "", startOffset: i, tokenTypeIdx: tokenType.tokenTypeIdx ?? 0, tokenType });
  }
  parser.fields = [];
  const limit = Error.stackTraceLimit;
  Error.stackTraceLimit = 0; // a broken line costs half without a stack that nobody reads
  try {
    parser.input = tokens;
    parser.count = line.count;
    parser.line();
  } finally {
    Error.stackTraceLimit = limit;
  }
  const error = parser.errors[0];
  let broken = -1;
  if (error) {
    const at = error.token.startOffset;
    broken = error.token.tokenType.name === "EOF" || !(at >= 0) ? line.count : at;
  }
  const seen = new Set<string>();
  let repeated: Field | undefined;
  for (const field of parser.fields) {
    if (seen.has(field.role) && !repeatable.has(field.role)) repeated ??= field;
    seen.add(field.role);
  }
  return { fields: parser.fields, broken, repeated };
}

// ---- shape cache ------------------------------------------------------------------------------------------------------------------

/** A hostile text can have as many shapes as lines; past this many the cache starts again. */
const SHAPES_KEPT = 8192;
let plans = new Map<number, Plan[]>();
let kept = 0;

/** How the shape cache did since the start: for measurements. */
export const shapeCache = { asked: 0, missed: 0 };

const EMPTY_BY: Record<string, Field> = Object.freeze({}) as Record<string, Field>;
const BLANK: Plan = {
  kind: "blank",
  row: undefined,
  word: -1,
  fields: [],
  by: EMPTY_BY,
  broken: -1,
  repeated: undefined,
  types: new Uint16Array(0),
};

function makePlan(line: Scanned): Plan {
  const types = line.types.slice(0, line.count);
  const first = types[0];
  let kind: LineKind = "unknown";
  let word = -1;
  let row: WordRow | undefined;
  let source = ROW_FORM;
  if (first >= FIRST_KEYWORD) {
    const position = wordPosition.get(typeName(first));
    if (position !== undefined) {
      word = position;
      row = WORDS[position];
      kind = row?.kind ?? "unknown";
      source = row?.form ?? "";
    }
  } else if (first === T.Number || first === T.Label || first === T.Time) {
    kind = "row";
    word = ROW_WORD;
  }
  if (kind === "unknown") return { ...BLANK, kind, broken: 0, types };
  if (row?.word === "note" && (line.count === 1 || types[1] === T.NoteText)) {
    const fields: Field[] = line.count > 1 ? [{ role: "text", type: "text", from: 1, to: 2 }] : [];
    return { kind, row, word, fields, by: byRole(fields), broken: -1, repeated: undefined, types };
  }
  const { fields, broken, repeated } = withGrammar(line, kind === "row" ? undefined : typeName(first), source);
  return { kind, row, word, fields, by: byRole(fields), broken, repeated, types };
}

function byRole(fields: readonly Field[]): Record<string, Field> {
  const by: Record<string, Field> = {};
  for (const field of fields) by[field.role] ??= field;
  return by;
}

function sameShape(plan: Plan, line: Scanned): boolean {
  const { types } = plan;
  if (types.length !== line.count) return false;
  for (let i = 0; i < types.length; i++) if (types[i] !== line.types[i]) return false;
  return true;
}

/** The plan for the line that was just scanned. */
export function planFor(line: Scanned): Plan {
  if (line.count === 0) return BLANK;
  shapeCache.asked++;
  let bucket = plans.get(line.shape);
  if (bucket) {
    for (const plan of bucket) if (sameShape(plan, line)) return plan;
  }
  shapeCache.missed++;
  const plan = makePlan(line);
  if (kept >= SHAPES_KEPT) {
    plans = new Map();
    kept = 0;
    bucket = undefined;
  }
  if (bucket) bucket.push(plan);
  else plans.set(line.shape, [plan]);
  kept++;
  return plan;
}

/**
 * Scans and parses one line. The tokens are in `scanned` until the next call; the plan is kept and shared.
 * @param text one line without its line ending
 */
export function parseLine(text: string): Plan {
  return planFor(scan(text));
}

/** Drops all plans: for tests of the cache itself. */
export function forgetShapes(): void {
  plans = new Map();
  kept = 0;
}

// ---- plans that ship with the program -----------------------------------------------------------------------------------------------

/**
 * A number that changes with the keywords and forms: plans made for another grammar are not used.
 */
export function grammarFingerprint(): number {
  let hash = 17;
  const add = (text: string): void => {
    for (let i = 0; i < text.length; i++) hash = (Math.imul(hash, 31) + text.charCodeAt(i)) | 0;
  };
  for (const word of KEYWORDS) add(word);
  for (const row of WORDS) add(row.form);
  for (const form of Object.values(COMPOSITES)) add(form);
  add(ROW_FORM);
  return hash;
}

/** The shapes met so far, as plain data. */
export function exportPlans(): unknown[] {
  return [...plans.values()]
    .flat()
    .map((p) => [
      p.kind,
      p.word,
      p.broken,
      p.repeated ? p.fields.indexOf(p.repeated) : -1,
      [...p.types],
      p.fields.map((f) => [f.role, f.type, f.from, f.to]),
    ]);
}

/**
 * Loads plans made by `exportPlans`, so that lines of usual shapes never wake chevrotain.
 * @param fingerprint of the grammar that made them; plans of another grammar are left out
 */
export function importPlans(data: readonly unknown[], fingerprint: number): void {
  if (fingerprint !== grammarFingerprint()) return;
  for (const one of data) {
    const [kind, word, broken, repeated, types, fieldData] = one as [
      LineKind,
      number,
      number,
      number,
      number[],
      [string, CaptureType, number, number][],
    ];
    const fields = fieldData.map(([role, type, from, to]): Field => ({ role, type, from, to }));
    let shape = 17;
    for (const type of types) shape = (Math.imul(shape, 33) + type) | 0;
    const bucket = plans.get(shape);
    const seen = Uint16Array.from(types);
    if (bucket?.some((plan) => plan.types.length === seen.length && plan.types.every((type, i) => type === seen[i])))
      continue;
    const plan: Plan = {
      kind,
      word,
      row: WORDS[word],
      broken,
      repeated: fields[repeated],
      types: seen,
      fields,
      by: byRole(fields),
    };
    if (bucket) bucket.push(plan);
    else plans.set(shape, [plan]);
  }
}

export { scanned };
