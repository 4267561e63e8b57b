/**
 * The one narrow object through which rules, totals and features ask about the shop.
 *
 * Every question is recorded with who asked, also when the answer is "nothing": a missing sign-off has no reference to follow, so only the
 * question tells later that its answer changed. Answers hold no positions. A name that is declared twice is answered with the first block in
 * order of file and line.
 */
import type {
  AlertBlock,
  Block,
  BulletinBlock,
  EngineBlock,
  EngineTypeBlock,
  InstrumentBlock,
  JobBlock,
  LimitsBlock,
  PersonBlock,
  Reading,
  RouteBlock,
  RunInBlock,
  Severity,
  ShopBlock,
  StandBlock,
  TaskBlock,
  TorqueLine,
  WorkBlock,
} from "../facts/types.ts";
import type { CivilDate } from "../quantity/civil-date.ts";
import type { RunTableRequest, RunTableState } from "../totals/run-logs.ts";
import type { FileState } from "../workspace/ports.ts";

export type { RunTableRequest, RunTableState } from "../totals/run-logs.ts";
export type { FileState } from "../workspace/ports.ts";

/** The header of a block of work: what lists and orders need. */
export interface WorkHead {
  readonly ref: string;
  readonly kind: WorkBlock["kind"];
  readonly name: string;
  readonly title: string;
  readonly job: string;
  readonly engine: string;
  readonly date: CivilDate | undefined;
  readonly time: number | undefined;
  readonly step: string;
  readonly by: string;
  readonly second: string;
  readonly atCounter: string;
  /** Hours at `atCounter`, in hours. */
  readonly atHours_h: number | undefined;
}

/** A fact with the block of work in which it stands. */
export interface Placed<F> {
  readonly block: WorkHead;
  readonly fact: F;
}

/** Lists of a block of work that can be asked for across a job. */
export type WorkMember = {
  [K in keyof WorkBlock]: WorkBlock[K] extends readonly object[] ? K : never;
}[keyof WorkBlock];

export type FactOf<K extends WorkMember> = WorkBlock[K] extends readonly (infer F)[] ? F : never;

/** A value that is worked out from facts and kept until a fact that it asked for changes. */
export interface Total<V> {
  readonly name: string;
  /** Pure. @param key what the total is about, for example a job's name */
  compute(key: string, ask: Ask): V;
}

/** What to find out about one signature file: everything that the answer depends on beside the file itself. */
export interface SignatureRequest {
  /** Relative to the shop's folder. */
  readonly path: string;
  /** What was signed, with its LF. */
  readonly statement: string;
  readonly signer: string;
  /** Keys of the signer on the day of the signature, as their lines quote them. */
  readonly keys: readonly string[];
  /** Keys of the signer on other days. */
  readonly lapsedKeys: readonly string[];
}

/** What the host found: verification is asynchronous, so it is done outside and its outcome given in. */
export interface SignatureState {
  readonly standing: "good" | "absent" | "refused";
  /** Why it is refused, as a sentence; of a good one the fingerprint of the key. */
  readonly message: string;
}

/** A finding as second-stage rules see it. */
export interface FindingView {
  readonly code: string;
  readonly severity: Severity;
  /** Block in which it stands. */
  readonly ref: string;
  readonly job: string;
  readonly place: string;
  readonly message: string;
  /** Accepted by a line that holds. */
  readonly accepted: boolean;
}

export interface Ask {
  /** The day as of which overdue and due are judged. */
  asOf(): CivilDate;
  /** The shop's settings; defaults where no `shop` block stands. */
  shop(): ShopBlock;

  person(name: string): PersonBlock | undefined;
  instrument(name: string): InstrumentBlock | undefined;
  stand(name: string): StandBlock | undefined;
  engineType(name: string): EngineTypeBlock | undefined;
  /** One revision of the limits of a type. */
  limits(type: string, revision: string): LimitsBlock | undefined;
  revisions(type: string): readonly LimitsBlock[];
  runIn(type: string): RunInBlock | undefined;
  task(name: string): TaskBlock | undefined;
  bulletin(name: string): BulletinBlock | undefined;
  route(name: string): RouteBlock | undefined;
  engine(name: string): EngineBlock | undefined;
  job(name: string): JobBlock | undefined;

  people(): readonly PersonBlock[];
  instruments(): readonly InstrumentBlock[];
  engines(): readonly EngineBlock[];
  jobs(): readonly JobBlock[];
  alerts(): readonly AlertBlock[];
  tasksOf(type: string): readonly TaskBlock[];
  bulletinsOf(type: string): readonly BulletinBlock[];
  jobsOf(engine: string): readonly JobBlock[];

  /** How many blocks of the kind declare this name (exact spelling), and the spellings that differ only in case. */
  declared(
    kind: Block["kind"],
    name: string,
  ): { readonly refs: readonly string[]; readonly otherCase: readonly string[] };
  /** All names of a kind, for "did you mean" and completion. */
  names(kind: Block["kind"]): readonly string[];
  /** Whether anything names it: kind is that of the declaring block. */
  isUsed(kind: Block["kind"], name: string): boolean;

  /**
   * Blocks of work of a job, in order of date, time, file and line. Work in service is under `engine:NAME`.
   * @param scope a job's name, or `engine:` and an engine's name
   */
  work(scope: string): readonly WorkHead[];
  /** A whole block of work by `J26-014/E3`. Prefer `work` and `facts`: this one changes with each line of the block. */
  workBlock(ref: string): WorkBlock | undefined;
  /** The file in which a block of work stands, so that two files can be told apart; "" where there is no such block. */
  fileOf(block: Pick<WorkHead, "kind" | "ref">): string;
  /** One kind of line across a job, in order. */
  facts<K extends WorkMember>(scope: string, member: K): readonly Placed<FactOf<K>>[];
  /** Readings of one feature across a job, in order. */
  readings(scope: string, feature: string): readonly Placed<Reading>[];
  /** Features that have readings in the job. */
  featuresRead(scope: string): readonly string[];
  /** Torques of one feature across a job, in order. */
  torques(scope: string, feature: string): readonly Placed<TorqueLine>[];
  /** Every fitting of parts in the shop with this batch, or this part and serial. */
  fitted(key: string): readonly {
    readonly ref: string;
    readonly job: string;
    readonly engine: string;
    readonly date: CivilDate | undefined;
    readonly fact: import("../facts/types.ts").FitLine;
  }[];
  /** The `account` blocks of a job. */
  accounts(job: string): readonly import("../facts/types.ts").AccountBlock[];

  /** A file that a record names; undefined while the host has not looked yet. */
  file(path: string): FileState | undefined;
  /** A signature file; undefined while the host has not looked yet. */
  signature(request: SignatureRequest): SignatureState | undefined;
  /** The table of a data logger's file; undefined while the host has not read it yet. */
  runTable(request: RunTableRequest): RunTableState | undefined;
  /** Canonical text of a whole block, notes included; undefined where there is none. Prefer facts: this changes with each character of substance. */
  text(ref: string): string | undefined;
  total<V>(total: Total<V>, key: string): V;
  /** Second stage only: the findings of a job (`""`: those outside any job). */
  findings(job: string): readonly FindingView[];
}

/** Keys of `fitted`. */
export const batchKey = (batch: string): string => `batch ${batch}`;
export const serialKey = (part: string, serial: string): string => `serial ${part} ${serial}`;

/** One signature request and another are the same question when this is the same. */
export const signatureKey = (request: SignatureRequest): string =>
  JSON.stringify([request.path, request.statement, request.signer, request.keys, request.lapsedKeys]);
