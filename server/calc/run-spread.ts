/**
 * Spread between cylinders during a run.
 */
import { show } from "./figures.ts";
import { answer, type Result, refuse } from "./result.ts";
import { type RunTable, refuseTable, usualGap_s } from "./run-tables.ts";

export interface CylinderSpread {
  /** Greatest difference between the highest and the lowest cylinder of one sample, unit of the channel. */
  greatest: number;
  greatestAt_s: number;
  /** Positions in the list of columns of the highest and the lowest cylinder at that moment. */
  highest: number;
  lowest: number;
  /** Mean of each cylinder over the rows that count; NaN without a value. */
  mean: number[];
  /** Seconds for which the spread was greater than `limit`, by the sample that begins each step. */
  over_s: number;
  /** Rows that count, and rows left out because fewer than two cylinders had a value. */
  rows: number;
  skipped: number;
}

/**
 * Spread between the cylinders of one kind of channel (head temperatures, exhaust temperatures).
 * @param table the run
 * @param columns indexes of the channels, one a cylinder, two or more
 * @param options.limit spread above which time is counted; a spread equal to it is inside; left out, none is counted
 * @param options.while rows count only while this channel is inside its range (both ends inside)
 * Source: difference of highest and lowest (common practice, no source).
 */
export function cylinderSpread(
  table: RunTable,
  columns: readonly number[],
  options: { limit?: number; while?: { column: number; from: number; until: number } } = {},
): Result<CylinderSpread> {
  if (columns.length < 2) return refuse(`A spread needs at least two cylinders, not ${show(columns.length)}.`);
  const gate = options.while;
  const bad = refuseTable(table, gate ? [...columns, gate.column] : columns);
  if (bad) return bad;
  const { time_s } = table;
  const limit = options.limit ?? Number.POSITIVE_INFINITY;
  const gap_s = usualGap_s(table);
  const channels = columns.map((column) => table.columns[column]);
  const gateValues = gate ? table.columns[gate.column] : undefined;
  const sums = new Float64Array(channels.length);
  const counts = new Float64Array(channels.length);
  let greatest = Number.NaN;
  let greatestRow = -1;
  let over_s = 0;
  let rows = 0;
  let skipped = 0;
  for (let row = 0; row < time_s.length; row++) {
    if (gate && gateValues && !(gateValues[row] >= gate.from && gateValues[row] <= gate.until)) continue;
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    let known = 0;
    for (let index = 0; index < channels.length; index++) {
      const value = channels[index][row];
      if (Number.isNaN(value)) continue;
      known++;
      sums[index] += value;
      counts[index]++;
      if (value < low) low = value;
      if (value > high) high = value;
    }
    if (known < 2) {
      skipped++;
      continue;
    }
    rows++;
    const spread = high - low;
    if (!(spread <= greatest)) {
      greatest = spread;
      greatestRow = row;
    }
    // Binary subtraction may leave a spread that equals its limit a hair above it.
    if (spread > limit + 1e-9 && row + 1 < time_s.length) over_s += Math.min(time_s[row + 1] - time_s[row], gap_s);
  }
  if (greatestRow === -1) return refuse("No row of this run has values for two cylinders.");
  let highest = -1;
  let lowest = -1;
  for (let index = 0; index < channels.length; index++) {
    const value = channels[index][greatestRow];
    if (Number.isNaN(value)) continue;
    if (highest === -1 || value > channels[highest][greatestRow]) highest = index;
    if (lowest === -1 || value < channels[lowest][greatestRow]) lowest = index;
  }
  return answer({
    greatest,
    greatestAt_s: time_s[greatestRow],
    highest,
    lowest,
    mean: Array.from(sums, (sum, index) => (counts[index] === 0 ? Number.NaN : sum / counts[index])),
    over_s,
    rows,
    skipped,
  });
}
