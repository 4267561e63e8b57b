/**
 * The ledger of an engine's hours and cycles: what was stated, what was run on the stand, what was run in service, where the time since overhaul
 * began again.
 *
 * Times are kept in seconds, so that a sum of twenty-minute runs is a whole number and a task due at 50 h is not missed by a rounding.
 */
import type { Ask, Total, WorkHead } from "../checking/ask.ts";
import type { At } from "../facts/types.ts";
import { type CivilDate, formatDate } from "../quantity/civil-date.ts";
import { convertNumber, type Measure } from "../quantity/compare.ts";
import { findUnit } from "../quantity/units.ts";
import { runTime } from "./run-summary.ts";

/** What the counters stand at: seconds for those that count time, a plain count for cycles, landings, starts. */
export type Counters = Readonly<Record<string, number>>;

export interface Stated {
  readonly counter: string;
  readonly amount: number;
  /** As written: `1184.3 h`. */
  readonly text: string;
  /** Half of the last place that was written, in the unit of `amount`: what rounding may hide. */
  readonly rounding: number;
}

export interface HoursEntry {
  readonly kind: "stated" | "run" | "used" | "overhauled";
  readonly date: CivilDate;
  /** The block and line that says so. */
  readonly ref: string;
  readonly at: At;
  readonly stated: readonly Stated[];
  /** What the counters stood at before, as far as the ledger knew. */
  readonly before: Counters;
  readonly after: Counters;
  /** Seconds that a run or a stretch of service added; 0 where the shop does not count stand time. */
  readonly added_s: number;
}

export interface MeterReading {
  readonly meter: string;
  readonly amount: number;
  readonly text: string;
  readonly rounding: number;
  readonly date: CivilDate;
  readonly ref: string;
  readonly at: At;
}

export interface EngineHours {
  readonly engine: string;
  /** In order; within a day the engine's own lines stand last, as a figure for the day's end. */
  readonly entries: readonly HoursEntry[];
  readonly meters: readonly MeterReading[];
  /** Units of the counters: `time`, `count:cycles`. */
  readonly dimensions: Readonly<Record<string, string>>;
  readonly standTime: "counts" | "excluded";
  /** Runs whose logs do not show how long the engine ran. */
  readonly unknownRuns: readonly string[];
  readonly overhauls: readonly { readonly date: CivilDate; readonly ref: string; readonly at: At }[];
}

const second = findUnit("s");

/** Seconds for a time, the plain count for a count; undefined for anything else. */
export function amountOf(value: Measure): number | undefined {
  const { dimension } = value.unit;
  if (dimension === "time")
    return second ? Math.round(convertNumber(value.value, value.unit, second) * 1e3) / 1e3 : undefined;
  return dimension.startsWith("count:") ? value.value : undefined;
}

function roundingOf(value: Measure): number {
  const point = value.text.indexOf(".");
  const places = point < 0 ? 0 : value.text.length - point - 1;
  return (10 ** -places / 2) * (value.unit.dimension === "time" ? value.unit.factorNumber : 1);
}

/** Every block of work on an engine, across its jobs and in service, in order. */
export function engineWork(engine: string, ask: Ask): readonly WorkHead[] {
  const lists = [...ask.jobsOf(engine).map((job) => ask.work(job.name)), ask.work(`engine:${engine}`)].filter(
    (list) => list.length > 0,
  );
  if (lists.length <= 1) return lists[0] ?? [];
  // A stable sort keeps the order that each list already has among blocks of one day without times.
  return lists
    .flat()
    .sort(
      (a, b) => (a.date ?? 0) - (b.date ?? 0) || (a.time !== undefined && b.time !== undefined ? a.time - b.time : 0),
    );
}

interface Event extends Omit<HoursEntry, "before" | "after"> {
  readonly rank: number;
}

/** Engine lines stand at the end of their day. */
const DAY_END = Number.MAX_SAFE_INTEGER;

interface Gathered {
  readonly events: Event[];
  readonly meters: (MeterReading & { readonly rank: number })[];
  readonly dimensions: Record<string, string>;
  readonly unknownRuns: string[];
}

function statedOf(
  counters: readonly { readonly name: string; readonly value: Measure }[],
  dimensions: Record<string, string>,
): Stated[] {
  return counters.flatMap(({ name, value }) => {
    const amount = amountOf(value);
    if (amount === undefined) return [];
    dimensions[name] ??= value.unit.dimension;
    return dimensions[name] === value.unit.dimension
      ? [{ counter: name, amount, text: `${value.text} ${value.unit.spelling}`, rounding: roundingOf(value) }]
      : [];
  });
}

function gather(engine: string, ask: Ask): Gathered {
  const events: Event[] = [];
  const meters: Gathered["meters"] = [];
  const dimensions: Record<string, string> = {};
  const unknownRuns: string[] = [];
  const add = (
    kind: Event["kind"],
    date: CivilDate | undefined,
    rank: number,
    ref: string,
    at: At,
    stated: readonly Stated[] = [],
    added_s = 0,
  ): void => {
    if (date !== undefined) events.push({ kind, date, ref, at, stated, added_s, rank });
  };
  const addMeter = (
    line: { readonly name: string; readonly value: Measure; readonly at: At },
    date: CivilDate | undefined,
    rank: number,
    ref: string,
  ): void => {
    const amount = amountOf(line.value);
    if (amount === undefined || date === undefined) return;
    meters.push({
      meter: line.name,
      amount,
      text: `${line.value.text} ${line.value.unit.spelling}`,
      rounding: roundingOf(line.value),
      date,
      ref,
      at: line.at,
      rank,
    });
  };

  const block = ask.engine(engine);
  for (const line of block?.overhauled ?? []) add("overhauled", line.on, DAY_END, block?.ref ?? "", line.at);
  for (const line of block?.used ?? []) {
    const amount = line.value.unit.dimension === "time" ? amountOf(line.value) : undefined;
    if (amount !== undefined) add("used", line.until, DAY_END, block?.ref ?? "", line.at, [], amount);
  }
  for (const line of block?.hours ?? [])
    add("stated", line.on, DAY_END, block?.ref ?? "", line.at, statedOf(line.counters, dimensions));
  for (const line of block?.meters ?? []) addMeter(line, line.on, DAY_END, block?.ref ?? "");

  const work = engineWork(engine, ask);
  const rankOf = new Map(work.map((head, rank) => [head.ref, rank]));
  const counts = ask.shop().standTime === "counts";
  for (const head of work) {
    if (head.kind === "run") {
      const time_s = ask.total(runTime, head.ref);
      if (time_s === undefined) unknownRuns.push(head.ref);
      else if (time_s > 0) add("run", head.date, rankOf.get(head.ref) ?? 0, head.ref, 0, [], counts ? time_s : 0);
    }
    if (head.atHours_h !== undefined && head.atCounter !== "") {
      const amount = Math.round(head.atHours_h * 3.6e6) / 1e3;
      dimensions[head.atCounter] ??= "time";
      // An entry in service says at what hours it was made: a statement like any other.
      const stated = { counter: head.atCounter, amount, text: `${head.atHours_h} h`, rounding: 180 };
      if (dimensions[head.atCounter] === "time")
        add("stated", head.date, rankOf.get(head.ref) ?? 0, head.ref, 0, [stated]);
    }
  }
  for (const scope of [...ask.jobsOf(engine).map((job) => job.name), `engine:${engine}`]) {
    const rank = (ref: string, on: CivilDate | undefined, date: CivilDate | undefined): number =>
      on === undefined || on === date ? (rankOf.get(ref) ?? 0) : DAY_END;
    for (const { block: head, fact } of ask.facts(scope, "hours")) {
      add(
        "stated",
        fact.on ?? head.date,
        rank(head.ref, fact.on, head.date),
        head.ref,
        fact.at,
        statedOf(fact.counters, dimensions),
      );
    }
    for (const { block: head, fact } of ask.facts(scope, "overhauled"))
      add("overhauled", fact.on ?? head.date, rank(head.ref, fact.on, head.date), head.ref, fact.at);
    for (const { block: head, fact } of ask.facts(scope, "meters"))
      addMeter(fact, fact.on ?? head.date, rank(head.ref, fact.on, head.date), head.ref);
  }
  return { events, meters, dimensions, unknownRuns };
}

const order = { run: 0, used: 1, overhauled: 2, stated: 3 } as const;

function step(event: Event, before: Counters, dimensions: Readonly<Record<string, string>>): Counters {
  switch (event.kind) {
    case "stated":
      return { ...before, ...Object.fromEntries(event.stated.map((one) => [one.counter, one.amount])) };
    case "overhauled":
      return { ...before, tso: 0 };
    default: {
      const after: Record<string, number> = {};
      for (const [counter, amount] of Object.entries(before)) {
        // Only running hours run: a counter of another time is called by what it counts and is stated, not worked out.
        after[counter] = dimensions[counter] === "time" ? amount + event.added_s : amount;
      }
      return after;
    }
  }
}

/** Key: an engine's name. Empty where nothing is known of it. */
export const engineHours: Total<EngineHours> = {
  name: "engine-hours",
  compute(engine: string, ask: Ask): EngineHours {
    const { events, meters, dimensions, unknownRuns } = gather(engine, ask);
    if (!("tso" in dimensions) && events.some((event) => event.kind === "overhauled")) dimensions.tso = "time";
    events.sort((a, b) => a.date - b.date || a.rank - b.rank || order[a.kind] - order[b.kind] || a.at - b.at);
    meters.sort((a, b) => a.date - b.date || a.rank - b.rank || a.at - b.at);
    let counters: Counters = {};
    const entries = events.map((event): HoursEntry => {
      const { kind, date, ref, at, stated, added_s } = event;
      const before = counters;
      counters = step(event, before, dimensions);
      return { kind, date, ref, at, stated, before, after: counters, added_s };
    });
    return {
      engine,
      entries,
      dimensions,
      unknownRuns,
      standTime: ask.shop().standTime,
      meters: meters.map(({ rank: _rank, ...meter }) => meter),
      overhauls: entries.filter((entry) => entry.kind === "overhauled").map(({ date, ref, at }) => ({ date, ref, at })),
    };
  },
};

/**
 * What a counter stands at by the end of a day.
 * @param counter `tsn`, `tso`, `cycles` ...
 * @param date the day, included
 * @returns seconds or a count; undefined where the ledger has nothing up to that day
 */
export function hoursOn(ledger: EngineHours, counter: string, date: CivilDate): number | undefined {
  let low = 0;
  let high = ledger.entries.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (ledger.entries[middle].date <= date) low = middle + 1;
    else high = middle;
  }
  return low === 0 ? undefined : ledger.entries[low - 1].after[counter];
}

/** Where an amount stood when a block of work of the engine was written: after the runs and statements that stand before it. */
export function hoursWhen(
  ledger: EngineHours,
  counter: string,
  date: CivilDate,
  isBefore: (ref: string) => boolean,
): number | undefined {
  let found: number | undefined;
  for (const entry of ledger.entries) {
    if (entry.date > date) break;
    if (entry.date === date && !isBefore(entry.ref)) continue;
    found = entry.after[counter] ?? found;
  }
  return found;
}

/** `1184.3 h`, `402 cycles`: an amount of the ledger as the records write it. */
export function showAmount(amount: number, dimension: string): string {
  if (dimension !== "time") return `${amount} ${dimension.replace(/^count:/u, "")}`;
  const hundredths = Math.round(amount / 36);
  return `${(hundredths / 100).toFixed(hundredths % 10 === 0 ? 1 : 2)} h`;
}

/** `2026-04-11 in J26-014/R1`, or the day alone for the engine's own lines. */
export function whereStated(entry: { readonly date: CivilDate; readonly ref: string }): string {
  return entry.ref.startsWith("engine/") ? formatDate(entry.date) : `${formatDate(entry.date)} in ${entry.ref}`;
}
