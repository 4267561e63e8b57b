/**
 * Time spent in bands of a channel, with the edges found between the samples.
 */
import { show } from "./figures.ts";
import { answer, type Result, refuse } from "./result.ts";
import { type RunTable, refuseTable, usualGap_s } from "./run-tables.ts";

export interface Band {
  /** Lower and upper edge in the unit of the channel, both inside the band. Infinite edges are allowed. */
  readonly from: number;
  readonly until: number;
}

export interface BandTimes {
  /** Seconds inside each band, in the order of the bands. */
  inside_s: number[];
  /** Seconds of the run for which the channel is known. */
  known_s: number;
  /** Seconds of the run for which it is not: a missing cell at either end, or a gap longer than `gap_s`. */
  missing_s: number;
}

/**
 * Time inside bands of one channel. Between two samples the channel is taken as a straight line, so the moment at which
 * it passes an edge is found between them. A stretch that stands exactly on an edge counts as inside; two bands that
 * share an edge may then both count it.
 * @param table the run, times in s
 * @param column index of the channel
 * @param bands edges in the unit of the channel, `from` not above `until`
 * @param gap_s longest time between samples that is joined; ten times the usual spacing (at least 120 s) when left out
 * Source: linear interpolation (common practice, no source).
 */
export function timeInBands(
  table: RunTable,
  column: number,
  bands: readonly Band[],
  gap_s = usualGap_s(table),
): Result<BandTimes> {
  const bad = refuseTable(table, [column]);
  if (bad) return bad;
  for (const band of bands) {
    if (!(band.from <= band.until)) {
      return refuse(`A band from ${show(band.from)} to ${show(band.until)} is upside down or not a number.`);
    }
  }
  const { time_s } = table;
  const values = table.columns[column];
  const count = bands.length;
  const from = Float64Array.from(bands, (band) => band.from);
  const until = Float64Array.from(bands, (band) => band.until);
  const inside = new Float64Array(count);
  let known_s = 0;
  let missing_s = 0;
  for (let row = 1; row < time_s.length; row++) {
    const step_s = time_s[row] - time_s[row - 1];
    const a = values[row - 1];
    const b = values[row];
    if (Number.isNaN(a) || Number.isNaN(b) || step_s > gap_s) {
      missing_s += step_s;
      continue;
    }
    known_s += step_s;
    const low = Math.min(a, b);
    const high = Math.max(a, b);
    for (let index = 0; index < count; index++) {
      if (high < from[index] || low > until[index]) continue;
      if (low >= from[index] && high <= until[index]) {
        inside[index] += step_s;
        continue;
      }
      const top = Math.min(high, until[index]);
      const bottom = Math.max(low, from[index]);
      inside[index] += ((top - bottom) / (high - low)) * step_s;
    }
  }
  return answer({ inside_s: [...inside], known_s, missing_s });
}
