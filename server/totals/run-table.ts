/**
 * A typed log as the computations of runs take it, and how its channels are found.
 */
import type { RunTable } from "../calc/run-tables.ts";
import { usualGap_s } from "../calc/run-tables.ts";
import { covers, type PlaceSet } from "../facts/place.ts";
import type { Bounds, LogColumn, RunLog } from "../facts/types.ts";
import { formatDuration, formatTime } from "../quantity/civil-date.ts";
import { exactIn, type Measure } from "../quantity/compare.ts";
import type { Unit } from "../quantity/units.ts";

/** The channel of the crankshaft speed. */
export const SPEED = "crank.speed";

/**
 * Speed from which the engine counts as running: above what a starter turns it at, below any idle.
 * Source: common practice, no source.
 */
export const RUNNING_rpm = 250;

/** A log with its rows in order of time. */
export interface RowTable extends RunTable {
  /** The line (`at`) of each row that was kept. */
  readonly lines: Int32Array;
  /** The row of the log that each kept row comes from. */
  readonly sources: Int32Array;
}

const kept = new WeakMap<RunLog, RowTable>();

/**
 * The rows of a log whose time can be read and does not run back; a row that runs back is another rule's finding and must not turn a step or a
 * rate round. Most logs are in order, and then nothing is copied.
 * @param log a log of a run
 * @returns times in s from the first row, columns in the units of the log's headings
 */
export function tableOf(log: RunLog): RowTable {
  const known = kept.get(log);
  if (known) return known;
  const rows = log.time_s.length;
  let inOrder = 0;
  let last = Number.NEGATIVE_INFINITY;
  for (let row = 0; row < rows; row++) {
    if (!(log.time_s[row] >= last)) continue;
    last = log.time_s[row];
    inOrder++;
  }
  const sources = new Int32Array(inOrder);
  let table: RowTable;
  if (inOrder === rows) {
    for (let row = 0; row < rows; row++) sources[row] = row;
    table = { time_s: log.time_s, columns: log.values, lines: log.rows, sources };
  } else {
    let at = 0;
    last = Number.NEGATIVE_INFINITY;
    for (let row = 0; row < rows; row++) {
      if (!(log.time_s[row] >= last)) continue;
      last = log.time_s[row];
      sources[at++] = row;
    }
    const pick = (from: Float64Array): Float64Array => {
      const to = new Float64Array(inOrder);
      for (let i = 0; i < inOrder; i++) to[i] = from[sources[i]];
      return to;
    };
    const lines = new Int32Array(inOrder);
    for (let i = 0; i < inOrder; i++) lines[i] = log.rows[sources[i]];
    table = { time_s: pick(log.time_s), columns: log.values.map(pick), lines, sources };
  }
  kept.set(log, table);
  return table;
}

/**
 * Where a finding about a cell points: the cell of a typed row, or the line that maps the column of a logger's file.
 * @param line of the row
 */
export function cellSpot(log: RunLog, line: number, column: number): { at: number; cell?: number; role?: string } {
  const at = log.columns[column]?.mappedAt;
  return at === undefined ? { at: line, cell: column } : { at, role: "column" };
}

/** Where a finding about a channel of a log points: its word in the heading, or the line that maps it. */
export function headingSpot(log: RunLog, column: LogColumn): { at: number; role: string; nth?: number } {
  return column.mappedAt === undefined
    ? { at: log.at, role: "column", nth: column.heading }
    : { at: column.mappedAt, role: "column" };
}

/** Columns of a log that a place covers: `cht` and `cht[1..9]` both cover the nine of `cht[1..9]/C`. */
export function columnsOf(log: RunLog, place: PlaceSet): number[] {
  const found: number[] = [];
  for (let i = 0; i < log.columns.length; i++) {
    const column = log.columns[i];
    if (column.feature === place.feature && column.unit !== undefined && covers(place, column.path)) found.push(i);
  }
  return found;
}

/** The column of the crankshaft speed, or -1. */
export function speedColumn(log: RunLog): number {
  return log.columns.findIndex((column) => column.feature === SPEED && column.unit?.dimension === "speed");
}

/**
 * A bound in the unit of a column. The double is the one nearest to the exact value, and so is every reading, so comparing the two agrees with
 * the exact comparison wherever the bound is a decimal of that unit.
 * @returns undefined when the bound is missing or of another dimension
 */
export function boundIn(bound: Measure | undefined, unit: Unit | undefined): number | undefined {
  if (!bound || !unit || bound.unit.dimension !== unit.dimension) return undefined;
  return bound.unit === unit ? bound.value : exactIn(bound, unit).valueOf();
}

/** Both ends of bounds in the unit of a column; undefined when an end that is written does not fit that unit. */
export function boundsIn(
  bounds: Bounds | undefined,
  unit: Unit | undefined,
): { readonly min: number | undefined; readonly max: number | undefined } | undefined {
  if (!bounds) return undefined;
  const min = boundIn(bounds.low, unit);
  const max = boundIn(bounds.high, unit);
  if (
    (bounds.low && min === undefined) ||
    (bounds.high && max === undefined) ||
    (min === undefined && max === undefined)
  )
    return undefined;
  return { min, max };
}

/** The first row at or after a time. */
export function rowAt(table: RunTable, time_s: number): number {
  let low = 0;
  let high = table.time_s.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (table.time_s[middle] < time_s) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** A stretch of time in which the engine turns. */
export interface Turning {
  /** First row at running speed, and the first row after it below that speed (the row count when it ran to the end). */
  readonly firstRow: number;
  readonly endRow: number;
  /** Whether the log shows it standing before: false where it already ran in the first row. */
  readonly seenToStart: boolean;
}

/**
 * Starts of the engine in a log, in one pass.
 * @param table rows in order
 * @param speed index of the speed column, rpm
 */
export function turnings(table: RunTable, speed: number): Turning[] {
  const values = table.columns[speed];
  const found: Turning[] = [];
  let first = -1;
  let stoodBefore = false;
  let standing = false;
  for (let row = 0; row < values.length; row++) {
    const rpm = values[row];
    if (Number.isNaN(rpm)) continue;
    if (rpm >= RUNNING_rpm) {
      if (first < 0) {
        first = row;
        stoodBefore = standing;
      }
      standing = false;
    } else {
      if (first >= 0) found.push({ firstRow: first, endRow: row, seenToStart: stoodBefore });
      first = -1;
      standing = true;
    }
  }
  if (first >= 0) found.push({ firstRow: first, endRow: values.length, seenToStart: stoodBefore });
  return found;
}

/**
 * Seconds for which the engine ran: between samples the speed is taken as a straight line, so a start between two rows counts from where the
 * line passes running speed.
 */
export function runningTime_s(table: RunTable, speed: number): number {
  const values = table.columns[speed];
  const gap_s = usualGap_s(table);
  let running_s = 0;
  for (let row = 1; row < values.length; row++) {
    const step_s = table.time_s[row] - table.time_s[row - 1];
    const a = values[row - 1];
    const b = values[row];
    if (Number.isNaN(a) || Number.isNaN(b) || step_s > gap_s) continue;
    if (a >= RUNNING_rpm && b >= RUNNING_rpm) running_s += step_s;
    else if (a >= RUNNING_rpm || b >= RUNNING_rpm)
      running_s += ((Math.max(a, b) - RUNNING_rpm) / Math.abs(b - a)) * step_s;
  }
  return running_s;
}

/** `at 10:41`, or `12 min into the log` in one that counts elapsed time. */
export function whenText(log: RunLog, time_s: number): string {
  return log.startsAt === undefined
    ? `${formatDuration(Math.round(time_s))} into the log`
    : `at ${formatTime(Math.round(log.startsAt + time_s))}`;
}

/** `1 sample`, `6 samples`. */
export function samplesText(samples: number): string {
  return `${samples} sample${samples === 1 ? "" : "s"}`;
}
