import type { RunTable } from "../../server/calc/run-tables.ts";

/** A run table from plain lists: the times first, then a list for each channel. */
export function runTable(time_s: readonly number[], ...columns: readonly (readonly number[])[]): RunTable {
  return { time_s: Float64Array.from(time_s), columns: columns.map((column) => Float64Array.from(column)) };
}
