/** Series of readings that come singly over the years of an engine: compression by cylinder, metals in the oil, wear at a place. */
import type { Ask, Total } from "../checking/ask.ts";
import { isWithin, type PlaceSet, pathsOf } from "../facts/place.ts";
import type { CivilDate } from "../quantity/civil-date.ts";
import { convertNumber } from "../quantity/compare.ts";
import { findUnit } from "../quantity/units.ts";
import { compressionResults } from "./compressions.ts";
import { engineHours, hoursOn } from "./engine-hours.ts";
import { historyKey, placeHistory } from "./place-history.ts";

/** The engine of a job, or of `engine:NAME`; "" where it is not known. */
export function engineOfScope(ask: Ask, scope: string): string {
  return scope.startsWith("engine:") ? scope.slice("engine:".length) : (ask.job(scope)?.engine ?? "");
}

/** Where an engine is worked on: its jobs, then its work in service. */
function scopesOf(ask: Ask, engine: string): string[] {
  return [...ask.jobsOf(engine).map((job) => job.name), `engine:${engine}`];
}

/** Hours since new by the end of a day; undefined where nothing states them. */
function tsn_h(ask: Ask, engine: string, date: CivilDate): number | undefined {
  const found = hoursOn(ask.total(engineHours, engine), "tsn", date);
  return found === undefined ? undefined : found / 3600;
}

export interface SampleAt {
  readonly ref: string;
  readonly name: string;
  readonly date: CivilDate;
  readonly tsn_h: number | undefined;
  /** Hours since the oil was filled or changed last. */
  readonly sinceChange_h: number | undefined;
  /** ppm by element. */
  readonly metals: Readonly<Record<string, number>>;
}

/** Names under which a recurring task changes the oil. */
const CHANGES = /^oil-change/u;

/** Key: an engine. Samples of its oil in order of date. */
export const oilSamples: Total<readonly SampleAt[]> = {
  name: "oil-samples",
  compute(engine: string, ask: Ask): readonly SampleAt[] {
    const ppm = findUnit("ppm");
    const changes: CivilDate[] = [];
    const found: Omit<SampleAt, "sinceChange_h">[] = [];
    for (const line of ask.engine(engine)?.done ?? [])
      if (CHANGES.test(line.task) && line.on !== undefined) changes.push(line.on);
    for (const scope of scopesOf(ask, engine)) {
      for (const { block, fact } of ask.facts(scope, "oils"))
        if (fact.what === "filled" && block.date !== undefined) changes.push(block.date);
      for (const { block, fact } of ask.facts(scope, "done")) {
        const on = fact.on ?? block.date;
        if (CHANGES.test(fact.task) && on !== undefined) changes.push(on);
      }
      for (const { block, fact } of ask.facts(scope, "samples")) {
        if (block.date === undefined || !ppm) continue;
        const metals = fact.metals.flatMap(({ element, value }) =>
          value.unit.dimension === ppm.dimension
            ? [[element, convertNumber(value.value, value.unit, ppm)] as const]
            : [],
        );
        found.push({
          ref: block.ref,
          name: fact.name,
          date: block.date,
          tsn_h: tsn_h(ask, engine, block.date),
          metals: Object.fromEntries(metals),
        });
      }
    }
    return found
      .sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0))
      .map((sample) => {
        // A change on the day of the sample was made after it was drawn.
        const change = changes
          .filter((date) => date < sample.date)
          .sort((a, b) => a - b)
          .at(-1);
        const then = change === undefined ? undefined : tsn_h(ask, engine, change);
        const since = sample.tsn_h === undefined || then === undefined ? undefined : sample.tsn_h - then;
        return { ...sample, sinceChange_h: since !== undefined && since > 0 ? since : undefined };
      });
  },
};

export interface CompressionAt {
  readonly cylinder: string;
  readonly date: CivilDate;
  readonly tsn_h: number | undefined;
  readonly method: "differential" | "direct";
  /** psi. */
  readonly psi: number;
}

/** Key: an engine. Compressions of its cylinders in order of date; what a later test took the place of is left out. */
export const compressionSeries: Total<readonly CompressionAt[]> = {
  name: "compression-series",
  compute(engine: string, ask: Ask): readonly CompressionAt[] {
    const psi = findUnit("psi");
    const found: CompressionAt[] = [];
    for (const scope of scopesOf(ask, engine)) {
      const dates = new Map(ask.work(scope).map((head) => [head.ref, head.date]));
      for (const test of ask.total(compressionResults, scope).tests) {
        const date = dates.get(test.ref);
        const unit = findUnit(test.unit);
        if (date === undefined || !psi || unit?.dimension !== psi.dimension) continue;
        for (const row of test.rows)
          if (row.status === "current" && Number.isFinite(row.value))
            found.push({
              cylinder: row.cylinder,
              date,
              tsn_h: tsn_h(ask, engine, date),
              method: test.method,
              psi: convertNumber(row.value, unit, psi),
            });
      }
    }
    return found.sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
  },
};

export interface SizeAt {
  readonly hours_h: number;
  readonly size_mm: number;
}

/** The day on which another part came to a place, or the part there was reworked or moved; undefined where none did. */
function lastNewPart(ask: Ask, engine: string, feature: string, path: string): CivilDate | undefined {
  let last: CivilDate | undefined;
  const take = (date: CivilDate | undefined, place: PlaceSet | undefined): void => {
    if (date === undefined || !place || !pathsOf(place).some((outer) => isWithin(feature, path, place.feature, outer)))
      return;
    if (last === undefined || date > last) last = date;
  };
  for (const scope of scopesOf(ask, engine)) {
    for (const { block, fact } of ask.facts(scope, "fits")) take(fact.on ?? block.date, fact.place);
    for (const { block, fact } of ask.facts(scope, "reworks")) take(block.date, fact.place);
    for (const { block, fact } of ask.facts(scope, "moves")) {
      take(block.date, fact.from);
      take(block.date, fact.to);
    }
  }
  return last;
}

/** Key: `engine|feature|path`. What a place measured at known hours since new, in order; one figure for each day. */
export const wearSeries: Total<readonly SizeAt[]> = {
  name: "wear-series",
  compute(key: string, ask: Ask): readonly SizeAt[] {
    const [engine = "", feature = "", path = ""] = key.split("|");
    const mm = findUnit("mm");
    const byDay = new Map<CivilDate, SizeAt>();
    const since = lastNewPart(ask, engine, feature, path);
    for (const scope of scopesOf(ask, engine)) {
      for (const one of ask.total(placeHistory, historyKey(scope, feature)).readings) {
        const { measure, date } = one;
        if (!mm || !measure || date === undefined || one.result !== "value" || one.state !== "") continue;
        if ((one.pathNow ?? one.path) !== path || one.status !== "current" || measure.unit.dimension !== "length")
          continue;
        // What was measured before another part came there, or before it was reworked, is another story.
        if (since !== undefined && date < since) continue;
        const hours_h = tsn_h(ask, engine, date);
        if (hours_h !== undefined)
          byDay.set(date, { hours_h, size_mm: convertNumber(measure.value, measure.unit, mm) });
      }
    }
    return [...byDay].sort((a, b) => (a[0] < b[0] ? -1 : 1)).map(([, size]) => size);
  },
};
