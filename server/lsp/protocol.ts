/**
 * What client and server say to each other beyond the language server protocol. The client imports these shapes as types only, so the names
 * of the methods are types too: a client that spells one wrong does not compile.
 */

/** What the client tells of itself when it starts the server. All of it is optional: another editor says nothing. */
export interface InitializationOptions {
  /** False in restricted mode: then files that records name are not opened. */
  readonly trusted?: boolean;
  /** The client can read files for the server (`gudgeon/listRecords` and its companions). */
  readonly readsFiles?: boolean;
  /** The client has the command `gudgeon.explainRule`, which opens the page of a rule. */
  readonly opensRulePages?: boolean;
  /** Settings for clients without `workspace/configuration`. */
  readonly settings?: Partial<Settings>;
}

export interface Settings {
  /** When findings are worked out. */
  readonly run: "onType" | "onSave";
  /** Milliseconds to wait after an edit. */
  readonly delay: number;
  /** Files whose findings are shown. */
  readonly scope: "workspace" | "openFiles";
  /** `2026-05-02`, or empty for today. */
  readonly asOf: string;
}

export type ServerState = "loading" | "checking" | "ready" | "waiting" | "failed";

export interface ServerStatus {
  /** `waiting`: edits are checked when the file is saved. `failed`: the checker gave up until the next edit. */
  readonly state: ServerState;
  readonly shops: number;
  readonly files: number;
  readonly errors: number;
  readonly warnings: number;
  readonly notes: number;
  /** How long the last sweep worked, in milliseconds; undefined before the first one. */
  readonly lastSweep_ms: number | undefined;
  /** The day as of which overdue is judged. */
  readonly asOf: string;
  /** What does not work, in words for a person; empty when all is well. */
  readonly problems: readonly string[];
}

/** Requests to the server. */
export type StatusMethod = "gudgeon/status";
export type ReportMethod = "gudgeon/report";
export type ExplainMethod = "gudgeon/explain";
export interface ExplainParams {
  readonly code: string;
}
export interface ExplainResult {
  readonly markdown: string;
}

/** Notifications to the server. */
export type CursorMethod = "gudgeon/cursor";
export interface CursorParams {
  readonly uri: string;
  readonly line: number;
}
export type TrustedMethod = "gudgeon/trusted";

/** Notifications to the client. */
export type StatusChangedMethod = "gudgeon/statusChanged";

/** Requests to the client, for folders that the server cannot read itself. */
export type ListRecordsMethod = "gudgeon/listRecords";
export interface ListRecordsParams {
  readonly root: string;
  readonly ending: string;
  readonly skip: readonly string[];
  /** False for the folder's own files only. */
  readonly deep: boolean;
}
/** Paths relative to the root. */
export type ListRecordsResult = readonly string[];

export type ReadRecordMethod = "gudgeon/readRecord";
export interface FileParams {
  readonly root: string;
  readonly path: string;
}
export interface ReadRecordResult {
  /** Undefined when there is no such file. */
  readonly text?: string;
}

export type FileStateMethod = "gudgeon/fileState";
export interface FileStateResult {
  readonly exists: boolean;
  readonly size: number;
  /** SHA-256, 64 hex digits. */
  readonly digest: string;
}

export type ReadBytesMethod = "gudgeon/readBytes";
export interface ReadBytesParams extends FileParams {
  /** A longer file is not read. */
  readonly most: number;
}
export interface ReadBytesResult {
  /** Undefined when there is no such file. */
  readonly size?: number;
  /** Undefined when the file is too long. */
  readonly base64?: string;
  /** SHA-256 of the bytes, 64 hex digits. */
  readonly digest?: string;
}

/** The scheme under which rule pages are opened, as `gudgeon-rule:/limit/out-of-limit.md`. */
export type RulePageScheme = "gudgeon-rule";
