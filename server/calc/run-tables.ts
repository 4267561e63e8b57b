/**
 * The table of a run log as the computations read it: one time axis and columns of figures, all the same length.
 *
 * A table may hold a million samples, so the computations go through it once, by index, without making anything per row.
 */
import { show } from "./figures.ts";
import { type Refused, refuse } from "./result.ts";

export interface RunTable {
  /** Seconds from the first row, never falling. Equal times are kept: they carry no duration. */
  readonly time_s: Float64Array;
  /** Columns in the unit of their channel; NaN where the cell was empty or bad. */
  readonly columns: readonly Float64Array[];
}

/**
 * The first reason why a computation cannot use the table, or undefined. Checks shape and the named columns, not every row:
 * the reader of the log already keeps out rows whose time runs back.
 * @param table the run
 * @param columns indexes of the columns that are about to be used
 */
export function refuseTable(table: RunTable, columns: readonly number[]): Refused | undefined {
  const rows = table.time_s.length;
  if (rows === 0) return refuse("The run log has no rows.");
  for (const column of columns) {
    const values = table.columns[column];
    if (values === undefined) return refuse(`The run log has no column ${show(column)}.`);
    if (values.length !== rows) {
      return refuse(`A column of the run log has ${values.length} cells for ${rows} times.`);
    }
  }
  return undefined;
}

/**
 * Time at which a straight line between two samples passes a level.
 * @param from_s time of the first sample
 * @param from value there
 * @param until_s time of the second sample
 * @param until value there, different from `from`
 * @param level value between the two
 */
export function crossing_s(from_s: number, from: number, until_s: number, until: number, level: number): number {
  return from_s + ((level - from) / (until - from)) * (until_s - from_s);
}

/**
 * Longest time between two samples across which a straight line may be drawn, when nothing else is said: ten times the
 * usual spacing of the log, but never less than two minutes, so that typed rows a minute apart are joined and a logger
 * that stopped for an hour is not.
 * @param table the run
 */
export function usualGap_s(table: RunTable): number {
  const rows = table.time_s.length;
  if (rows < 2) return 120;
  // The middle spacing, not the mean: one long stop in a short log must not make itself look usual. A few hundred
  // spacings spread over the log tell it as well as a million.
  const taken = Math.min(rows - 1, 501);
  const spacings = new Float64Array(taken);
  for (let index = 0; index < taken; index++) {
    const row = 1 + Math.floor((index * (rows - 1)) / taken);
    spacings[index] = table.time_s[row] - table.time_s[row - 1];
  }
  return Math.max(120, 10 * spacings.sort()[taken >>> 1]);
}
