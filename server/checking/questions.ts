/**
 * Answers questions and records who asked them.
 *
 * Two kinds ask: checks (a rule on a block) and totals (a value worked out from facts, kept until one of them changes). A change marks those who
 * asked as suspect; before a suspect is worked out again its totals are, and when none of what it asked for really changed it is left alone.
 */

import { same } from "../facts/same.ts";
import { DEFAULT_SHOP } from "../facts/summarise.ts";
import type { Block, ShopBlock, WorkBlock } from "../facts/types.ts";
import type { CivilDate } from "../quantity/civil-date.ts";
import { type RunTableRequest, type RunTableState, runTableKey } from "../totals/run-logs.ts";
import type { BlockEntry } from "../workspace/workspace.ts";
import {
  type Ask,
  type FileState,
  type FindingView,
  type Placed,
  type SignatureRequest,
  type SignatureState,
  signatureKey,
  type Total,
  type WorkHead,
} from "./ask.ts";
import { headOf } from "./emit.ts";
import type { Asker, FactIndex, Slot } from "./fact-index.ts";
import { byTimeWithinDays, type Order } from "./order.ts";

export interface TotalNode extends Asker {
  readonly total: Total<unknown>;
  readonly key: string;
  value: unknown;
  deps: Dep[];
  askers: Set<Asker> | undefined;
  /** Revision at which the value last became another. */
  changedAt: number;
  /** Revision at which the value was last known to be right. */
  verifiedAt: number;
  running: boolean;
  /** The list in which it was noted last, so that a question asked twice is noted once. */
  notedBy: unknown;
}

export type Dep = Slot | TotalNode;

export function isTotal(dep: Dep): dep is TotalNode {
  return "total" in dep;
}

const NOTHING: readonly never[] = [];

export class Questions implements Ask {
  readonly #index: FactIndex;
  readonly #recording: boolean;
  /** Totals made since `forget` was last called; kept only where nothing is recorded. */
  readonly #made: TotalNode[] = [];
  readonly #totals = new Map<Total<unknown>, Map<string, TotalNode>>();
  readonly #files = new Map<string, FileState>();
  /** Files asked for that the host has not told of. */
  readonly filesWanted = new Set<string>();
  readonly #signatures = new Map<string, { readonly request: SignatureRequest; readonly state: SignatureState }>();
  /** Signatures asked for that the host has not told of. */
  readonly signaturesWanted = new Map<string, SignatureRequest>();
  readonly #runTables = new Map<string, { readonly request: RunTableRequest; readonly state: RunTableState }>();
  /** Tables of loggers' files asked for that the host has not read. */
  readonly runTablesWanted = new Map<string, RunTableRequest>();
  readonly #textsAsked = new Set<string>();
  /** Set by the checker: canonical text of a block as it stands. */
  textOf: (ref: string) => string | undefined = () => undefined;
  #asOf: CivilDate;
  /** Who asks now: what it asks is added to its list. */
  #deps: Dep[] | undefined;
  /** Set by the checker: views of a job's findings. */
  findingsTotal: Total<readonly FindingView[]> | undefined;

  constructor(index: FactIndex, asOf: CivilDate, recording: boolean) {
    this.#index = index;
    this.#asOf = asOf;
    this.#recording = recording;
  }

  // ---- recording -------------------------------------------------------------------------------------------------------------

  /** From here on questions are recorded in this list. @returns what `end` wants back */
  begin(deps: Dep[]): Dep[] | undefined {
    const outer = this.#deps;
    this.#deps = this.#recording ? deps : undefined;
    return outer;
  }

  end(outer: Dep[] | undefined): void {
    this.#deps = outer;
  }

  /** Ties an asker to what it asked, and loosens it from what it asked before. */
  tie(asker: Asker, old: readonly Dep[], deps: readonly Dep[]): void {
    for (const dep of old) dep.askers?.delete(asker);
    for (const dep of deps) {
      dep.askers ??= new Set();
      dep.askers.add(asker);
    }
  }

  #note(dep: Dep): void {
    const deps = this.#deps;
    if (deps === undefined || dep.notedBy === deps) return;
    dep.notedBy = deps;
    deps.push(dep);
  }

  #slot(family: string, first = "", second = ""): Slot {
    const slot = this.#index.slot(family, first, second);
    this.#note(slot);
    return slot;
  }

  /** Whether anything in a list of answers is newer than a revision; totals in it are brought up to date first. */
  changedSince(deps: readonly Dep[], revision: number): boolean {
    for (const dep of deps) {
      if (isTotal(dep)) this.#refresh(dep);
      if (dep.changedAt > revision) return true;
    }
    return false;
  }

  #refresh(node: TotalNode): void {
    if (node.running) return;
    if (!node.suspect && node.verifiedAt > 0) return;
    if (node.verifiedAt > 0 && !this.changedSince(node.deps, node.verifiedAt)) {
      node.suspect = false;
      node.verifiedAt = this.#index.revision;
      return;
    }
    const deps: Dep[] = [];
    node.running = true;
    let value: unknown;
    const outer = this.begin(deps);
    try {
      value = node.total.compute(node.key, this);
    } finally {
      this.end(outer);
      node.running = false;
    }
    if (this.#recording) {
      this.tie(node, node.deps, deps);
      node.deps = deps;
    }
    node.suspect = false;
    if (node.verifiedAt === 0 || !same(node.value, value)) {
      node.value = value;
      node.changedAt = this.#index.revision;
    }
    node.verifiedAt = this.#index.revision;
  }

  total<V>(total: Total<V>, key: string): V {
    let byKey = this.#totals.get(total);
    if (!byKey) {
      byKey = new Map();
      this.#totals.set(total, byKey);
    }
    let node = byKey.get(key);
    if (!node) {
      node = {
        total,
        key,
        value: undefined,
        deps: [],
        askers: undefined,
        changedAt: 0,
        verifiedAt: 0,
        running: false,
        suspect: false,
        notedBy: undefined,
      };
      byKey.set(key, node);
      if (!this.#recording) this.#made.push(node);
    }
    if (node.running) throw new Error(`the total ${total.name} of ${key} asks for itself`);
    this.#refresh(node);
    this.#note(node);
    return node.value as V;
  }

  /**
   * Lets go of what was worked out about a job. Only where nothing is recorded: what is asked for again is then simply worked out again, and
   * a single pass over a large shop holds the sums of one job at a time.
   */
  forget(job: string): void {
    for (const { total, key } of this.#made) {
      if (key === job || key.startsWith(`${job}|`) || key.startsWith(`${job}/`)) this.#totals.get(total)?.delete(key);
    }
    this.#made.length = 0;
    this.#index.forgetAnswers(job);
  }

  // ---- inputs ------------------------------------------------------------------------------------------------------------------

  setAsOf(date: CivilDate): void {
    if (date === this.#asOf) return;
    this.#asOf = date;
    this.#index.touch("as-of");
  }

  setFile(path: string, state: FileState): void {
    this.filesWanted.delete(path);
    if (same(this.#files.get(path), state)) return;
    this.#files.set(path, state);
    this.#index.touch("file", path);
  }

  get files(): ReadonlyMap<string, FileState> {
    return this.#files;
  }

  setSignature(request: SignatureRequest, state: SignatureState): void {
    const key = signatureKey(request);
    this.signaturesWanted.delete(key);
    if (same(this.#signatures.get(key)?.state, state)) return;
    this.#signatures.set(key, { request, state });
    this.#index.touch("signature", key);
  }

  get signatures(): ReadonlyMap<string, { readonly request: SignatureRequest; readonly state: SignatureState }> {
    return this.#signatures;
  }

  setRunTable(request: RunTableRequest, state: RunTableState): void {
    const key = runTableKey(request);
    this.runTablesWanted.delete(key);
    const before = this.#runTables.get(key)?.state;
    // Equal bytes read by one plan give one table: a million cells need not be compared.
    if (before?.standing === "read" && state.standing === "read" ? before.digest === state.digest : same(before, state))
      return;
    this.#runTables.set(key, { request, state });
    this.#index.touch("run-table", key);
  }

  get runTables(): ReadonlyMap<string, { readonly request: RunTableRequest; readonly state: RunTableState }> {
    return this.#runTables;
  }

  /** The text of the block of this name changed, whether or not a fact did. */
  touchText(ref: string): void {
    if (this.#textsAsked.has(ref)) this.#index.touch("text", ref);
  }

  // ---- questions ---------------------------------------------------------------------------------------------------------------

  asOf(): CivilDate {
    this.#slot("as-of");
    return this.#asOf;
  }

  file(path: string): FileState | undefined {
    this.#slot("file", path);
    const state = this.#files.get(path);
    if (!state) this.filesWanted.add(path);
    return state;
  }

  signature(request: SignatureRequest): SignatureState | undefined {
    const key = signatureKey(request);
    this.#slot("signature", key);
    const known = this.#signatures.get(key);
    if (!known) this.signaturesWanted.set(key, request);
    return known?.state;
  }

  runTable(request: RunTableRequest): RunTableState | undefined {
    const key = runTableKey(request);
    this.#slot("run-table", key);
    const known = this.#runTables.get(key);
    if (!known) this.runTablesWanted.set(key, request);
    return known?.state;
  }

  text(ref: string): string | undefined {
    this.#textsAsked.add(ref);
    this.#slot("text", ref);
    return this.textOf(ref);
  }

  /** All facts under a key, blocks in order of file and line. */
  #all<T>(family: string, first = "", second = ""): readonly T[] {
    return this.#answer<T>(this.#slot(family, first, second));
  }

  #answer<T>(slot: Slot): readonly T[] {
    if (slot.entries.length === 0) return NOTHING;
    if (slot.answer === undefined) {
      if (slot.entries.length === 1) slot.answer = slot.values[0];
      else {
        const order = [...slot.entries.keys()].sort((a, b) => inFile(slot.entries[a], slot.entries[b]));
        slot.answer = order.flatMap((i) => slot.values[i] as readonly T[]);
      }
    }
    return slot.answer as readonly T[];
  }

  /** All facts under a key with the block of work of each, in order of date, time, file and line. */
  #placed<F>(slot: Slot): readonly Placed<F>[] {
    if (slot.entries.length === 0) return NOTHING;
    slot.answer ??= workOrder(slot.entries).flatMap((i) => {
      const block = headOf(slot.entries[i].facts as WorkBlock);
      return (slot.values[i] as readonly F[]).map((fact) => ({ block, fact }));
    });
    return slot.answer as readonly Placed<F>[];
  }

  shop(): ShopBlock {
    return this.#all<ShopBlock>("block", "shop")[0] ?? DEFAULT_SHOP;
  }

  #block<B extends Block>(kind: B["kind"], name: string): B | undefined {
    return name === "" ? undefined : this.#answer<B>(this.#slot("block", kind, name))[0];
  }

  person: Ask["person"] = (name) => this.#block("person", name);
  instrument: Ask["instrument"] = (name) => this.#block("instrument", name);
  stand: Ask["stand"] = (name) => this.#block("stand", name);
  engineType: Ask["engineType"] = (name) => this.#block("engine-type", name);
  limits: Ask["limits"] = (type, revision) => this.#block("limits", `${type}/${revision}`);
  revisions: Ask["revisions"] = (type) => this.#all("revisions", type);
  runIn: Ask["runIn"] = (type) => this.#block("run-in", type);
  task: Ask["task"] = (name) => this.#block("task", name);
  bulletin: Ask["bulletin"] = (name) => this.#block("bulletin", name);
  route: Ask["route"] = (name) => this.#block("route", name);
  engine: Ask["engine"] = (name) => this.#block("engine", name);
  job: Ask["job"] = (name) => this.#block("job", name);
  people: Ask["people"] = () => this.#all("all", "person");
  instruments: Ask["instruments"] = () => this.#all("all", "instrument");
  engines: Ask["engines"] = () => this.#all("all", "engine");
  jobs: Ask["jobs"] = () => this.#all("all", "job");
  alerts: Ask["alerts"] = () => this.#all("all", "alert");
  tasksOf: Ask["tasksOf"] = (type) => this.#all("tasks-of", type);
  bulletinsOf: Ask["bulletinsOf"] = (type) => this.#all("bulletins-of", type);
  jobsOf: Ask["jobsOf"] = (engine) => this.#all("jobs-of", engine);
  accounts: Ask["accounts"] = (job) => this.#all("accounts", job);
  fitted: Ask["fitted"] = (key) => this.#all("fitted", key);
  names: Ask["names"] = (kind) => this.#all("names", kind);
  isUsed: Ask["isUsed"] = (kind, name) => this.#slot("used", kind, name).entries.length > 0;

  declared: Ask["declared"] = (kind, name) => {
    const slot = this.#slot("is", kind, name.toLowerCase());
    const only = slot.entries.length === 1 ? (slot.values[0]?.[0] as { ref: string; name: string }) : undefined;
    if (only)
      return only.name === name ? { refs: [only.ref], otherCase: NOTHING } : { refs: NOTHING, otherCase: [only.name] };
    const all = this.#all<{ readonly ref: string; readonly name: string }>("is", kind, name.toLowerCase());
    return {
      refs: all.filter((one) => one.name === name).map((one) => one.ref),
      otherCase: [...new Set(all.filter((one) => one.name !== name).map((one) => one.name))],
    };
  };

  work: Ask["work"] = (scope) => {
    const slot = this.#slot("work", scope);
    if (slot.entries.length === 0) return NOTHING;
    slot.answer ??= workOrder(slot.entries).map((i) => (slot.values[i] as readonly WorkHead[])[0]);
    return slot.answer as readonly WorkHead[];
  };

  workBlock: Ask["workBlock"] = (ref) => this.#all<WorkBlock>("block", "work", ref)[0];
  // That a block is there changes when its file does: a block of another file is another block.
  fileOf: Ask["fileOf"] = ({ kind, ref }) => {
    const entries = this.#slot("is", kind, ref.toLowerCase()).entries.filter((entry) => entry.facts.ref === ref);
    return entries.map((entry) => entry.document.path).sort()[0] ?? "";
  };
  facts: Ask["facts"] = (scope, member) => this.#placed(this.#slot("facts", scope, member));
  readings: Ask["readings"] = (scope, feature) => this.#placed(this.#slot("readings", scope, feature));
  torques: Ask["torques"] = (scope, feature) => this.#placed(this.#slot("torques", scope, feature));

  featuresRead: Ask["featuresRead"] = (scope) => {
    const slot = this.#slot("features", scope);
    slot.answer ??= [...new Set(slot.values.flat() as string[])].sort();
    return slot.answer as readonly string[];
  };

  findings: Ask["findings"] = (job) => (this.findingsTotal ? this.total(this.findingsTotal, job) : NOTHING);

  /** The raw findings of a job changed: what stands on them is suspect. */
  touchFindings(job: string): void {
    this.#index.touch("raw", job);
  }

  /** Records that the asker depends on the raw findings of a job. */
  noteRaw(job: string): void {
    this.#slot("raw", job);
  }
}

function inFile(a: BlockEntry, b: BlockEntry): Order {
  return a.document.path < b.document.path
    ? -1
    : a.document.path > b.document.path
      ? 1
      : a.from < b.from
        ? -1
        : a.from > b.from
          ? 1
          : 0;
}

/** Positions of blocks of work in order of date, then time where it is given, then file and line. */
function workOrder(entries: readonly BlockEntry[]): number[] {
  const order = [...entries.keys()].sort((i, j) => {
    const a = entries[i];
    const b = entries[j];
    const first = (a.facts as WorkBlock).date ?? Number.POSITIVE_INFINITY;
    const second = (b.facts as WorkBlock).date ?? Number.POSITIVE_INFINITY;
    return first < second ? -1 : first > second ? 1 : inFile(a, b);
  });
  return byTimeWithinDays(order, (i) => {
    const { date, time } = entries[i].facts as WorkBlock;
    return { day: date, time };
  });
}
