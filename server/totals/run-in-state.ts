/**
 * How far a job has come with its run-in schedule. A schedule may be run over several runs and days, so the steps are matched against all runs
 * of the job together, in order.
 */
import { matchRunIn, type RunInStep } from "../calc/run-steps.ts";
import type { Ask, Total } from "../checking/ask.ts";
import type { RunInBlock, RunLog } from "../facts/types.ts";
import { convertNumber } from "../quantity/compare.ts";
import { findUnit } from "../quantity/units.ts";
import { scheduleOf } from "./run-context.ts";
import { hasUnreadLog, logsOf } from "./run-logs.ts";
import { boundsIn, cellSpot, columnsOf, type RowTable, rowAt, speedColumn, tableOf } from "./run-table.ts";

/** A bound of a step that was broken, and where: the run, the line and the column of the log. */
export interface StepBreach {
  readonly place: string;
  readonly unit: string;
  readonly bound: "min" | "max";
  readonly limit: number;
  readonly worst: number;
  readonly samples: number;
  /** The run and the spot of the furthest value. */
  readonly ref: string;
  readonly spot: { readonly at: number; readonly cell?: number; readonly role?: string };
}

export interface StepState {
  readonly name: string;
  /** Line of the step in the schedule. */
  readonly at: number;
  readonly verdict: "done" | "short" | "out-of-order" | "missed";
  readonly wanted_s: number;
  readonly counted_s: number;
  /** Speed range as written. */
  readonly range: string;
  /** The run, and the line of the log at which the stretch begins; "" and -1 when missed. */
  readonly ref: string;
  readonly startLine: number;
  readonly breaches: readonly StepBreach[];
}

export interface RunInState {
  readonly schedule: string;
  /** `run-in/Curlew-9`. */
  readonly scheduleRef: string;
  readonly namedBy: "run" | "job" | "route" | "type";
  readonly steps: readonly StepState[];
  readonly complete: boolean;
  /** A run of the job is only in a logger's file, whose rows these records do not hold: a step that is missing here may be there. */
  readonly unseen: boolean;
  /** The last run of the job that counts for the schedule: findings about the whole stand there. */
  readonly lastRun: string;
}

/** A run and its logs, those of a logger's files among them. */
export interface FollowedRun {
  readonly ref: string;
  readonly logs: readonly RunLog[];
}

interface Piece {
  readonly ref: string;
  readonly log: RunLog;
  readonly table: RowTable;
  readonly offset_s: number;
}

/** Between two logs without clock times this is put, so that no step is taken to run across. */
const APART_s = 1e6;

/** Puts the logs of all runs on one axis, far enough apart that nothing is joined across. */
function laidOut(runs: readonly FollowedRun[]): Piece[] {
  const pieces: Piece[] = [];
  let next_s = 0;
  for (const run of runs) {
    for (const log of run.logs) {
      const table = tableOf(log);
      if (table.time_s.length === 0 || speedColumn(log) < 0) continue;
      pieces.push({ ref: run.ref, log, table, offset_s: next_s - table.time_s[0] });
      next_s += table.time_s[table.time_s.length - 1] - table.time_s[0] + APART_s;
    }
  }
  return pieces;
}

const second = findUnit("s");
const rpm = findUnit("rpm");

/**
 * Matches a schedule against the runs of a job.
 * @param schedule the run-in block
 * @param runs runs of the job that follow it, in order
 */
export function matchSchedule(
  schedule: RunInBlock,
  runs: readonly FollowedRun[],
): Pick<RunInState, "steps" | "complete"> | undefined {
  if (!second || !rpm) return undefined;
  const pieces = laidOut(runs);
  const total = pieces.reduce((sum, piece) => sum + piece.table.time_s.length, 0);
  if (total === 0) return undefined;
  const time_s = new Float64Array(total);
  const speed = new Float64Array(total);
  let filled = 0;
  for (const { log, table, offset_s } of pieces) {
    for (let row = 0; row < table.time_s.length; row++) time_s[filled + row] = table.time_s[row] + offset_s;
    speed.set(table.columns[speedColumn(log)], filled);
    filled += table.time_s.length;
  }
  const steps: RunInStep[] = [];
  const sources: RunInBlock["steps"][number][] = [];
  for (const step of schedule.steps) {
    const range = boundsIn(step.range, rpm);
    if (step.condition.feature !== "crank.speed" || !range || step.length.unit.dimension !== "time") continue;
    steps.push({
      name: step.name,
      least_s: convertNumber(step.length.value, step.length.unit, second),
      from_rpm: range.min ?? Number.NEGATIVE_INFINITY,
      until_rpm: range.max ?? Number.POSITIVE_INFINITY,
    });
    sources.push(step);
  }
  // The gap is set by the longest usual spacing of a piece: across two pieces nothing is ever joined.
  const gap_s = Math.max(
    120,
    ...pieces.map(
      ({ table }) =>
        (10 * (table.time_s[table.time_s.length - 1] - table.time_s[0])) / Math.max(1, table.time_s.length - 1),
    ),
  );
  const matched = matchRunIn({ time_s, columns: [speed] }, 0, steps, { gap_s: Math.min(gap_s, APART_s / 2) });
  if (!matched.ok) return undefined;
  return {
    complete: matched.complete,
    steps: matched.steps.map((match, index): StepState => {
      const source = sources[index];
      const begin = match.verdict === "missed" ? undefined : place(pieces, match.start_s);
      return {
        name: match.name,
        at: source.at,
        verdict: match.verdict,
        wanted_s: steps[index].least_s,
        counted_s: Math.round(match.counted_s),
        range: source.range.text,
        ref: begin?.piece.ref ?? "",
        startLine: begin ? begin.piece.table.lines[begin.row] : -1,
        breaches: begin ? breachesOf(source, begin.piece, match.start_s, match.end_s) : [],
      };
    }),
  };
}

function place(pieces: readonly Piece[], at_s: number): { piece: Piece; row: number } | undefined {
  for (const piece of pieces) {
    const { time_s } = piece.table;
    const own_s = at_s - piece.offset_s;
    if (own_s <= time_s[time_s.length - 1] + 1e-6 && own_s >= time_s[0] - 1e-6) {
      return { piece, row: Math.min(rowAt(piece.table, own_s - 1e-6), time_s.length - 1) };
    }
  }
  return undefined;
}

/** Bounds of a step in its stretch of one log. */
function breachesOf(step: RunInBlock["steps"][number], piece: Piece, start_s: number, end_s: number): StepBreach[] {
  const found: StepBreach[] = [];
  const { log, table, offset_s } = piece;
  for (const { channel, bounds } of step.bounds) {
    for (const column of columnsOf(log, channel)) {
      const heading = log.columns[column];
      const both = boundsIn(bounds, heading.unit);
      if (!both) continue;
      for (const bound of ["min", "max"] as const) {
        const limit = both[bound];
        if (limit === undefined) continue;
        const values = table.columns[column];
        let samples = 0;
        let worst = limit;
        let worstRow = -1;
        for (
          let row = rowAt(table, start_s - offset_s - 1e-6);
          row < values.length && table.time_s[row] + offset_s <= end_s + 1e-6;
          row++
        ) {
          const value = values[row];
          if (!(bound === "min" ? value < limit : value > limit)) continue;
          samples++;
          if (worstRow < 0 || (bound === "min" ? value < worst : value > worst)) {
            worst = value;
            worstRow = row;
          }
        }
        if (samples > 0)
          found.push({
            place: heading.place,
            unit: heading.unitText,
            bound,
            limit,
            worst,
            samples,
            ref: piece.ref,
            spot: cellSpot(log, table.lines[worstRow], column),
          });
      }
    }
  }
  return found;
}

/** Key: a job. Undefined where the job has no run with rows, or no schedule applies. */
export const runIn: Total<RunInState | undefined> = {
  name: "run-in-state",
  compute(job: string, ask: Ask): RunInState | undefined {
    const heads = ask.work(job).filter((head) => head.kind === "run");
    const runs: FollowedRun[] = [];
    let unseen = false;
    let schedule: ReturnType<typeof scheduleOf>;
    for (const head of heads) {
      const run = ask.workBlock(head.ref);
      if (!run) continue;
      const logs = logsOf(ask, run);
      // A file that cannot be read holds rows that nobody can see here; beside typed rows it only repeats them.
      if (run.logs.length === 0) unseen ||= hasUnreadLog(ask, run);
      if (logs.length === 0) continue;
      const own = scheduleOf(ask, run);
      if (!own?.block) continue;
      // A run that names another schedule begins anew with that one.
      if (schedule && schedule.name !== own.name) runs.length = 0;
      schedule = own;
      runs.push({ ref: run.ref, logs });
    }
    const last = runs.at(-1);
    if (!schedule?.block || !last) return undefined;
    const state = matchSchedule(schedule.block, runs);
    return (
      state && {
        schedule: schedule.name,
        scheduleRef: schedule.block.ref,
        namedBy: schedule.from,
        ...state,
        unseen,
        lastRun: last.ref,
      }
    );
  },
};
