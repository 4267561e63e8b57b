/**
 * What happens after a start: how late a channel comes up, and whether the engine was loaded before it was warm.
 */
import { answer, type Result, refuseNotPositive, refuseUnusable } from "./result.ts";
import { crossing_s, type RunTable, refuseTable, usualGap_s } from "./run-tables.ts";

export interface StartDelay {
  /** When the speed passed the running speed, found between the samples. */
  start_s: number;
  /** When the channel reached its least value; NaN when it did not before the engine stopped or the log ended. */
  reached_s: number;
  /** Seconds from start to reaching it; 0 when it stood there already; NaN when never reached. */
  delay_s: number;
  /**
   * `in-time`, `late` (reached after the allowed time), `never` (the engine ran longer than the allowed time without
   * it), `stopped` (stopped within the allowed time, as it should be), `unknown` (the channel was missing).
   */
  verdict: "in-time" | "late" | "never" | "stopped" | "unknown";
  /** Greatest time between two samples around the answer: the delay is not known more closely than this. */
  spacing_s: number;
}

/**
 * Delay of a channel (oil pressure, as a rule) after every start in the log.
 * @param table the run
 * @param speedColumn index of the crankshaft speed, rpm
 * @param running_rpm speed from which the engine counts as running (above cranking speed), rpm
 * @param channel index of the channel
 * @param least value that it must reach, unit of the channel
 * @param within_s allowed time from start, s
 * Source: the limit is the maker's; 30 s is the figure usually taught, longer in cold (common practice).
 */
export function startDelays(
  table: RunTable,
  speedColumn: number,
  running_rpm: number,
  channel: number,
  least: number,
  within_s: number,
): Result<{ starts: StartDelay[] }> {
  const bad =
    refuseTable(table, [speedColumn, channel]) ??
    refuseNotPositive({ "running speed": running_rpm, "allowed time": within_s }) ??
    refuseUnusable({ "least value": least });
  if (bad) return bad;
  const { time_s } = table;
  const speed = table.columns[speedColumn];
  const values = table.columns[channel];
  const gap_s = usualGap_s(table);
  const starts: StartDelay[] = [];
  let running = false;
  let open: StartDelay | undefined;
  let known = false;
  let lastSpeed = Number.NaN;
  let lastSpeed_s = Number.NaN;
  const settleOpen = (until_s: number): void => {
    if (!open) return;
    const ran_s = until_s - open.start_s;
    if (!known) open.verdict = "unknown";
    else open.verdict = ran_s > within_s ? "never" : "stopped";
    open = undefined;
  };
  for (let row = 0; row < time_s.length; row++) {
    const t = time_s[row];
    const rpm = speed[row];
    if (!Number.isNaN(rpm)) {
      if (!running && rpm >= running_rpm) {
        running = true;
        const joined = t - lastSpeed_s <= gap_s && lastSpeed < running_rpm;
        const start_s = joined ? crossing_s(lastSpeed_s, lastSpeed, t, rpm, running_rpm) : t;
        // An engine that was already running in the first row was not seen to start.
        if (Number.isNaN(lastSpeed)) {
          known = false;
        } else {
          open = { start_s, reached_s: Number.NaN, delay_s: Number.NaN, verdict: "never", spacing_s: t - lastSpeed_s };
          known = false;
          starts.push(open);
          const before = row > 0 ? values[row - 1] : Number.NaN;
          if (before >= least) {
            open.reached_s = start_s;
            open.delay_s = 0;
            open.verdict = "in-time";
            open = undefined;
          }
        }
      } else if (running && rpm < running_rpm) {
        running = false;
        settleOpen(t);
      }
      lastSpeed = rpm;
      lastSpeed_s = t;
    }
    if (!open) continue;
    const value = values[row];
    if (Number.isNaN(value)) continue;
    known = true;
    if (value < least) continue;
    const before = row > 0 ? values[row - 1] : Number.NaN;
    const before_s = row > 0 ? time_s[row - 1] : Number.NaN;
    const between = before < least && t - before_s <= gap_s;
    const reached_s = between ? Math.max(open.start_s, crossing_s(before_s, before, t, value, least)) : t;
    open.reached_s = reached_s;
    open.delay_s = reached_s - open.start_s;
    open.verdict = open.delay_s <= within_s + 1e-9 ? "in-time" : "late";
    open.spacing_s = Math.max(open.spacing_s, between ? t - before_s : 0);
    open = undefined;
  }
  if (time_s.length > 0) settleOpen(time_s[time_s.length - 1]);
  return answer({ starts });
}

export interface LoadedCold {
  /** Seconds at or above the loading speed with the channel below its least value. */
  cold_s: number;
  /** Seconds at or above the loading speed with the channel missing. */
  unknown_s: number;
  /** First moment at which the speed was reached while cold; NaN when never. */
  first_s: number;
  /** The channel at its lowest while the engine was loaded; NaN when never known. */
  lowest: number;
  lowestAt_s: number;
  /** Samples taken while loaded and cold. */
  samples: number;
}

/**
 * Whether the engine was brought to a speed before a channel (oil temperature, as a rule) had reached its least value.
 * A speed or a value exactly at its bound is loaded, or warm.
 * @param table the run
 * @param speedColumn index of the crankshaft speed, rpm
 * @param loaded_rpm speed that needs a warm engine, rpm
 * @param channel index of the channel
 * @param least least value, unit of the channel
 * Source: the bound is the maker's or the shop's (common practice, no source).
 */
export function loadedBeforeWarm(
  table: RunTable,
  speedColumn: number,
  loaded_rpm: number,
  channel: number,
  least: number,
): Result<LoadedCold> {
  const bad =
    refuseTable(table, [speedColumn, channel]) ??
    refuseNotPositive({ "loading speed": loaded_rpm }) ??
    refuseUnusable({ "least value": least });
  if (bad) return bad;
  const { time_s } = table;
  const speed = table.columns[speedColumn];
  const values = table.columns[channel];
  const gap_s = usualGap_s(table);
  const found: LoadedCold = {
    cold_s: 0,
    unknown_s: 0,
    first_s: Number.NaN,
    lowest: Number.NaN,
    lowestAt_s: Number.NaN,
    samples: 0,
  };
  for (let row = 0; row < time_s.length; row++) {
    if (!(speed[row] >= loaded_rpm)) continue;
    const value = values[row];
    // A sample stands for the time up to the next one; the last one stands for nothing.
    const next_s = row + 1 < time_s.length ? Math.min(time_s[row + 1] - time_s[row], gap_s) : 0;
    if (Number.isNaN(value)) {
      found.unknown_s += next_s;
      continue;
    }
    if (!(value >= found.lowest)) {
      found.lowest = value;
      found.lowestAt_s = time_s[row];
    }
    if (value >= least) continue;
    found.cold_s += next_s;
    found.samples++;
    if (Number.isNaN(found.first_s)) found.first_s = time_s[row];
  }
  return answer(found);
}
