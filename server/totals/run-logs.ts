/**
 * The logs of a run, typed and from a data logger's files alike, so that every rule, total and hover takes one for the other.
 *
 * Reading a file is the host's business: it is asked for through `ask.runTable`, and what it read comes back as a table.
 */
import { type CsvPlan, openRunLog, type RunLogCsv } from "../calc/run-log-csv.ts";
import type { Ask } from "../checking/ask.ts";
import type { LogFile, LogMap, RunLog, WorkBlock } from "../facts/types.ts";

/** Longest file of a data logger that is read, in bytes: a million rows of twelve channels have about a tenth of it. */
export const LONGEST_LOG_bytes = 1024 * 1024 * 1024;
/** Most rows of a file that are read; a longer one is said to be too long, never read in part. */
export const MOST_LOG_ROWS = 4_000_000;
/** Bad cells and left-out rows that are named each; all are counted. */
const NAMED_AT_MOST = 20;

/** What to find out about a data logger's file: all that its table depends on beside the bytes. */
export interface RunTableRequest {
  /** As the record gives it. */
  readonly path: string;
  readonly plan: CsvPlan;
}

export type RunTableState =
  /** There is no such file, or it leads outside the folder: other rules say so. */
  | { readonly standing: "absent" }
  /** It is there and is no log that can be read. */
  | { readonly standing: "refused"; readonly message: string }
  | {
      readonly standing: "read";
      /** SHA-256 of the bytes that were read, 64 hex digits. */
      readonly digest: string;
      readonly log: RunLogCsv;
    };

/** One request and another are the same question when this is the same. */
export const runTableKey = (request: RunTableRequest): string => JSON.stringify([request.path, request.plan]);

/** Maps of channels that name a channel and a unit that can be read: the columns of the table, in this order. */
export function channelMaps(file: LogFile): LogMap[] {
  return file.maps.filter((map) => map.column?.unit !== undefined);
}

/**
 * What to ask the host about a logger's file. Figures are kept in the unit that the map line gives them, as they stand in the file: nothing is
 * converted, so a cell prints as the logger wrote it.
 * @returns undefined for a file without a path, or without a channel that is mapped
 */
export function runTableRequest(file: LogFile): RunTableRequest | undefined {
  const channels = channelMaps(file);
  if (file.path === "" || channels.length === 0) return undefined;
  const time = file.maps.find((map) => map.kind === "time" || (map.kind === "elapsed" && map.unit));
  return {
    path: file.path,
    plan: {
      time: {
        ...(time ? { header: time.heading } : {}),
        ...(time?.kind === "elapsed" && time.unit ? { kind: "elapsed", scale_s: time.unit.factorNumber } : {}),
      },
      channels: channels.map((map) => ({ header: map.heading })),
      absentAllowed: true,
      mostRows: MOST_LOG_ROWS,
      keep: NAMED_AT_MOST,
    },
  };
}

/** Reads a file that arrives in pieces, as the request plans it. */
export interface RunTableReader {
  push(piece: Uint8Array): void;
  /** @param digest SHA-256 of all pieces */
  end(digest: string): RunTableState;
}

export function openRunTable(request: RunTableRequest): RunTableReader {
  const reader = openRunLog(request.plan);
  return {
    push: (piece) => reader.push(piece),
    end(digest) {
      const read = reader.end();
      if (!read.ok) return { standing: "refused", message: read.refused };
      return { standing: "read", digest, log: read };
    },
  };
}

const DAY_s = 86_400;

interface Made {
  readonly state: RunTableState;
  readonly log: RunLog;
}
const made = new WeakMap<LogFile, Made>();

/** A logger's file as a log of its run; every row stands at the line that names the file. */
function logOf(file: LogFile, state: Extract<RunTableState, { standing: "read" }>): RunLog {
  const known = made.get(file);
  if (known?.state === state) return known.log;
  const { table, timeKind, first_s } = state.log;
  const columns = channelMaps(file).flatMap(({ column }) => (column ? [column] : []));
  const log: RunLog = {
    at: file.at,
    columns: columns.map((column, heading) => ({ ...column, heading })),
    time_s: table.time_s,
    values: table.columns,
    rows: new Int32Array(table.time_s.length).fill(file.at),
    startsAt: timeKind === "elapsed" ? undefined : first_s % DAY_s,
    todo: 0,
  };
  made.set(file, { state, log });
  return log;
}

/** Whether two logs may show the same minutes: both by the clock and apart is the only proof that they do not. */
function mayOverlap(a: RunLog, b: RunLog): boolean {
  if (a.startsAt === undefined || b.startsAt === undefined) return true;
  const end = (log: RunLog): number => (log.startsAt ?? 0) + (log.time_s.at(-1) ?? 0);
  return a.startsAt < end(b) && b.startsAt < end(a);
}

/** A log of a run and the file that it comes from. */
export interface JoinedLog {
  readonly log: RunLog;
  /** Undefined for rows that were typed. */
  readonly file: LogFile | undefined;
  /** Channels of the file that other rows of the run show over the same time: they are evidence for those, and count once. */
  readonly repeated: readonly string[];
}

/**
 * Every log of a run in the order of its lines. A file that repeats what was typed is not counted a second time: of it only the channels are
 * joined that nothing else shows at that time.
 * @param run its own facts
 */
export function joinedLogs(ask: Pick<Ask, "runTable">, run: WorkBlock): readonly JoinedLog[] {
  if (run.logFiles.length === 0) return run.logs.map((log) => ({ log, file: undefined, repeated: [] }));
  const joined: JoinedLog[] = run.logs.map((log) => ({ log, file: undefined, repeated: [] }));
  for (const file of run.logFiles) {
    const request = runTableRequest(file);
    const state = request && ask.runTable(request);
    if (state?.standing !== "read") continue;
    const log = logOf(file, state);
    const shown = new Set<string>();
    for (const other of joined)
      if (mayOverlap(other.log, log)) for (const column of other.log.columns) shown.add(column.place);
    const repeated = log.columns.filter((column) => shown.has(column.place)).map((column) => column.place);
    joined.push({ log: repeated.length === 0 ? log : without(log, shown), file, repeated });
  }
  return joined.sort((a, b) => a.log.at - b.log.at);
}

const reduced = new WeakMap<RunLog, { readonly key: string; readonly log: RunLog }>();

function without(log: RunLog, shown: ReadonlySet<string>): RunLog {
  const kept = log.columns.flatMap((column, i) => (shown.has(column.place) ? [] : [i]));
  const key = kept.join(",");
  const known = reduced.get(log);
  if (known?.key === key) return known.log;
  const less = {
    ...log,
    columns: kept.map((i, heading) => ({ ...log.columns[i], heading })),
    values: kept.map((i) => log.values[i]),
  };
  reduced.set(log, { key, log: less });
  return less;
}

/** The logs of a run that hold figures of their own. */
export function logsOf(ask: Pick<Ask, "runTable">, run: WorkBlock): readonly RunLog[] {
  if (run.logFiles.length === 0) return run.logs;
  return joinedLogs(ask, run).flatMap(({ log }) => (log.columns.length === 0 ? [] : [log]));
}

/** Whether a file of the run holds rows that these records do not show. */
export function hasUnreadLog(ask: Pick<Ask, "runTable">, run: WorkBlock): boolean {
  return run.logFiles.some((file) => {
    const request = runTableRequest(file);
    return !request || ask.runTable(request)?.standing !== "read";
  });
}

/** The logger's files of a run that the host has read, or refused to. */
export function readFiles(
  ask: Pick<Ask, "runTable">,
  run: WorkBlock,
): { readonly file: LogFile; readonly state: Exclude<RunTableState, { standing: "absent" }> }[] {
  return run.logFiles.flatMap((file) => {
    const request = runTableRequest(file);
    const state = request && ask.runTable(request);
    return state && state.standing !== "absent" ? [{ file, state }] : [];
  });
}
