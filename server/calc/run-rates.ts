/**
 * Cooling and warming rates of a channel that do not jump with the noise of single samples.
 */
import { show } from "./figures.ts";
import { answer, type Result, refuse, refuseNotPositive } from "./result.ts";
import { type RunTable, refuseTable, usualGap_s } from "./run-tables.ts";

export interface FastestRate {
  /** Change per minute in the unit of the channel; negative when cooling. NaN when no window was complete. */
  perMin: number;
  /** The window to which the rate belongs. */
  start_s: number;
  end_s: number;
}

export interface RunRates {
  fastestWarming: FastestRate;
  fastestCooling: FastestRate;
  /** Seconds in which the rate was known and cooling faster than `coolLimit_perMin`, or warming faster than its limit. */
  coolingTooFast_s: number;
  warmingTooFast_s: number;
  /** Windows that were complete. Zero means that no rate is known. */
  windows: number;
}

export interface RateOptions {
  /** Length of the window over which a line is fitted, s; 60 by default. */
  window_s?: number;
  /** Limits as positive changes per minute; left out, no time is counted. */
  coolLimit_perMin?: number;
  warmLimit_perMin?: number;
  gap_s?: number;
}

/** Middle of five, by comparison only: a single or a double spike of a thermocouple cannot pass. */
function medianOfFive(a: number, b: number, c: number, d: number, e: number): number {
  const low1 = Math.min(a, b);
  const high1 = Math.max(a, b);
  const low2 = Math.min(c, d);
  const high2 = Math.max(c, d);
  const lowest = Math.max(low1, low2);
  const highest = Math.min(high1, high2);
  // The median of a, b, c, d, e is the median of the second lowest bound, the second highest bound and e.
  const low = Math.min(lowest, highest);
  const high = Math.max(lowest, highest);
  return e < low ? low : Math.min(e, high);
}

/**
 * Fastest warming and cooling of one channel, as the slope of a straight line fitted by least squares to the samples of
 * a moving window. Where the log is dense (ten samples or more in a window) a median of five samples goes first, so that
 * a lone spike is no cooling. Where it is sparse the window reaches back to the first sample that makes it full length,
 * so two typed rows a minute apart give the plain difference.
 * @param table the run
 * @param column index of the channel
 * @param options window, limits and gap
 * @returns rates per minute in the unit of the channel; a refusal when the window is no time
 * Source: least squares; median filter (common practice, no source).
 */
export function fastestRates(table: RunTable, column: number, options: RateOptions = {}): Result<RunRates> {
  const window_s = options.window_s ?? 60;
  const bad =
    refuseTable(table, [column]) ??
    refuseNotPositive({
      window: window_s,
      "cooling limit": options.coolLimit_perMin ?? 1,
      "warming limit": options.warmLimit_perMin ?? 1,
    });
  if (bad) return bad;
  const { time_s } = table;
  const rows = time_s.length;
  if (rows < 2) return refuse(`A rate needs at least two samples; this log has ${show(rows)}.`);
  const gap_s = options.gap_s ?? usualGap_s(table);
  const values = table.columns[column];
  const spacing_s = (time_s[rows - 1] - time_s[0]) / (rows - 1);
  const dense = spacing_s * 10 <= window_s;
  const rates: RunRates = {
    fastestWarming: { perMin: Number.NaN, start_s: Number.NaN, end_s: Number.NaN },
    fastestCooling: { perMin: Number.NaN, start_s: Number.NaN, end_s: Number.NaN },
    coolingTooFast_s: 0,
    warmingTooFast_s: 0,
    windows: 0,
  };
  let first = 0;
  while (first < rows) {
    if (Number.isNaN(values[first])) {
      first++;
      continue;
    }
    let last = first;
    // One missing cell does not end a piece, but a gap in time does; missing cells inside are stepped over below.
    for (let row = first + 1; row < rows; row++) {
      if (time_s[row] - time_s[last] > gap_s) break;
      if (!Number.isNaN(values[row])) last = row;
    }
    overPiece(time_s, values, first, last, window_s, dense, options, rates);
    first = last + 1;
  }
  return answer(rates);
}

/** Ring of the samples in the window; grows by doubling when a window holds more of them. */
interface Ring {
  t: Float64Array;
  v: Float64Array;
  start: number;
  count: number;
}

function push(ring: Ring, t: number, v: number): void {
  const size = ring.t.length;
  if (ring.count === size) {
    const bigger: Ring = { t: new Float64Array(size * 2), v: new Float64Array(size * 2), start: 0, count: size };
    for (let index = 0; index < size; index++) {
      const from = (ring.start + index) & (size - 1);
      bigger.t[index] = ring.t[from];
      bigger.v[index] = ring.v[from];
    }
    ring.t = bigger.t;
    ring.v = bigger.v;
    ring.start = 0;
  }
  const at = (ring.start + ring.count) & (ring.t.length - 1);
  ring.t[at] = t;
  ring.v[at] = v;
  ring.count++;
}

function keepRate(rate: FastestRate, perMin: number, start_s: number, end_s: number): void {
  rate.perMin = perMin;
  rate.start_s = start_s;
  rate.end_s = end_s;
}

/** Runs the moving window over one piece of the log without gaps. */
function overPiece(
  time_s: Float64Array,
  values: Float64Array,
  first: number,
  last: number,
  window_s: number,
  dense: boolean,
  options: RateOptions,
  rates: RunRates,
): void {
  const coolLimit = options.coolLimit_perMin ?? Number.POSITIVE_INFINITY;
  const warmLimit = options.warmLimit_perMin ?? Number.POSITIVE_INFINITY;
  const ring: Ring = { t: new Float64Array(64), v: new Float64Array(64), start: 0, count: 0 };
  // Sums are kept about a moving origin and rebuilt now and then: over a long log running sums would lose their digits.
  let t0 = time_s[first];
  let v0 = values[first];
  let n = 0;
  let st = 0;
  let sv = 0;
  let stt = 0;
  let stv = 0;
  let sinceRebuild = 0;
  let rebuildEvery = 4096;
  // The last five values and times, oldest first, for the median.
  let a = Number.NaN;
  let b = Number.NaN;
  let c = Number.NaN;
  let d = Number.NaN;
  let tc = Number.NaN;
  let td = Number.NaN;
  let seen = 0;
  let lastTime = Number.NaN;
  for (let row = first; row <= last; row++) {
    const raw = values[row];
    if (Number.isNaN(raw)) continue;
    let t = time_s[row];
    let v = raw;
    if (dense) {
      seen++;
      const fifth = raw;
      const fifthTime = t;
      if (seen >= 5) {
        v = medianOfFive(a, b, c, d, fifth);
        t = tc;
      }
      a = b;
      b = c;
      c = d;
      d = fifth;
      tc = td;
      td = fifthTime;
      if (seen < 5) continue;
    }
    push(ring, t, v);
    const rt = t - t0;
    const rv = v - v0;
    n++;
    st += rt;
    sv += rv;
    stt += rt * rt;
    stv += rt * rv;
    // The window keeps the newest sample that is still a full window old, and drops everything before it.
    const mask = ring.t.length - 1;
    while (ring.count >= 2 && t - ring.t[(ring.start + 1) & mask] >= window_s) {
      const oldT = ring.t[ring.start] - t0;
      const oldV = ring.v[ring.start] - v0;
      n--;
      st -= oldT;
      sv -= oldV;
      stt -= oldT * oldT;
      stv -= oldT * oldV;
      ring.start = (ring.start + 1) & mask;
      ring.count--;
    }
    if (++sinceRebuild >= rebuildEvery) {
      sinceRebuild = 0;
      rebuildEvery = Math.max(4096, 8 * ring.count);
      t0 = ring.t[ring.start];
      v0 = ring.v[ring.start];
      n = ring.count;
      st = sv = stt = stv = 0;
      for (let index = 0; index < n; index++) {
        const at = (ring.start + index) & mask;
        const ft = ring.t[at] - t0;
        const fv = ring.v[at] - v0;
        st += ft;
        sv += fv;
        stt += ft * ft;
        stv += ft * fv;
      }
    }
    const oldest = ring.t[ring.start];
    const spread = n * stt - st * st;
    if (t - oldest >= window_s * 0.999 && spread > 0) {
      const perMin = (60 * (n * stv - st * sv)) / spread;
      rates.windows++;
      if (!(perMin <= rates.fastestWarming.perMin)) keepRate(rates.fastestWarming, perMin, oldest, t);
      if (!(perMin >= rates.fastestCooling.perMin)) keepRate(rates.fastestCooling, perMin, oldest, t);
      const step_s = Number.isNaN(lastTime) ? 0 : t - lastTime;
      // A fitted slope may miss a limit by a rounding of binary arithmetic; one part in a thousand million is no cooling.
      if (-perMin > coolLimit * (1 + 1e-9)) rates.coolingTooFast_s += step_s;
      if (perMin > warmLimit * (1 + 1e-9)) rates.warmingTooFast_s += step_s;
    }
    lastTime = t;
  }
}
