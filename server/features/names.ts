/**
 * Names in a line: which kind of thing each one names, in full, and whether the line declares it. Definition, references, rename, highlights and
 * hovers all go by this one table, so that they agree about what a word means.
 */
import type { Field } from "../../grammar/line-parser.ts";
import { T } from "../../grammar/tokens.ts";
import type { BlockKind } from "../../grammar/words.ts";
import type { Ask } from "../checking/ask.ts";
import { qualify } from "../facts/refs.ts";
import type { Block } from "../facts/types.ts";
import { jobContext } from "../totals/job-context.ts";
import type { BlockEntry } from "../workspace/workspace.ts";
import { lineOf } from "../workspace/workspace.ts";
import type { Context, Location } from "./feature.ts";
import { isWorkBlock, type ReadLine, rangeOn, readLine, scopeOfBlock, unquoted } from "./under-cursor.ts";

/** `work` are entries and runs; `feature` are places without their brackets; `part` and `batch` are numbers of parts. */
export type NameKind =
  | Exclude<BlockKind, "shop" | "entry" | "run" | "release" | "dispatch" | "account">
  | "work"
  | "defect"
  | "concession"
  | "step"
  | "feature"
  | "part"
  | "batch"
  | "role"
  | "rule";

export interface NameAt {
  readonly kind: NameKind;
  /** In full: `Curlew-9/C` of limits, `J26-014/E3` of work, `top-overhaul/inspect` of a step. */
  readonly key: string;
  /** As written here. */
  readonly name: string;
  readonly from: number;
  readonly to: number;
  readonly declares: boolean;
}

/** What the roles of each first word name. `!` declares; kinds in lower case as above, the others are read by `meant`. */
const NAMED: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  person: { name: "person!" },
  instrument: { name: "instrument!" },
  stand: { name: "stand!" },
  "engine-type": { name: "engine-type!" },
  limits: { type: "engine-type", revision: "REVISION!" },
  "run-in": { type: "SCHEDULE-TYPE", variant: "VARIANT!" },
  task: { name: "task!", type: "engine-type", sign: "role" },
  bulletin: { name: "bulletin!", type: "engine-type" },
  route: { name: "route!", type: "engine-type" },
  alert: { name: "alert!" },
  engine: { name: "engine!", type: "engine-type" },
  job: { name: "job!", engine: "engine", route: "route", limits: "REVISION", "run-in": "SCHEDULE" },
  entry: { name: "work!", step: "ROUTE-STEP", job: "job", engine: "engine" },
  run: { name: "work!", job: "job", stand: "stand", by: "person", second: "person", "run-in": "SCHEDULE" },
  release: { job: "job", by: "person", except: "defect" },
  dispatch: { job: "job" },
  account: { job: "job" },
  severity: { code: "rule", by: "person" },
  authority: { roles: "role" },
  role: { role: "role", types: "engine-type" },
  channel: { place: "feature", instrument: "instrument" },
  step: { name: "STEP!", after: "STEP", need: "NEED", condition: "feature", channel: "feature" },
  places: { place: "feature" },
  life: { part: "part" },
  material: { feature: "feature" },
  limit: { place: "feature", formula: "FORMULA", condition: "feature" },
  torque: { place: "feature", with: "instrument", by: "person" },
  start: { channel: "feature" },
  warm: { channel: "feature", condition: "feature" },
  cool: { channel: "feature" },
  suspect: { part: "part", batch: "batch" },
  with: { with: "instrument", standard: "instrument" },
  grid: { head: "feature", with: "instrument", standard: "instrument", by: "person" },
  measure: { place: "feature", with: "instrument", standard: "instrument", by: "person" },
  log: { column: "feature", with: "instrument" },
  map: { column: "feature" },
  compression: { with: "instrument" },
  check: { with: "instrument", by: "person", place: "feature", name: "EVIDENCE" },
  locked: { place: "feature" },
  fit: { number: "part", batch: "batch", at: "feature" },
  remove: { number: "part", at: "feature" },
  move: { from: "feature", to: "feature" },
  rework: { place: "feature" },
  "crack-test": { place: "feature" },
  serial: { place: "feature" },
  consumable: { batch: "batch" },
  defect: { name: "defect!", place: "feature" },
  rectify: { defect: "defect" },
  defer: { defect: "defect", by: "person" },
  concession: { name: "concession!", of: "REF", place: "feature", by: "person" },
  accept: { code: "rule", ref: "REF", place: "feature", by: "person" },
  refuse: { role: "role", by: "person", ref: "REF" },
  answer: { ref: "REF" },
  amends: { ref: "REF" },
  done: { task: "task" },
  embodied: { bulletin: "bulletin" },
  sign: { role: "role", person: "person" },
  labour: { person: "person" },
  received: {},
};

/** Blocks that are meant by their name alone where a reference is not one of the job's own. */
const OUTSIDE: readonly NameKind[] = [
  "engine",
  "job",
  "instrument",
  "stand",
  "person",
  "engine-type",
  "task",
  "bulletin",
  "route",
  "alert",
];

function typeOf(block: Block | undefined, ask: Ask): string {
  if (block?.kind === "job") return ask.engine(block.engine)?.type ?? "";
  return ask.total(jobContext, scopeOfBlock(block)).type;
}

/** The kind that a reference such as `E3` or `D1` of a line means, and its full name. */
function resolve(written: string, scope: string, ask: Ask): { readonly kind: NameKind; readonly key: string } {
  const key = qualify(scope, written);
  if (ask.workBlock(key)) return { kind: "work", key };
  const of = key.slice(0, key.lastIndexOf("/"));
  const short = key.slice(key.lastIndexOf("/") + 1);
  if (ask.facts(of, "defects").some(({ fact }) => fact.name === short)) return { kind: "defect", key };
  if (!written.includes("/")) {
    for (const kind of OUTSIDE)
      if (ask.declared(kind as BlockKind, written).refs.length > 0) return { kind, key: written };
  }
  return { kind: "work", key };
}

interface Reading {
  readonly line: ReadLine;
  readonly block: Block | undefined;
  readonly scope: string;
  readonly ask: Ask;
  readonly found: NameAt[];
}

function add(into: Reading, kind: NameKind, key: string, from: number, to: number, declares = false): void {
  if (key !== "" && to > from) into.found.push({ kind, key, name: into.line.text.slice(from, to), from, to, declares });
}

/** A reference, which may name its job as well: `J26-014/E3` holds two names. */
function addReference(into: Reading, kind: NameKind | undefined, written: string, from: number, to: number): void {
  const meant =
    kind === undefined ? resolve(written, into.scope, into.ask) : { kind, key: qualify(into.scope, written) };
  const slash = written.lastIndexOf("/");
  if (slash > 0) add(into, "job", written.slice(0, slash), from, from + slash);
  add(into, meant.kind, meant.key, from + slash + 1, to);
}

/** The feature at the head of a place or of a column. */
function addFeature(into: Reading, from: number, to: number): void {
  const feature = /^[^[/]*/u.exec(into.line.text.slice(from, to))?.[0] ?? "";
  add(into, "feature", feature, from, from + feature.length);
}

function addSchedule(into: Reading, written: string, from: number, to: number): void {
  const { ask, block } = into;
  if (ask.runIn(written)) {
    add(into, "run-in", written, from, to);
    // A schedule without a variant goes by the name of its type.
    add(into, "engine-type", written, from, to);
  } else add(into, "run-in", `${typeOf(block, ask)}/${written}`, from, to);
}

function addNeed(into: Reading, field: Field): void {
  const tokens = into.line.tokens.slice(field.from, field.to);
  const lead = tokens[0]?.text ?? "";
  for (const [i, token] of tokens.entries()) {
    const isName = token.type === T.Name || i > 0;
    if (token.type === T.Comma || token.type === T.Number || !isName) continue;
    if (lead === "limits" ? i > 1 : lead === "torque" && token.text !== "all")
      add(into, "feature", token.text, token.from, token.to);
    else if (lead === "sign" && i === 1) add(into, "role", token.text, token.from, token.to);
    else if (lead === "run-in") addSchedule(into, token.text, token.from, token.to);
    else if (i === 0 && into.ask.task(token.text)) add(into, "task", token.text, token.from, token.to);
  }
}

function addField(into: Reading, what: string, field: Field): void {
  const { line, block, ask } = into;
  const token = line.tokens[field.from];
  if (!token) return;
  const { from, to, text } = token;
  const declares = what.endsWith("!");
  const kind = declares ? what.slice(0, -1) : what;
  switch (kind) {
    case "REVISION":
      add(into, "limits", `${block?.kind === "limits" ? block.type : typeOf(block, ask)}/${text}`, from, to, declares);
      return;
    case "SCHEDULE-TYPE":
      add(into, "engine-type", text, from, to);
      if (!line.plan.by.variant) add(into, "run-in", text, from, to, true);
      return;
    case "VARIANT":
      if (block?.kind === "run-in") add(into, "run-in", `${block.type}/${text}`, from, to, true);
      return;
    case "SCHEDULE":
      addSchedule(into, text, from, to);
      return;
    case "STEP":
      if (block?.kind === "route") add(into, "step", `${block.name}/${text}`, from, to, declares);
      return;
    case "ROUTE-STEP": {
      const { route } = ask.total(jobContext, into.scope);
      if (route !== "") add(into, "step", `${route}/${text}`, from, to);
      return;
    }
    case "NEED":
      addNeed(into, field);
      return;
    case "FORMULA":
      for (const one of line.tokens.slice(field.from, field.to))
        if (one.type === T.Place || one.type === T.Name) addFeature(into, one.from, one.to);
      return;
    case "REF":
      addReference(into, undefined, text, from, to);
      return;
    case "EVIDENCE":
      if (ask.task(text)) add(into, "task", text, from, to);
      return;
    case "defect":
      if (declares) add(into, "defect", `${into.scope}/${text}`, from, to, true);
      else addReference(into, "defect", text, from, to);
      return;
    case "concession":
      add(into, "concession", `${into.scope}/${text}`, from, to, declares);
      return;
    case "work":
      if (isWorkBlock(block) && block.ref !== "") add(into, "work", `${into.scope}/${text}`, from, to, declares);
      return;
    case "feature":
      addFeature(into, from, to);
      return;
    case "part":
      add(into, "part", unquoted(text), from + 1, token.type === T.Text ? to - 1 : to);
      return;
    default:
      add(into, kind as NameKind, text, from, to, declares);
  }
}

/**
 * What kind of name a role of a line asks for; undefined for roles that name nothing. Kinds in capitals want more of the line to be known.
 * @returns a kind, or `STEP`, `ROUTE-STEP`, `NEED`, `REF`, `REVISION`, `SCHEDULE`, `EVIDENCE`, `FORMULA`; `declares` where the name is new
 */
export function kindWanted(
  word: string,
  role: string,
): { readonly kind: string; readonly declares: boolean } | undefined {
  const what = NAMED[word]?.[role];
  return what === undefined ? undefined : { kind: what.replace("!", ""), declares: what.endsWith("!") };
}

/** The names in a line, in order. @param block of the line, for the job and type in whose scope it stands */
export function namesInLine(line: ReadLine, block: Block | undefined, ask: Ask): readonly NameAt[] {
  const roles = NAMED[line.plan.row?.word ?? ""];
  if (!roles || line.tokens.length < 2) return [];
  const into: Reading = { line, block, scope: scopeOfBlock(block), ask, found: [] };
  for (const field of line.plan.fields) {
    const what = roles[field.role];
    if (what !== undefined) addField(into, what, field);
  }
  return into.found;
}

/** The name at a column; where two share the columns (a schedule and its type) the first. */
export function nameAtColumn(names: readonly NameAt[], character: number): NameAt | undefined {
  return names.find((one) => character >= one.from && character < one.to) ?? names.find((one) => character === one.to);
}

export interface FoundName extends NameAt {
  readonly path: string;
  readonly line: number;
  readonly entry: BlockEntry;
}

/**
 * Every place in the shop that names something, file by file.
 * @param texts what must stand in a line for it to be read at all: the last part of the name
 */
export function everywhere(ctx: Context, kind: NameKind, key: string): FoundName[] {
  const found: FoundName[] = [];
  for (const path of [...ctx.checker.workspace.documents.keys()].sort()) found.push(...inFile(ctx, path, kind, key));
  return found;
}

export function inFile(ctx: Context, path: string, kind: NameKind, key: string): FoundName[] {
  const document = ctx.checker.workspace.document(path);
  const last = kind === "rule" || kind === "part" ? key : key.slice(key.lastIndexOf("/") + 1);
  const { ask } = ctx.checker;
  const found: FoundName[] = [];
  for (const entry of document?.blocks ?? []) {
    for (let line = entry.from; line < entry.to; line++) {
      const text = document?.lines[line] ?? "";
      if (!text.includes(kind === "part" ? last.replaceAll('"', '""') : last)) continue;
      for (const name of namesInLine(readLine(text), entry.facts, ask)) {
        if (name.kind === kind && name.key === key) found.push({ ...name, path, line, entry });
      }
    }
  }
  return found;
}

const BLOCK_OF: Partial<Record<NameKind, string>> = { limits: "limits/", "run-in": "run-in/", work: "" };
const NO_BLOCK: ReadonlySet<NameKind> = new Set([
  "defect",
  "concession",
  "step",
  "feature",
  "part",
  "batch",
  "role",
  "rule",
]);

/** The block that a name declares; undefined for names of lines, and for names that nobody declares. */
export function blockOf(ctx: Context, kind: NameKind, key: string): BlockEntry | undefined {
  if (NO_BLOCK.has(kind)) return undefined;
  return ctx.checker.entryOf(`${BLOCK_OF[kind] ?? `${kind}/`}${key}`);
}

/** A line of a block as a location: the columns of the name that it declares, else its whole content. */
export function lineLocation(ctx: Context, entry: BlockEntry, at: number, kind?: NameKind, key?: string): Location {
  const line = lineOf(entry, at);
  const read = readLine(entry.document.lines[line] ?? "");
  const name =
    kind &&
    namesInLine(read, entry.facts, ctx.checker.ask).find(
      (one) => one.kind === kind && (key === undefined || one.key === key),
    );
  const from = name?.from ?? read.tokens[0]?.from ?? 0;
  const to = name?.to ?? read.tokens.at(-1)?.to ?? 0;
  return { path: entry.document.path, range: rangeOn(line, from, to) };
}
