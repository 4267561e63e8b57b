/**
 * What a run was: how long, at which speeds, how hot, how much fuel and oil. One pass over each column of its logs.
 */

import { usualGap_s } from "../calc/run-tables.ts";
import type { Ask, Total } from "../checking/ask.ts";
import type { RunLog, WorkBlock } from "../facts/types.ts";
import type { CivilDate } from "../quantity/civil-date.ts";
import { convertNumber } from "../quantity/compare.ts";
import { findUnit, type Unit } from "../quantity/units.ts";
import { type RunInState, runIn } from "./run-in-state.ts";
import { logsOf } from "./run-logs.ts";
import { runningTime_s, speedColumn, tableOf, turnings } from "./run-table.ts";

export interface ChannelSummary {
  /** `cht[3]`. */
  readonly place: string;
  /** Unit as the log's heading spells it. */
  readonly unit: string;
  readonly least: number;
  readonly greatest: number;
  /** Seconds from the first row of the run's logs. */
  readonly leastAt_s: number;
  readonly greatestAt_s: number;
  /** Mean over the time for which it is known, samples joined by straight lines; NaN without two samples. */
  readonly mean: number;
  readonly samples: number;
}

export interface SpeedBand {
  /** Lower edge belongs to the band, the upper one to the next. */
  readonly from_rpm: number;
  readonly until_rpm: number;
  readonly time_s: number;
}

export interface RunSummary {
  readonly ref: string;
  readonly job: string;
  readonly date: CivilDate | undefined;
  /** Seconds of the day at the first row, where the log is written by the clock. */
  readonly startsAt: number | undefined;
  /** From the first row to the last, all logs together. */
  readonly logged_s: number;
  /** Time above running speed (`RUNNING_rpm`); undefined where no log shows the speed. */
  readonly running_s: number | undefined;
  readonly starts: number;
  readonly rows: number;
  readonly bands: readonly SpeedBand[];
  readonly channels: readonly ChannelSummary[];
  /** Litres; undefined where the run names none. */
  readonly fuel_L: number | undefined;
  readonly oilAdded_L: number | undefined;
  readonly oilDrained_L: number | undefined;
  /** The schedule and how far this job has come with it. */
  readonly runIn: RunInState | undefined;
}

const BAND_rpm = 500;

/** Time by bands of 500 rpm above standing, the edges found between the samples. */
function speedBands(log: RunLog, into: Map<number, number>): void {
  const speed = speedColumn(log);
  if (speed < 0) return;
  const table = tableOf(log);
  const values = table.columns[speed];
  const gap_s = usualGap_s(table);
  for (let row = 1; row < values.length; row++) {
    const step_s = table.time_s[row] - table.time_s[row - 1];
    const a = values[row - 1];
    const b = values[row];
    if (!(step_s > 0) || step_s > gap_s || Number.isNaN(a) || Number.isNaN(b)) continue;
    const low = Math.min(a, b);
    const high = Math.max(a, b);
    const last = Math.floor(high / BAND_rpm);
    for (let band = Math.floor(low / BAND_rpm); band <= last; band++) {
      const bottom = Math.max(low, band * BAND_rpm);
      const top = Math.min(high, (band + 1) * BAND_rpm);
      const part_s = high > low ? ((top - bottom) / (high - low)) * step_s : step_s;
      if (part_s > 0) into.set(band, (into.get(band) ?? 0) + part_s);
    }
  }
}

interface Gathering {
  readonly unit: Unit;
  least: number;
  greatest: number;
  leastAt_s: number;
  greatestAt_s: number;
  area: number;
  known_s: number;
  samples: number;
}

function gather(log: RunLog, column: number, offset_s: number, one: Gathering): void {
  const table = tableOf(log);
  const values = table.columns[column];
  const from = log.columns[column]?.unit;
  if (!from || from.dimension !== one.unit.dimension) return;
  const same = from === one.unit;
  const gap_s = usualGap_s(table);
  let previous = Number.NaN;
  let previous_s = 0;
  for (let row = 0; row < values.length; row++) {
    const value = same ? values[row] : convertNumber(values[row], from, one.unit);
    if (Number.isNaN(value)) continue;
    const t = table.time_s[row];
    one.samples++;
    if (!(value >= one.least)) {
      one.least = value;
      one.leastAt_s = t + offset_s;
    }
    if (!(value <= one.greatest)) {
      one.greatest = value;
      one.greatestAt_s = t + offset_s;
    }
    if (!Number.isNaN(previous) && t - previous_s <= gap_s) {
      one.area += ((value + previous) / 2) * (t - previous_s);
      one.known_s += t - previous_s;
    }
    previous = value;
    previous_s = t;
  }
}

const litre = findUnit("L");

/** Sum in litres of volumes; a mass of oil or fuel cannot be turned into a volume here, so it makes the sum unknown. */
function litres(
  values: readonly { readonly value: { readonly value: number; readonly unit: Unit } }[],
): number | undefined {
  let sum: number | undefined;
  for (const { value } of values) {
    if (!litre || value.unit.dimension !== litre.dimension) return undefined;
    sum = (sum ?? 0) + convertNumber(value.value, value.unit, litre);
  }
  return sum;
}

/**
 * Figures of one block of work with logs; for anything else than a run there are no logs and the figures are empty.
 * @param run the run's facts
 * @param logs its logs, with those of a logger's files; the typed ones when left out
 */
export function summariseRun(run: WorkBlock, logs: readonly RunLog[] = run.logs): Omit<RunSummary, "runIn"> {
  const bands = new Map<number, number>();
  const channels = new Map<string, Gathering>();
  let offset_s = 0;
  let logged_s = 0;
  let running_s: number | undefined;
  let starts = 0;
  let rows = 0;
  for (const log of logs) {
    const table = tableOf(log);
    rows += log.time_s.length;
    if (table.time_s.length === 0) continue;
    const first = logs[0];
    if (log.startsAt !== undefined && first?.startsAt !== undefined)
      offset_s = log.startsAt - first.startsAt + table.time_s[0];
    speedBands(log, bands);
    const speed = speedColumn(log);
    if (speed >= 0) {
      running_s = (running_s ?? 0) + runningTime_s(table, speed);
      starts += turnings(table, speed).length;
    }
    for (const [index, column] of log.columns.entries()) {
      if (!column.unit) continue;
      let one = channels.get(column.place);
      if (!one) {
        one = {
          unit: column.unit,
          least: Number.NaN,
          greatest: Number.NaN,
          leastAt_s: 0,
          greatestAt_s: 0,
          area: 0,
          known_s: 0,
          samples: 0,
        };
        channels.set(column.place, one);
      }
      gather(log, index, offset_s - table.time_s[0], one);
    }
    logged_s += table.time_s[table.time_s.length - 1] - table.time_s[0];
  }
  return {
    ref: run.ref,
    job: run.job,
    date: run.date,
    startsAt: logs[0]?.startsAt,
    logged_s,
    running_s,
    starts,
    rows,
    bands: [...bands]
      .sort((a, b) => a[0] - b[0])
      .map(([band, time_s]) => ({ from_rpm: band * BAND_rpm, until_rpm: (band + 1) * BAND_rpm, time_s })),
    channels: [...channels]
      .filter(([, one]) => one.samples > 0)
      .map(([place, one]) => ({
        place,
        unit: one.unit.spelling,
        least: one.least,
        greatest: one.greatest,
        leastAt_s: one.leastAt_s,
        greatestAt_s: one.greatestAt_s,
        mean: one.known_s > 0 ? one.area / one.known_s : one.samples === 1 ? one.least : Number.NaN,
        samples: one.samples,
      })),
    fuel_L: litres(run.fuels),
    oilAdded_L: litres(run.oils.filter((oil) => oil.what === "added")),
    oilDrained_L: litres(run.oils.filter((oil) => oil.what === "drained")),
  };
}

/** Key: the run's ref, `J26-014/R1`. Undefined where no such block stands. */
export const runSummary: Total<RunSummary | undefined> = {
  name: "run-summary",
  compute(ref: string, ask: Ask): RunSummary | undefined {
    const run = ask.workBlock(ref);
    if (!run) return undefined;
    return { ...summariseRun(run, logsOf(ask, run)), runIn: run.job === "" ? undefined : ask.total(runIn, run.job) };
  },
};

/**
 * How long a run ran, for the ledger of hours: apart from the summary, so that a temperature that is typed does not touch the hours.
 * Key: the run's ref. Seconds rounded to whole ones; undefined where no log shows the speed.
 */
export const runTime: Total<number | undefined> = {
  name: "run-time",
  compute(ref: string, ask: Ask): number | undefined {
    const run = ask.workBlock(ref);
    let sum: number | undefined;
    for (const log of run ? logsOf(ask, run) : []) {
      const speed = speedColumn(log);
      if (speed >= 0) sum = (sum ?? 0) + runningTime_s(tableOf(log), speed);
    }
    return sum === undefined ? undefined : Math.round(sum);
  },
};
