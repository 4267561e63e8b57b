/**
 * Reads the notation in which `words.ts` states the form of a line. Forms are data: the parser, the completion and the reference all walk
 * the same tree.
 */

/** Types that are one token. */
export type PrimitiveType =
  | "name"
  | "word"
  | "stepname"
  | "needword"
  | "ref"
  | "text"
  | "date"
  | "time"
  | "digest"
  | "count"
  | "arrangement"
  | "place"
  | "colname"
  | "column"
  | "code"
  | "unitword"
  | "rowlabel"
  | "cell"
  | "number"
  | "numfrac"
  | "unit"
  | "rangetok"
  | "belowtok";

/** Types that are a few tokens, each with a form of its own. */
export type CompositeType = "q" | "range" | "bounds" | "value" | "formula" | "need";

export type CaptureType = PrimitiveType | CompositeType;

export const COMPOSITES: Readonly<Record<CompositeType, string>> = {
  q: "number:numfrac unit:unit",
  range: "range:rangetok unit:unit",
  bounds:
    "( range:rangetok unit:unit | number:numfrac [ +/- plus:number ] unit:unit | min low:number lowunit:unit [ max high:number highunit:unit ] | max high:number highunit:unit )",
  value: "( number:numfrac unit:unit | below:belowtok unit:unit | ? | go | no-go )",
  formula:
    "[stat:<greatest|least|mean>] place:place ( ( + | - | * ) ( [stat:<greatest|least|mean>] place:place | number:number ) )*",
  need: "( photo count:count | limits which:<wear|new> feature:word ( , feature:word )* | torque ( all | feature:needword ( , feature:needword )* ) | sign role:name [independent] | run-in type:name | no open defect | check:needword )",
};

const PRIMITIVES: readonly PrimitiveType[] = [
  "name",
  "word",
  "stepname",
  "needword",
  "ref",
  "text",
  "date",
  "time",
  "digest",
  "count",
  "arrangement",
  "place",
  "colname",
  "column",
  "code",
  "unitword",
  "rowlabel",
  "cell",
  "number",
  "numfrac",
  "unit",
  "rangetok",
  "belowtok",
];

export function isComposite(type: CaptureType): type is CompositeType {
  return type in COMPOSITES;
}

export const CAPTURE_TYPES: readonly CaptureType[] = [...PRIMITIVES, ...(Object.keys(COMPOSITES) as CompositeType[])];

export type Form =
  | { readonly kind: "keyword"; readonly word: string; readonly index: number }
  | { readonly kind: "capture"; readonly role: string; readonly type: CaptureType; readonly index: number }
  | { readonly kind: "choice"; readonly role: string; readonly words: readonly string[]; readonly index: number }
  | { readonly kind: "sequence"; readonly parts: readonly Form[] }
  | { readonly kind: "option"; readonly body: Form; readonly index: number }
  | { readonly kind: "either"; readonly arms: readonly Form[]; readonly index: number }
  | { readonly kind: "repeat"; readonly body: Form; readonly atLeastOne: boolean; readonly index: number }
  /** Any of the arms in any order; `once` arms may not come twice. */
  | { readonly kind: "set"; readonly arms: readonly Form[]; readonly atLeastOne: boolean; readonly index: number };

const PIECE = /\s+|[[\](){}|]|\)?[*+](?=\s|$)|<[^>]*>|[^\s[\](){}|<]+/gu;

class FormReader {
  readonly source: string;
  readonly #pieces: readonly string[];
  #at = 0;
  #index = 0;

  constructor(source: string) {
    this.source = source;
    this.#pieces = (source.match(PIECE) ?? []).filter((piece) => piece.trim() !== "");
  }

  read(): Form {
    const form = this.#sequence([]);
    if (this.#at !== this.#pieces.length) throw new Error(`form not read to its end: ${this.source}`);
    return form;
  }

  #peek(): string | undefined {
    return this.#pieces[this.#at];
  }

  #next(): number {
    this.#index += 1;
    return this.#index;
  }

  #expect(piece: string): void {
    if (this.#peek() !== piece) throw new Error(`form wants ${piece} at ${this.#peek()}: ${this.source}`);
    this.#at += 1;
  }

  #sequence(closers: readonly string[]): Form {
    const parts: Form[] = [];
    for (
      let piece = this.#peek();
      piece !== undefined && piece !== "|" && !closers.includes(piece);
      piece = this.#peek()
    ) {
      parts.push(this.#one());
    }
    return parts.length === 1 && parts[0] ? parts[0] : { kind: "sequence", parts };
  }

  #arms(closer: string): Form[] {
    const arms = [this.#sequence([closer])];
    while (this.#peek() === "|") {
      this.#at += 1;
      arms.push(this.#sequence([closer]));
    }
    this.#expect(closer);
    return arms;
  }

  #one(): Form {
    const piece = this.#peek() ?? "";
    this.#at += 1;
    if (piece === "[") {
      const index = this.#next();
      const body = this.#sequence(["]"]);
      this.#expect("]");
      return { kind: "option", body, index };
    }
    if (piece === "(") {
      const index = this.#next();
      const arms = this.#arms(")");
      const body: Form = arms.length === 1 && arms[0] ? arms[0] : { kind: "either", arms, index };
      const after = this.#peek();
      if (after === "*" || after === "+") {
        this.#at += 1;
        return { kind: "repeat", body, atLeastOne: after === "+", index: this.#next() };
      }
      return body;
    }
    if (piece === "{") {
      const index = this.#next();
      const arms = this.#arms("}");
      const atLeastOne = this.#peek() === "+";
      if (atLeastOne) this.#at += 1;
      return { kind: "set", arms, atLeastOne, index };
    }
    const colon = piece.indexOf(":");
    if (colon > 0) {
      const role = piece.slice(0, colon);
      let type = piece.slice(colon + 1);
      if (type === "") {
        // The choice stands in a piece of its own: `<`, words between bars, `>`.
        const choice = this.#peek() ?? "";
        this.#at += 1;
        type = choice;
      }
      if (type.startsWith("<")) {
        return { kind: "choice", role, words: type.slice(1, -1).split("|"), index: this.#next() };
      }
      if (!(CAPTURE_TYPES as readonly string[]).includes(type))
        throw new Error(`unknown type ${type} in form: ${this.source}`);
      return { kind: "capture", role, type: type as CaptureType, index: this.#next() };
    }
    return { kind: "keyword", word: piece, index: this.#next() };
  }
}

const read = new Map<string, Form>();

/** The tree of a form; kept, since several readers ask for the same ones. @throws Error when the notation is broken (a defect of the table). */
export function formOf(source: string): Form {
  let form = read.get(source);
  if (!form) {
    form = new FormReader(source).read();
    read.set(source, form);
  }
  return form;
}

/** Every keyword that a form names, choices included. */
export function keywordsOf(form: Form, into: Set<string> = new Set()): Set<string> {
  switch (form.kind) {
    case "keyword":
      if (/^[a-z]/u.test(form.word)) into.add(form.word);
      break;
    case "choice":
      for (const word of form.words) into.add(word);
      break;
    case "sequence":
      for (const part of form.parts) keywordsOf(part, into);
      break;
    case "option":
    case "repeat":
      keywordsOf(form.body, into);
      break;
    case "either":
    case "set":
      for (const arm of form.arms) keywordsOf(arm, into);
      break;
    case "capture":
      break;
  }
  return into;
}

/** The types of several tokens that a form captures. */
export function compositesOf(form: Form, into: Set<CompositeType> = new Set()): Set<CompositeType> {
  if (form.kind === "capture" && isComposite(form.type)) into.add(form.type);
  else if (form.kind === "sequence") for (const part of form.parts) compositesOf(part, into);
  else if (form.kind === "option" || form.kind === "repeat") compositesOf(form.body, into);
  else if (form.kind === "either" || form.kind === "set") for (const arm of form.arms) compositesOf(arm, into);
  return into;
}

/** Roles that may come more than once: those under a repetition. */
export function repeatableRoles(form: Form, under = false, into: Set<string> = new Set()): Set<string> {
  if ((form.kind === "capture" || form.kind === "choice") && under) into.add(form.role);
  else if (form.kind === "sequence") {
    // The same role twice in one sequence (`every` then `or every`) is a list as well.
    const seen = new Set<string>();
    for (const part of form.parts) {
      if (part.kind === "capture") {
        if (seen.has(part.role)) into.add(part.role);
        seen.add(part.role);
      }
      repeatableRoles(part, under, into);
    }
  } else if (form.kind === "option") repeatableRoles(form.body, under, into);
  else if (form.kind === "repeat") repeatableRoles(form.body, true, into);
  else if (form.kind === "either" || form.kind === "set")
    for (const arm of form.arms) repeatableRoles(arm, under, into);
  return into;
}
