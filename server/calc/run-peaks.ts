/**
 * Peaks of the channels of a run, and excursions outside a limit with how long they lasted.
 */
import { show } from "./figures.ts";
import { answer, type Result, refuse, refuseUnusable } from "./result.ts";
import { crossing_s, type RunTable, refuseTable, usualGap_s } from "./run-tables.ts";

export interface ChannelPeak {
  highest: number;
  highestAt_s: number;
  /** Seconds for which the channel stood within `near` of its highest value, joined between samples. */
  nearHighest_s: number;
  lowest: number;
  lowestAt_s: number;
  /** Samples with a value, and without one. */
  samples: number;
  missing: number;
}

/**
 * Highest and lowest value of one channel, with when, and for how long it stood near the peak.
 * @param table the run
 * @param column index of the channel
 * @param near how far below the peak still counts as near it, unit of the channel, 0 or more
 * Source: common practice, no source.
 */
export function channelPeak(table: RunTable, column: number, near: number): Result<ChannelPeak> {
  const bad = refuseTable(table, [column]) ?? refuseUnusable({ "margin below the peak": near });
  if (bad) return bad;
  if (near < 0) return refuse(`The margin below the peak cannot be ${show(near)}.`);
  const { time_s } = table;
  const values = table.columns[column];
  let highest = Number.NEGATIVE_INFINITY;
  let lowest = Number.POSITIVE_INFINITY;
  let highestAt = 0;
  let lowestAt = 0;
  let samples = 0;
  for (let row = 0; row < values.length; row++) {
    const value = values[row];
    if (Number.isNaN(value)) continue;
    samples++;
    if (value > highest) {
      highest = value;
      highestAt = row;
    }
    if (value < lowest) {
      lowest = value;
      lowestAt = row;
    }
  }
  if (samples === 0) return refuse("The channel has no value in this run.");
  const gap_s = usualGap_s(table);
  const level = highest - near;
  let nearHighest_s = 0;
  for (let row = 1; row < values.length; row++) {
    const a = values[row - 1];
    const b = values[row];
    const step_s = time_s[row] - time_s[row - 1];
    // A comparison with NaN is false, so a missing neighbour adds no time.
    if (step_s > gap_s || !(a >= level || b >= level)) continue;
    if (Number.isNaN(a) || Number.isNaN(b)) continue;
    if (a >= level && b >= level) nearHighest_s += step_s;
    else nearHighest_s += ((Math.max(a, b) - level) / Math.abs(b - a)) * step_s;
  }
  return answer({
    highest,
    highestAt_s: time_s[highestAt],
    nearHighest_s,
    lowest,
    lowestAt_s: time_s[lowestAt],
    samples,
    missing: values.length - samples,
  });
}

export interface Excursion {
  start_s: number;
  end_s: number;
  worst: number;
  worstAt_s: number;
  samples: number;
}

export interface ExcursionBound {
  /** One of the two, or both: a value equal to a bound is inside it. */
  readonly min?: number;
  readonly max?: number;
  /** The bound holds only while this channel is inside its own range (both ends inside). */
  readonly while?: { readonly column: number; readonly from: number; readonly until: number };
}

/**
 * Every stretch in which a channel is outside its bounds. Start and end are found on the line between samples; a
 * missing cell, a gap or the end of the `while` condition closes a stretch at the last sample that was outside.
 * @param table the run
 * @param column index of the channel
 * @param bound least and greatest value in the unit of the channel, and the condition
 * @param keep how many stretches are returned, the first ones; the totals cover all of them
 * @returns stretches in order of time, how many there were, total time outside in s
 * Source: common practice, no source.
 */
export function excursions(
  table: RunTable,
  column: number,
  bound: ExcursionBound,
  keep = 1000,
): Result<{ stretches: Excursion[]; count: number; outside_s: number; samples: number; worst: number }> {
  const columns = bound.while ? [column, bound.while.column] : [column];
  const bad = refuseTable(table, columns);
  if (bad) return bad;
  const min = bound.min ?? Number.NEGATIVE_INFINITY;
  const max = bound.max ?? Number.POSITIVE_INFINITY;
  if (!(min <= max)) return refuse(`The bounds ${show(min)} and ${show(max)} are upside down.`);
  const { time_s } = table;
  const values = table.columns[column];
  const gate = bound.while ? table.columns[bound.while.column] : undefined;
  const gateFrom = bound.while?.from ?? 0;
  const gateUntil = bound.while?.until ?? 0;
  const gap_s = usualGap_s(table);
  const stretches: Excursion[] = [];
  let open: Excursion | undefined;
  let count = 0;
  let outside_s = 0;
  let samples = 0;
  let worst = Number.NaN;
  let furthest = 0;
  const close = (end_s: number): void => {
    if (!open) return;
    open.end_s = end_s;
    outside_s += end_s - open.start_s;
    open = undefined;
  };
  let lastOutside_s = 0;
  let previous = Number.NaN;
  for (let row = 0; row < values.length; row++) {
    const t = time_s[row];
    const gated = gate !== undefined && !(gate[row] >= gateFrom && gate[row] <= gateUntil);
    const value = gated ? Number.NaN : values[row];
    const joined = row > 0 && t - time_s[row - 1] <= gap_s && !Number.isNaN(previous);
    const by = value < min ? min - value : value > max ? value - max : 0;
    if (Number.isNaN(value) || (open && !joined)) close(lastOutside_s);
    if (by > 0) {
      if (!open) {
        const level = value > max ? max : min;
        const inside = joined && previous >= min && previous <= max;
        const start_s = inside ? crossing_s(time_s[row - 1], previous, t, value, level) : t;
        open = { start_s, end_s: t, worst: value, worstAt_s: t, samples: 0 };
        count++;
        if (stretches.length < keep) stretches.push(open);
      }
      open.samples++;
      samples++;
      const openBy = open.worst < min ? min - open.worst : open.worst - max;
      if (by > openBy) {
        open.worst = value;
        open.worstAt_s = t;
      }
      if (by > furthest) {
        furthest = by;
        worst = value;
      }
      lastOutside_s = t;
    } else if (open && !Number.isNaN(value)) {
      const level = previous > max ? max : min;
      close(crossing_s(time_s[row - 1], previous, t, value, level));
    }
    previous = value;
  }
  close(lastOutside_s);
  return answer({ stretches, count, outside_s, samples, worst });
}
