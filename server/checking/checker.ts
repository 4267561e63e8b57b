/**
 * The sweep: runs the rules on the blocks that need it and keeps what they found.
 *
 * First stage: every rule on its blocks. Second stage: rules about findings, asked once the first is quiet. Both are synchronous and
 * pure; only the sweep over them can be stopped between two blocks and taken up again.
 */
import { same } from "../facts/same.ts";
import type { Block } from "../facts/types.ts";
import type { CivilDate } from "../quantity/civil-date.ts";
import { RULES } from "../rules/index.ts";
import type { AnyRule, Report } from "../rules/rule.ts";
import { LONGEST_LOG_bytes, openRunTable, type RunTableReader } from "../totals/run-logs.ts";
import { type BlockEntry, type Change, canonicalTextOf, type Workspace } from "../workspace/workspace.ts";
import type {
  Ask,
  FileState,
  FindingView,
  RunTableRequest,
  RunTableState,
  SignatureRequest,
  SignatureState,
  Total,
} from "./ask.ts";
import { allFound, type CheckNode, type EntryState } from "./check-state.ts";
import { differences } from "./difference.ts";
import { jobOf } from "./emit.ts";
import { type Asker, FactIndex } from "./fact-index.ts";
import { type Finding, type LocatedFinding, ruleFailed } from "./finding.ts";
import { judge } from "./judging.ts";
import { locateFindings } from "./located.ts";
import { filesNamedIn, runTablesNamedIn, signaturesNamedIn } from "./named-files.ts";
import { type Dep, Questions } from "./questions.ts";
import { changedMembers, filledMembers, type LooseRule, type RuleTable, tableOf } from "./rule-table.ts";

export interface CheckerOptions {
  readonly asOf: CivilDate;
  readonly rules?: readonly AnyRule[];
  /** Off for a single pass: questions are not recorded, and edits are not taken. */
  readonly recording?: boolean;
}

const NO_FINDINGS: readonly Finding[] = [];
const NO_DEPS: readonly Dep[] = [];
/** Stands where nothing is recorded; never written to. */
const NO_RECORD: Dep[] = [];

export class Checker {
  readonly workspace: Workspace;
  readonly #rules: RuleTable;
  readonly #allRules: readonly AnyRule[];
  readonly #index: FactIndex;
  readonly #questions: Questions;
  readonly #recording: boolean;
  readonly #states = new Map<BlockEntry, EntryState>();
  readonly #byRef = new Map<string, BlockEntry[]>();
  readonly #byJob = new Map<string, Set<BlockEntry>>();
  #queue = new Set<BlockEntry>();
  #secondQueue = new Set<BlockEntry>();
  readonly #jobsToJudge = new Set<string>();
  readonly #changedPaths = new Set<string>();
  #judging = false;
  #asOf: CivilDate;
  /** Rule calls so far: tests assert that little work follows a small edit. */
  readonly work = { ruleCalls: 0, judged: 0 };
  readonly #failures = new Map<string, string>();

  constructor(workspace: Workspace, options: CheckerOptions) {
    this.workspace = workspace;
    this.#allRules = options.rules ?? RULES;
    this.#rules = tableOf(this.#allRules);
    this.#recording = options.recording ?? true;
    this.#asOf = options.asOf;
    this.#index = new FactIndex((slot) => {
      if (slot.askers !== undefined) this.#suspect(slot.askers);
    }, this.#recording);
    this.#questions = new Questions(this.#index, options.asOf, this.#recording);
    this.#questions.findingsTotal = this.#viewsTotal;
    this.#questions.textOf = (ref) => {
      const entry = this.entryOf(ref);
      return entry && canonicalTextOf(entry);
    };
    for (const document of workspace.documents.values())
      this.apply({ added: document.blocks, removed: [], changed: [] });
  }

  get ask(): Ask {
    return this.#questions;
  }

  get asOf(): CivilDate {
    return this.#asOf;
  }

  /** Rules that failed, each with the first message: said once to the person, since a crash in one rule must not hide the others. */
  get failures(): ReadonlyMap<string, string> {
    return this.#failures;
  }

  /** Every file that a record names, so that a host can tell of all of them before a single pass. */
  filesNamed(): Set<string> {
    return filesNamedIn(this.#facts());
  }

  /** Every signature file that may stand behind a seal, so that a host can tell of all of them before a single pass. */
  signaturesNamed(): SignatureRequest[] {
    return signaturesNamedIn(this.#facts(), this.#questions);
  }

  *#facts(): Generator<Block> {
    for (const entry of this.#states.keys()) yield entry.facts;
  }

  /** Files that records name and that the host has not told of. */
  get filesWanted(): ReadonlySet<string> {
    return this.#questions.filesWanted;
  }

  // ---- inputs ------------------------------------------------------------------------------------------------------------------

  setAsOf(date: CivilDate): void {
    this.#asOf = date;
    this.#index.revision++;
    this.#questions.setAsOf(date);
  }

  setFile(path: string, state: FileState): void {
    this.#index.revision++;
    this.#questions.setFile(path, state);
  }

  /** Signatures that rules asked about and that the host has not told of. */
  get signaturesWanted(): readonly SignatureRequest[] {
    return [...this.#questions.signaturesWanted.values()];
  }

  /** Every signature asked about so far, for a host that sees a file in `seals/` change. */
  get signaturesAsked(): readonly SignatureRequest[] {
    return [...this.signaturesWanted, ...[...this.#questions.signatures.values()].map(({ request }) => request)];
  }

  setSignature(request: SignatureRequest, state: SignatureState): void {
    this.#index.revision++;
    this.#questions.setSignature(request, state);
  }

  /** Every table of a logger's file that records name, so that a host can tell of all of them before a single pass. */
  runTablesNamed(): RunTableRequest[] {
    return runTablesNamedIn(this.#facts());
  }

  /** Tables that rules asked about and that the host has not read. */
  get runTablesWanted(): readonly RunTableRequest[] {
    return [...this.#questions.runTablesWanted.values()];
  }

  /** Every table asked about so far, for a host that sees a logger's file change. */
  get runTablesAsked(): readonly RunTableRequest[] {
    return [...this.runTablesWanted, ...[...this.#questions.runTables.values()].map(({ request }) => request)];
  }

  /** A longer file of a logger is not read. */
  readonly longestLog_bytes = LONGEST_LOG_bytes;

  /** Reads a logger's file for a host, which knows how to get at its bytes. */
  runTableReader(request: RunTableRequest): RunTableReader {
    return openRunTable(request);
  }

  setRunTable(request: RunTableRequest, state: RunTableState): void {
    this.#index.revision++;
    this.#questions.setRunTable(request, state);
  }

  /** Takes a change of the workspace. Nothing is worked out before `sweep`. */
  apply(change: Change): void {
    this.#index.revision++;
    for (const entry of change.removed) this.#forget(entry);
    for (const entry of change.added) {
      const state: EntryState = { nodes: new Map(), own: "all", job: jobOf(entry.facts), found: undefined };
      this.#states.set(entry, state);
      this.#register(entry, state);
      this.#enqueue(entry);
    }
    for (const { entry, before } of change.changed) this.#ownChanged(entry, before);
    this.#index.apply(change);
    for (const list of [change.added, change.removed, change.touched ?? []])
      for (const entry of list) this.#questions.touchText(entry.facts.ref);
  }

  #register(entry: BlockEntry, state: EntryState): void {
    const list = this.#byRef.get(entry.facts.ref);
    if (list) list.push(entry);
    else this.#byRef.set(entry.facts.ref, [entry]);
    const of = this.#byJob.get(state.job);
    if (of) of.add(entry);
    else this.#byJob.set(state.job, new Set([entry]));
  }

  #unregister(entry: BlockEntry, ref: string, state: EntryState): void {
    const list = this.#byRef.get(ref);
    if (list) {
      const i = list.indexOf(entry);
      if (i >= 0) list.splice(i, 1);
    }
    this.#byJob.get(state.job)?.delete(entry);
  }

  #enqueue(entry: BlockEntry): void {
    this.#queue.add(entry);
    this.#secondQueue.add(entry);
  }

  #forget(entry: BlockEntry): void {
    const state = this.#states.get(entry);
    if (!state) return;
    for (const node of state.nodes.values()) this.#questions.tie(node, node.deps, []);
    this.#states.delete(entry);
    this.#unregister(entry, entry.facts.ref, state);
    this.#queue.delete(entry);
    this.#secondQueue.delete(entry);
    this.#changedPaths.add(entry.document.path);
    this.#jobsToJudge.add(state.job);
  }

  #ownChanged(entry: BlockEntry, before: Block): void {
    const state = this.#states.get(entry);
    if (!state) return;
    this.#unregister(entry, before.ref, state);
    const job = jobOf(entry.facts);
    if (job !== state.job) this.#jobsToJudge.add(state.job).add(job);
    state.job = job;
    this.#register(entry, state);
    const changed = changedMembers(before, entry.facts);
    if (changed === "all") state.own = "all";
    else if (state.own !== "all") {
      state.own ??= new Set();
      for (const table of [this.#rules.first, this.#rules.second]) {
        for (const { rule: one } of table.get(entry.facts.kind) ?? []) {
          if (one.reads === undefined || one.reads.some((member) => changed.has(member))) state.own.add(one);
        }
      }
    }
    this.#enqueue(entry);
  }

  #suspect(askers: Iterable<Asker>): void {
    for (const asker of askers) {
      if (asker.suspect) continue;
      asker.suspect = true;
      if ("rule" in asker) this.#enqueue((asker as CheckNode).entry);
      else {
        const node = asker as Asker & { askers: Set<Asker> | undefined; total?: Total<unknown>; key?: string };
        if (node.total === this.#viewsTotal && !this.#judging) this.#jobsToJudge.add(node.key ?? "");
        if (node.askers !== undefined) this.#suspect(node.askers);
      }
    }
  }

  // ---- sweep ---------------------------------------------------------------------------------------------------------------------

  /** Whether there is work left. */
  get pending(): boolean {
    return this.#queue.size > 0 || this.#secondQueue.size > 0 || this.#jobsToJudge.size > 0;
  }

  /**
   * Works off what is marked, in the order in which it was marked unless some paths go first.
   * @param stop asked between two blocks; true leaves the rest marked
   * @param firstPaths files that somebody looks at
   * @returns true when nothing is left
   */
  sweep(stop: () => boolean = () => false, firstPaths: ReadonlySet<string> = new Set()): boolean {
    const looked = firstPaths.size === 0 ? [] : [...this.#queue].filter((one) => firstPaths.has(one.document.path));
    if (!this.#drain(looked, stop)) return false;
    if (!this.#recording) this.#drainByJob();
    if (!this.#drain(this.#queue, stop)) return false;
    for (const job of this.#jobsToJudge) {
      if (stop()) return false;
      this.#jobsToJudge.delete(job);
      // Asked at once, so that what the judgement stands on (acceptances, who may accept) is recorded even where no rule asks for it.
      this.#judging = true;
      this.#questions.touchFindings(job);
      this.#judging = false;
      this.#questions.findings(job);
      this.work.judged++;
      for (const entry of this.#byJob.get(job) ?? []) this.#changedPaths.add(entry.document.path);
    }
    for (const entry of this.#secondQueue) {
      if (stop()) return false;
      this.#secondQueue.delete(entry);
      this.#run(entry, this.#rules.second);
      const state = this.#states.get(entry);
      if (state) state.own = undefined;
    }
    return !this.pending || this.sweep(stop, firstPaths);
  }

  /** Runs the first stage on what is queued of these blocks. @returns false when it was stopped */
  #drain(entries: Iterable<BlockEntry>, stop: () => boolean): boolean {
    for (const entry of entries) {
      if (!this.#queue.has(entry)) continue;
      if (stop()) return false;
      this.#queue.delete(entry);
      this.#run(entry, this.#rules.first);
    }
    return true;
  }

  /** A single pass takes job by job and lets go of what was worked out for each, so that more jobs need little more memory. */
  #drainByJob(): void {
    for (const [job, entries] of this.#byJob) {
      if (job === "") continue;
      this.#drain(entries, () => false);
      this.#questions.forget(job);
    }
  }

  #run(entry: BlockEntry, table: RuleTable["first"]): void {
    const state = this.#states.get(entry);
    if (!state) return;
    const rules = table.get(entry.facts.kind);
    if (!rules) return;
    const { own, nodes } = state;
    const fresh = own === "all" && nodes.size === 0;
    this.#runningIn = { ref: entry.facts.ref, job: state.job };
    const [low, high] = filledMembers(entry.facts);
    for (const { rule: one, low: readsLow, high: readsHigh } of rules) {
      // Nothing of what the rule looks at stands in the block: there is nothing to call it for.
      const empty = (readsLow | readsHigh) !== 0 && (readsLow & low) === 0 && (readsHigh & high) === 0;
      if (fresh) {
        if (!empty) this.#runRule(entry, state, one, undefined);
        continue;
      }
      const node = nodes.get(one);
      let needed = own === "all" || own?.has(one) === true;
      if (!needed && node?.suspect) needed = this.#questions.changedSince(node.deps, node.ranAt);
      if (!needed) {
        if (node) node.suspect = false;
      } else if (!empty) this.#runRule(entry, state, one, node);
      else if (node) {
        nodes.delete(one);
        this.#questions.tie(node, node.deps, []);
        if (node.findings.length > 0) this.#findingsChanged(entry, state, one);
      }
    }
  }

  #findingsChanged(entry: BlockEntry, state: EntryState, one: LooseRule): void {
    state.found = undefined;
    this.#changedPaths.add(entry.document.path);
    if (!one.second) this.#jobsToJudge.add(state.job);
  }

  // What the rule that runs now reports: one function for all calls.
  #found: Finding[] | undefined;
  #running: LooseRule | undefined;
  #runningIn: { readonly ref: string; readonly job: string } = { ref: "", job: "" };
  readonly #report: Report<unknown> = (spot, data, extras) => {
    const one = this.#running;
    if (!one) throw new Error("a rule reported after it had ended");
    const { ref, job } = this.#runningIn;
    this.#found ??= [];
    this.#found.push({
      code: one.id,
      rule: one as unknown as AnyRule,
      severity: extras?.severity ?? one.severity,
      ref,
      job,
      spot,
      message: one.say(data),
      data,
      related: extras?.related ?? [],
      place: extras?.place ?? "",
      tag: extras?.tag,
    });
  };

  #runRule(entry: BlockEntry, state: EntryState, one: LooseRule, node: CheckNode | undefined): void {
    const before = node?.findings ?? NO_FINDINGS;
    const facts = entry.facts;
    const deps: Dep[] = this.#recording ? [] : NO_RECORD;
    this.work.ruleCalls++;
    this.#found = undefined;
    this.#running = one;
    const outer = this.#questions.begin(deps);
    try {
      one.check(facts, this.#questions, this.#report);
    } catch (error) {
      const { message, stack = message } = error instanceof Error ? error : { message: String(error) };
      if (!this.#failures.has(one.id)) this.#failures.set(one.id, stack);
      this.#found = [ruleFailed(one.id, message, facts.ref, state.job)];
    } finally {
      this.#questions.end(outer);
      this.#running = undefined;
    }
    const after: readonly Finding[] = this.#found ?? NO_FINDINGS;
    if (node) {
      this.#questions.tie(node, node.deps, deps);
      node.deps = deps;
      node.findings = after;
      node.ranAt = this.#index.revision;
      node.suspect = false;
      if (deps.length === 0 && after.length === 0) state.nodes.delete(one);
    } else if (deps.length > 0 || after.length > 0) {
      const made: CheckNode = { entry, rule: one, deps, findings: after, ranAt: this.#index.revision, suspect: false };
      this.#questions.tie(made, NO_DEPS, deps);
      state.nodes.set(one, made);
    }
    if ((before.length > 0 || after.length > 0) && !same(before, after)) this.#findingsChanged(entry, state, one);
  }

  // ---- judging: the shop's severities, acceptances ------------------------------------------------------------------------------------

  #raw(job: string, second: boolean): Finding[] {
    const found: Finding[] = [];
    for (const entry of this.#byJob.get(job) ?? []) {
      const state = this.#states.get(entry);
      if (!state) continue;
      for (const node of state.nodes.values()) if ((node.rule.second === true) === second) found.push(...node.findings);
    }
    return found;
  }

  /** Second-stage rules see first-stage findings only. */
  readonly #viewsTotal: Total<readonly FindingView[]> = {
    name: "findings",
    compute: (job: string): readonly FindingView[] => {
      this.#questions.noteRaw(job);
      return judge(this.#raw(job, false), job, this.#questions).map(({ finding, severity, quiet }) => ({
        code: finding.code,
        severity,
        ref: finding.ref,
        job,
        place: finding.place,
        message: finding.message,
        accepted: quiet !== undefined,
      }));
    },
  };

  // ---- answers ------------------------------------------------------------------------------------------------------------------------

  /** Files whose findings, or whose lines, changed since the last call. */
  takeChangedPaths(): string[] {
    const paths = [...this.#changedPaths];
    this.#changedPaths.clear();
    return paths;
  }

  /** Says that the lines of a file moved, so that its findings have other places. */
  touchPath(path: string): void {
    this.#changedPaths.add(path);
  }

  /** The findings of a file, in order of line and column, quiet ones included. */
  findingsOf(path: string): LocatedFinding[] {
    const document = this.workspace.document(path);
    if (!document) return [];
    const judged = document.blocks.flatMap((entry) => {
      const state = this.#states.get(entry);
      const raw = state === undefined || state.nodes.size === 0 ? NO_FINDINGS : allFound(state);
      return judge(raw, state?.job ?? "", this.#questions).map((one) => ({ entry, one }));
    });
    return locateFindings(judged, (ref) => this.entryOf(ref));
  }

  /** The block with a name as `ref`; the first in order of file and line when it is declared more than once. */
  entryOf(ref: string): BlockEntry | undefined {
    const list = this.#byRef.get(ref);
    if (!list || list.length === 0) return undefined;
    return list.reduce((least, one) =>
      one.document.path < least.document.path || (one.document === least.document && one.from < least.from)
        ? one
        : least,
    );
  }

  /** All findings, file by file in order of path. */
  allFindings(): LocatedFinding[] {
    return [...this.workspace.documents.keys()].sort().flatMap((path) => this.findingsOf(path));
  }

  /**
   * Recomputes everything from scratch and compares: the switch that is on in tests.
   * @returns the findings that differ, as text; empty when the incremental state is right
   */
  paranoid(): string[] {
    const fresh = new Checker(this.workspace, { asOf: this.#asOf, rules: this.#allRules, recording: false });
    for (const [path, state] of this.#questions.files) fresh.setFile(path, state);
    for (const { request, state } of this.#questions.signatures.values()) fresh.setSignature(request, state);
    for (const { request, state } of this.#questions.runTables.values()) fresh.setRunTable(request, state);
    fresh.sweep();
    return differences(this.allFindings(), fresh.allFindings());
  }
}
