/**
 * Run-in steps matched against a run log, in their order.
 */
import { show } from "./figures.ts";
import { answer, type Result, refuse, refuseNotPositive } from "./result.ts";
import { crossing_s, type RunTable, refuseTable, usualGap_s } from "./run-tables.ts";

export interface RunInBound {
  readonly column: number;
  readonly min?: number;
  readonly max?: number;
}

export interface RunInStep {
  readonly name: string;
  /** Least time in s that the speed must stay in its range. */
  readonly least_s: number;
  /** Speed range in rpm, both ends inside. */
  readonly from_rpm: number;
  readonly until_rpm: number;
  /** Bounds that hold while the step runs. */
  readonly bounds?: readonly RunInBound[];
}

export interface BoundBroken {
  column: number;
  bound: "min" | "max";
  limit: number;
  /** Furthest value outside and when it stood. */
  worst: number;
  worstAt_s: number;
  /** Samples outside the bound. */
  samples: number;
}

export interface StepMatch {
  name: string;
  /**
   * `done`: the least time was reached after the step before it. `short`: the speed was in its range after the step
   * before it, but for less than the least time. `out-of-order`: reached, but only before the step before it began.
   * `missed`: the speed was never long enough in its range anywhere.
   */
  verdict: "done" | "short" | "out-of-order" | "missed";
  /** Start and end of the stretch that was taken, s; NaN when missed. */
  start_s: number;
  end_s: number;
  /** Time in the speed range that counted, s. */
  counted_s: number;
  boundsBroken: BoundBroken[];
}

/** A stretch of the log in which the speed stays in the range of a step. */
interface Stretch {
  start_s: number;
  end_s: number;
  /** Seconds outside the range that were bridged. */
  bridged_s: number;
}

function findStretches(table: RunTable, column: number, step: RunInStep, gap_s: number, bridge_s: number): Stretch[] {
  const { time_s } = table;
  const speed = table.columns[column];
  const { from_rpm, until_rpm } = step;
  const stretches: Stretch[] = [];
  let open: Stretch | undefined;
  const extend = (start_s: number, end_s: number): void => {
    if (open && start_s - open.end_s <= bridge_s) {
      open.bridged_s += start_s - open.end_s;
      open.end_s = end_s;
      return;
    }
    open = { start_s, end_s, bridged_s: 0 };
    stretches.push(open);
  };
  for (let row = 1; row < time_s.length; row++) {
    const t0 = time_s[row - 1];
    const t1 = time_s[row];
    const a = speed[row - 1];
    const b = speed[row];
    if (Number.isNaN(a) || Number.isNaN(b) || t1 - t0 > gap_s) {
      // A stretch never runs across a part of the log that nobody recorded, however short the bridge would be.
      open = undefined;
      continue;
    }
    const low = Math.min(a, b);
    const high = Math.max(a, b);
    if (high < from_rpm || low > until_rpm) continue;
    if (low >= from_rpm && high <= until_rpm) {
      extend(t0, t1);
      continue;
    }
    const enters =
      a < from_rpm ? crossing_s(t0, a, t1, b, from_rpm) : a > until_rpm ? crossing_s(t0, a, t1, b, until_rpm) : t0;
    const leaves =
      b < from_rpm ? crossing_s(t0, a, t1, b, from_rpm) : b > until_rpm ? crossing_s(t0, a, t1, b, until_rpm) : t1;
    extend(enters, leaves);
  }
  return stretches;
}

function firstRowAt(time_s: Float64Array, at_s: number): number {
  let low = 0;
  let high = time_s.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (time_s[middle] < at_s) low = middle + 1;
    else high = middle;
  }
  return low;
}

function checkBounds(table: RunTable, bounds: readonly RunInBound[], start_s: number, end_s: number): BoundBroken[] {
  const broken: BoundBroken[] = [];
  const { time_s } = table;
  const firstRow = firstRowAt(time_s, start_s);
  for (const bound of bounds) {
    const values = table.columns[bound.column];
    for (const kind of ["min", "max"] as const) {
      const limit = bound[kind];
      if (limit === undefined) continue;
      const found: BoundBroken = {
        column: bound.column,
        bound: kind,
        limit,
        worst: limit,
        worstAt_s: Number.NaN,
        samples: 0,
      };
      for (let row = firstRow; row < time_s.length && time_s[row] <= end_s; row++) {
        const value = values[row];
        const outside = kind === "min" ? value < limit : value > limit;
        if (!outside) continue;
        found.samples++;
        if (kind === "min" ? value < found.worst : value > found.worst) {
          found.worst = value;
          found.worstAt_s = time_s[row];
        }
      }
      if (found.samples > 0) broken.push(found);
    }
  }
  return broken;
}

/**
 * Matches run-in steps in order. Each step takes the earliest stretch, after the time that the step before it used, in
 * which the speed stays in its range for at least the least time; the time left over in a stretch may serve the next
 * step. Taking the earliest stretch each time finds a full match whenever there is one. When there is none the longest
 * stretch after the step before it is reported, so that the record says how much was missing.
 * @param table the run
 * @param speedColumn index of the crankshaft speed, rpm
 * @param steps in the order in which they are to be run
 * @param options.gap_s longest time between samples that is joined (see `usualGap_s`)
 * @param options.bridge_s excursions out of the range up to this time do not end a stretch, but do not count either; 0 by default
 * Source: common practice, no source.
 */
export function matchRunIn(
  table: RunTable,
  speedColumn: number,
  steps: readonly RunInStep[],
  options: { gap_s?: number; bridge_s?: number } = {},
): Result<{ steps: StepMatch[]; complete: boolean }> {
  const used = [speedColumn, ...steps.flatMap((step) => (step.bounds ?? []).map((bound) => bound.column))];
  const bad = refuseTable(table, used);
  if (bad) return bad;
  for (const step of steps) {
    const wrong = refuseNotPositive({ [`least time of step ${step.name}`]: step.least_s });
    if (wrong) return wrong;
    if (!(step.from_rpm <= step.until_rpm)) {
      return refuse(
        `The speed range of step ${step.name}, ${show(step.from_rpm)} to ${show(step.until_rpm)} rpm, is upside down.`,
      );
    }
  }
  const gap_s = options.gap_s ?? usualGap_s(table);
  const bridge_s = options.bridge_s ?? 0;
  // Binary fractions of a second must not turn a step that was run for exactly its time into a short one.
  const slack_s = 1e-6;
  const matches: StepMatch[] = [];
  let after_s = Number.NEGATIVE_INFINITY;
  let began_s = Number.NEGATIVE_INFINITY;
  for (const step of steps) {
    const stretches = findStretches(table, speedColumn, step, gap_s, bridge_s);
    let best: { start_s: number; end_s: number; counted_s: number } | undefined;
    let done = false;
    let early: { start_s: number; end_s: number; counted_s: number } | undefined;
    for (const stretch of stretches) {
      const before_s = Math.min(stretch.end_s, began_s) - stretch.start_s - stretch.bridged_s;
      if (!early && before_s >= step.least_s - slack_s) {
        early = { start_s: stretch.start_s, end_s: Math.min(stretch.end_s, began_s), counted_s: before_s };
      }
      if (stretch.end_s <= after_s) continue;
      const start_s = Math.max(stretch.start_s, after_s);
      // Bridged seconds are not placed inside the stretch; taking them all off the rest errs to the strict side.
      const counted_s = stretch.end_s - start_s - stretch.bridged_s;
      if (!best || counted_s > best.counted_s) best = { start_s, end_s: stretch.end_s, counted_s };
      if (counted_s >= step.least_s - slack_s) {
        best = { start_s, end_s: stretch.end_s, counted_s };
        done = true;
        break;
      }
    }
    if (done && best) {
      after_s = best.start_s + step.least_s;
      began_s = best.start_s;
      matches.push({ name: step.name, verdict: "done", ...best, boundsBroken: [] });
    } else if (early) {
      matches.push({ name: step.name, verdict: "out-of-order", ...early, boundsBroken: [] });
    } else if (best && best.counted_s > slack_s) {
      after_s = best.end_s;
      began_s = best.start_s;
      matches.push({ name: step.name, verdict: "short", ...best, boundsBroken: [] });
    } else {
      matches.push({
        name: step.name,
        verdict: "missed",
        start_s: Number.NaN,
        end_s: Number.NaN,
        counted_s: 0,
        boundsBroken: [],
      });
    }
  }
  endStepsWhereTheNextBegins(matches);
  for (const [index, match] of matches.entries()) {
    if (match.verdict === "missed") continue;
    match.boundsBroken = checkBounds(table, steps[index].bounds ?? [], match.start_s, match.end_s);
  }
  return answer({ steps: matches, complete: matches.every((match) => match.verdict === "done") });
}

/** A stretch that serves two steps belongs to the first only until the second begins. */
function endStepsWhereTheNextBegins(matches: StepMatch[]): void {
  for (let index = 0; index + 1 < matches.length; index++) {
    const next = matches[index + 1];
    const match = matches[index];
    if (next.start_s >= match.start_s && next.start_s < match.end_s) {
      match.counted_s -= match.end_s - next.start_s;
      match.end_s = next.start_s;
    }
  }
}
