/**
 * What may come next on a line: the form of its first word is walked over the token types that are there already. Completion offers these,
 * and the message of a broken line names them.
 */
import {
  type CaptureType,
  COMPOSITES,
  type CompositeType,
  type Form,
  formOf,
  isComposite,
  type PrimitiveType,
} from "./form.ts";
import { formTokenType, positionOf } from "./line-parser.ts";
import { ACCEPTS } from "./tokens.ts";
import { ROW_FORM, WORDS } from "./words.ts";

export type Expected =
  | { readonly kind: "keyword"; readonly word: string; readonly role?: string }
  /** `part` is set inside a type of several tokens: which part of it is meant (`number`, `unit`). */
  | { readonly kind: "value"; readonly role: string; readonly type: CaptureType; readonly part?: PrimitiveType }
  | { readonly kind: "end" };

/** What is still to come, as a list that shares its tails. Equal lists are one object, so that positions can be compared. */
interface Rest {
  readonly id: number;
  readonly form: Form;
  /** For a set: the arms that were taken already, one bit each. For a repetition: 1 once it was gone through. */
  readonly taken: number;
  readonly within: Within | undefined;
  readonly next: Rest | undefined;
}

/** The captured value of several tokens in which a position stands. */
interface Within {
  readonly role: string;
  readonly type: CompositeType;
}

interface Position {
  readonly accepts: readonly number[];
  readonly expected: Expected;
  /** An arm of a set that was taken already: it is read, but not offered. */
  readonly again: boolean;
  readonly next: Rest | undefined;
}

class Walk {
  readonly #rests = new Map<string, Rest>();
  readonly #forms = new Map<Form, number>();
  readonly #withins = new Map<string, Within>();
  positions: Position[] = [];
  ends = false;
  #seen = new Set<string>();

  rest(form: Form, taken: number, within: Within | undefined, next: Rest | undefined): Rest {
    let formId = this.#forms.get(form);
    if (formId === undefined) {
      formId = this.#forms.size;
      this.#forms.set(form, formId);
    }
    const key = `${formId} ${taken} ${next?.id ?? -1} ${within?.role ?? ""} ${within?.type ?? ""}`;
    let rest = this.#rests.get(key);
    if (!rest) {
      rest = { id: this.#rests.size, form, taken, within, next };
      this.#rests.set(key, rest);
    }
    return rest;
  }

  /** All positions that can be reached without reading a token. */
  from(starts: readonly (Rest | undefined)[]): void {
    this.positions = [];
    this.ends = false;
    this.#seen = new Set();
    for (const start of starts) this.#enter(start, false);
  }

  #enter(rest: Rest | undefined, again: boolean): void {
    if (!rest) {
      this.ends = true;
      return;
    }
    const mark = `${rest.id}${again ? "!" : ""}`;
    if (this.#seen.has(mark)) return;
    this.#seen.add(mark);
    const { form, taken, within, next } = rest;
    switch (form.kind) {
      case "keyword":
        this.#word(form.word, undefined, again, next);
        break;
      case "choice":
        for (const word of form.words) this.#word(word, within?.role ?? form.role, again, next);
        break;
      case "capture":
        if (isComposite(form.type)) {
          const inside = this.#within(form.role, form.type);
          this.#enter(this.rest(formOf(COMPOSITES[form.type]), 0, inside, next), again);
        } else {
          const expected: Expected = within
            ? { kind: "value", role: within.role, type: within.type, part: form.type }
            : { kind: "value", role: form.role, type: form.type };
          this.positions.push({ accepts: ACCEPTS[form.type], expected, again, next });
        }
        break;
      case "sequence": {
        let chain = next;
        for (let i = form.parts.length - 1; i >= 0; i--) chain = this.rest(form.parts[i], 0, within, chain);
        this.#enter(chain, again);
        break;
      }
      case "option":
        this.#enter(this.rest(form.body, 0, within, next), again);
        this.#enter(next, again);
        break;
      case "either":
        for (const arm of form.arms) this.#enter(this.rest(arm, 0, within, next), again);
        break;
      case "repeat":
        this.#enter(this.rest(form.body, 0, within, this.rest(form, 1, within, next)), again);
        if (!form.atLeastOne || taken === 1) this.#enter(next, again);
        break;
      case "set":
        for (const [arm, body] of form.arms.entries()) {
          const bit = 1 << arm;
          const after = this.rest(form, taken | bit, within, next);
          this.#enter(this.rest(body, 0, within, after), again || (taken & bit) !== 0);
        }
        if (!form.atLeastOne || taken !== 0) this.#enter(next, again);
        break;
    }
  }

  #word(word: string, role: string | undefined, again: boolean, next: Rest | undefined): void {
    const expected: Expected = role === undefined ? { kind: "keyword", word } : { kind: "keyword", word, role };
    this.positions.push({ accepts: [formTokenType(word)], expected, again, next });
  }

  #within(role: string, type: CompositeType): Within {
    const key = `${role} ${type}`;
    let within = this.#withins.get(key);
    if (!within) {
      within = { role, type };
      this.#withins.set(key, within);
    }
    return within;
  }
}

/**
 * What may come next on a line.
 * @param word the first word of the line, or undefined for a row of a table
 * @param types the types of its tokens, the first word's included
 * @param count how many of them to read: the position of the token that is asked about
 * @returns without doubles, in the order of the form; empty when the tokens before do not fit the form, or no line begins with the word
 */
export function expectedAfter(word: string | undefined, types: ArrayLike<number>, count: number): Expected[] {
  if (word === "note") return [{ kind: "value", role: "text", type: "text" }, { kind: "end" }];
  let source = ROW_FORM;
  let first = 0;
  if (word !== undefined) {
    const position = positionOf(word);
    if (position === undefined) return [];
    source = WORDS[position].form;
    first = 1;
  }
  const walk = new Walk();
  walk.from([walk.rest(formOf(source), 0, undefined, undefined)]);
  for (let i = first; i < count; i++) {
    const type = types[i];
    const next = walk.positions.filter((position) => position.accepts.includes(type)).map((position) => position.next);
    walk.from(next);
    if (walk.positions.length === 0 && !walk.ends) return [];
  }
  const found = new Map<string, Expected>();
  for (const { expected, again } of walk.positions) {
    const key = keyOf(expected);
    if (!again && !found.has(key)) found.set(key, expected);
  }
  const list = [...found.values()];
  if (walk.ends) list.push({ kind: "end" });
  return list;
}

function keyOf(expected: Expected): string {
  switch (expected.kind) {
    case "keyword":
      return `keyword ${expected.word}`;
    case "value":
      return `value ${expected.role} ${expected.type} ${expected.part ?? ""}`;
    case "end":
      return "end";
  }
}

/** What each type of a form is, in plain words. */
export const TYPES_IN_WORDS: Readonly<Record<CaptureType, string>> = {
  name: "a name",
  word: "a word",
  stepname: "the name of a step",
  needword: "the name of what is needed",
  ref: "the name of an entry, defect or other item",
  text: "text in quotes",
  date: "a date such as 2026-03-02",
  time: "a time such as 10:02",
  digest: "a digest such as sha256: and 64 hexadecimal digits",
  count: "a count without a unit",
  arrangement: "a number of cylinders, such as 9 or 2x7",
  place: "a place such as cylinder.bore[3]",
  colname: "the name of a column",
  column: "a column with its unit, such as crank.speed/rpm",
  code: "the code of a finding, such as limit/not-proven",
  unitword: "a unit",
  rowlabel: "a label or a time",
  cell: "a cell: a number, `-`, `?`, `<` and a number, `go` or `no-go`",
  number: "a number",
  numfrac: "a number",
  unit: "a unit",
  rangetok: "a range such as 38..42",
  belowtok: "`<` and a number, such as <0.02",
  q: "a number with its unit",
  range: "a range with its unit, such as 38..42 N.m",
  bounds: "a range, `min` or `max`, with its unit",
  value: "a reading with its unit",
  formula: "a place or a formula of places",
  need: "what is needed",
};

/** One thing that may come, in plain words. */
export function describeOne(expected: Expected): string {
  switch (expected.kind) {
    case "keyword":
      return `\`${expected.word}\``;
    case "value":
      return TYPES_IN_WORDS[expected.part ?? expected.type];
    case "end":
      return "the end of the line";
  }
}

/** @returns what may come in plain words: "a date, `until`, or the end of the line"; "nothing more" for an empty list */
export function describeExpected(list: readonly Expected[]): string {
  const words = [...new Set(list.map(describeOne))];
  const last = words.pop();
  if (last === undefined) return "nothing more";
  if (words.length === 0) return last;
  if (words.length === 1) return `${words[0]} or ${last}`;
  return `${words.join(", ")}, or ${last}`;
}
