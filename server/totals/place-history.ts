/**
 * Every reading of a feature across a job, where its part is now, how it stands to its limits, and whether it still speaks.
 *
 * A bad reading is not a bad record. What supersedes a reading, so that it is kept, shown and quiet:
 *
 * - **amended**: an entry that `amends` the reading's entry gives the same place again. The new figure takes the old one's position in time,
 *   so a move in between carries it along as it would have carried the old one. `?` or `-` in the amendment takes the old figure back.
 * - **replaced**, **reworked**, **rectified**: a part was fitted at or removed from the place (or from a larger place that holds it), the
 *   place was reworked, or a defect that names it was rectified, *and* the place was measured again afterwards inside its limits. Until then
 *   the old reading is current and `awaits` says what was done. If the new reading is out of limit too, both stay open.
 * - **conceded**: someone who may signed a concession of the defect at the place, or of the reading's entry (with a place: only of that place).
 *   A concession covers readings above it, never later ones; the figure still says what the part measures, in clearances too.
 * - **retaken**: its instrument was found out at calibration and another good one measured the place again.
 * - **repeated**: measured again with no work between, in agreement and inside its limits. Of two that are out of limit both stay open.
 *
 * Two readings of one place in one state that disagree (by more than both uncertainties in quadrature allow, or one inside and the other out of
 * limit) with nothing between them are **contradicted**: measuring until it fits is not a repair. The later one names the earlier.
 *
 * A reading belongs to the part. `move` carries readings, sizes and open defects to the new place; what stood there and was not itself moved counts as
 * replaced, and the readings that arrive count as its measuring again. A move between two features (from a shelf to the engine) only takes
 * readings away. `rework ... to size` gives the size to later readings that state none; a part newly fitted has none.
 *
 * Readings of hot and cold engines are kept apart. A `?` is work to do until a figure or `-` comes later at that place.
 */
import type { Ask, Placed, Total } from "../checking/ask.ts";
import type { AmendsLine, At, InstrumentBlock, Reading } from "../facts/types.ts";
import type { CivilDate } from "../quantity/civil-date.ts";
import type { Measure } from "../quantity/compare.ts";
import { jobContext } from "./job-context.ts";
import { chooseLimit, limitsFor, limitsKey } from "./limits-for.ts";
import { eventsAbout, nameWithin, orderOfWork, type PlaceEvent, placeEvents } from "./place-events.ts";
import { type Draft, PlaceWalk } from "./place-walk.ts";
import { type Judgement, judgeReading, uncertaintyAt } from "./reading-verdict.ts";

export type Cause = "amended" | "replaced" | "reworked" | "rectified" | "conceded" | "retaken" | "repeated";

export interface OtherReading {
  readonly ref: string;
  readonly at: At;
  readonly cell: number;
  readonly measure: Measure | undefined;
  readonly date: CivilDate | undefined;
  readonly instrument: string;
}

export interface HistoryReading extends OtherReading, Judgement {
  readonly time: number | undefined;
  /** Path as written. */
  readonly path: string;
  /** Path at which the part is now; undefined once it was taken off. */
  readonly pathNow: string | undefined;
  readonly result: Reading["result"];
  readonly state: Reading["state"];
  readonly size: Measure | undefined;
  readonly standard: string;
  /** Line of the limit that applies, in the limits block; -1 for none. */
  readonly limitAt: At;
  readonly status: "current" | "superseded" | "contradicted";
  /** It still says what the part at its place measures now: not superseded, or conceded and not measured again since. */
  readonly speaks: boolean;
  /** What superseded it. */
  readonly cause: Cause | "";
  /** Block of what superseded it. */
  readonly causeRef: string;
  /** Work done at the place since, that a new reading must follow. */
  readonly awaits: "" | "replaced" | "reworked" | "rectified";
  /** The earlier reading that this one disagrees with. */
  readonly contradicts: OtherReading | undefined;
  /** Its instrument was later found out at calibration. */
  readonly suspect: boolean;
  /** The part at the place was fitted new in this job, before the reading. */
  readonly onNewPart: boolean;
}

export interface PlaceHistory {
  readonly scope: string;
  readonly feature: string;
  readonly type: string;
  readonly revision: string;
  /** `ref` of the limits block, `""` where it is not known. */
  readonly limitsRef: string;
  readonly readings: readonly HistoryReading[];
}

interface Step {
  readonly order: number;
  readonly at: At;
  readonly cell: number;
  readonly reading?: number;
  readonly event?: PlaceEvent;
}

/** Whether the readings stand in the order of the work, and within a block in the order of its lines. */
function isInOrder(drafts: readonly Draft[], order: ReadonlyMap<string, number>): boolean {
  let last: Draft | undefined;
  let lastOrder = -1;
  for (const draft of drafts) {
    if (last !== undefined && draft.ref === last.ref) {
      if (draft.at < last.at || (draft.at === last.at && draft.cell < last.cell)) return false;
    } else {
      const own = order.get(draft.ref) ?? 0;
      if (own <= lastOrder) return false;
      lastOrder = own;
    }
    last = draft;
  }
  return true;
}

const inOrder = (a: Step, b: Step): number => a.order - b.order || a.at - b.at || a.cell - b.cell;

/** The key of `placeHistory`. */
export const historyKey = (scope: string, feature: string): string => `${scope}|${feature}`;

/** The instrument failed at a calibration, and the reading was taken since the last one that was good. */
export function isSuspect(instrument: InstrumentBlock | undefined, date: CivilDate | undefined): boolean {
  if (!instrument || date === undefined) return false;
  for (const failure of instrument.failures) {
    // A calibration on the day of the failure put it right, and speaks for its whole day.
    if (date > failure.on || instrument.calibrations.some(({ on }) => on >= failure.on && on <= date)) continue;
    let lastGood: CivilDate | undefined;
    for (const { on } of instrument.calibrations)
      if (on < failure.on && (lastGood === undefined || on > lastGood)) lastGood = on;
    if (lastGood === undefined || date >= lastGood) return true;
  }
  return false;
}

function leadsTo(standIn: ReadonlyMap<number, number>, from: number, to: number): boolean {
  for (let at: number | undefined = from; at !== undefined; at = standIn.get(at)) if (at === to) return true;
  return false;
}

/** What each amending block amends; a list of lines is of one scope. */
const amended = new WeakMap<readonly Placed<AmendsLine>[], ReadonlyMap<string, string>>();

/** Which reading of the amended entry each reading of an amending entry stands in for. */
function amendments(scope: string, ask: Ask, readings: readonly Placed<Reading>[]): ReadonlyMap<number, number> {
  const standIn = new Map<number, number>();
  const amends = ask.facts(scope, "amends");
  if (amends.length === 0) return standIn;
  let targets = amended.get(amends);
  if (!targets) {
    const made = new Map<string, string>();
    for (const { block, fact } of amends) made.set(block.ref, nameWithin(scope, fact.ref));
    targets = made;
    amended.set(amends, targets);
  }
  const known = targets;
  // Most features are not read in an amending entry at all.
  if (!readings.some(({ block }) => known.has(block.ref))) return standIn;
  const written = new Map<string, number>();
  for (const [i, { block, fact }] of readings.entries()) written.set(`${block.name}|${fact.path}|${fact.state}`, i);
  for (const [i, { block, fact }] of readings.entries()) {
    const target = targets.get(block.ref);
    const old = target === undefined ? undefined : written.get(`${target}|${fact.path}|${fact.state}`);
    if (old === undefined || (readings[old]?.block.date ?? 0) > (block.date ?? 0)) continue; // what is not written yet cannot be corrected
    // Two entries of a day that amend each other would send a reading round for ever: the one that closes the circle corrects nothing.
    if (!leadsTo(standIn, old, i)) standIn.set(i, old);
  }
  return standIn;
}

/** Key: `scope|feature`. */
export const placeHistory: Total<PlaceHistory> = {
  name: "place-history",
  compute(key: string, ask: Ask): PlaceHistory {
    const bar = key.indexOf("|");
    const scope = key.slice(0, bar);
    const feature = key.slice(bar + 1);
    const { type, revision, decision } = ask.total(jobContext, scope);
    const limits = ask.total(limitsFor, limitsKey(type, revision, feature));
    const placed = ask.readings(scope, feature);
    const instruments = new Map<string, InstrumentBlock | undefined>();
    // Readings of a table share their gauge, so the last one is mostly the next one.
    let lastName = "";
    let lastGauge: InstrumentBlock | undefined;
    const gaugeOf = (name: string): InstrumentBlock | undefined => {
      if (name === lastName) return lastGauge;
      if (name === "") return undefined;
      if (!instruments.has(name)) instruments.set(name, ask.instrument(name));
      lastName = name;
      lastGauge = instruments.get(name);
      return lastGauge;
    };
    const drafts = placed.map(
      ({ block, fact }): Draft => ({
        ref: block.ref,
        at: fact.at,
        cell: fact.cell,
        date: block.date,
        time: block.time,
        path: fact.path,
        pathNow: fact.path,
        result: fact.result,
        measure: fact.measure,
        state: fact.state,
        size: fact.size,
        instrument: fact.instrument,
        standard: fact.standard,
        limitAt: -1,
        status: "current",
        speaks: false,
        cause: "",
        causeRef: "",
        awaits: "",
        contradicts: undefined,
        onNewPart: false,
        suspect: isSuspect(gaugeOf(fact.instrument), block.date),
        verdict: "none",
        outsideNew: false,
        notProven: false,
        end: undefined,
        bound: undefined,
      }),
    );
    const judge = (draft: Draft): void => {
      const line = chooseLimit(limits.readings, draft.path, draft.state, draft.size);
      draft.limitAt = line?.at ?? -1;
      const judged = judgeReading(draft, line, gaugeOf(draft.instrument), decision);
      draft.verdict = judged.verdict;
      draft.outsideNew = judged.outsideNew;
      draft.notProven = judged.notProven;
      draft.end = judged.end;
      draft.bound = judged.bound;
    };
    const uncertainty = (draft: Draft): number | undefined =>
      draft.measure ? uncertaintyAt(gaugeOf(draft.instrument), draft.measure) : undefined;

    const walk = new PlaceWalk(scope, feature, drafts, judge, uncertainty);
    const order = orderOfWork(scope, ask);
    const standIn = amendments(scope, ask, placed);
    const events = eventsAbout(ask.total(placeEvents, scope), feature);
    if (standIn.size === 0 && events.length === 0 && isInOrder(drafts, order)) {
      // The usual case: nothing happened to the parts, and the readings come in the order in which they were taken.
      for (const draft of drafts) walk.take(draft);
      walk.finish();
      return { scope, feature, type, revision, limitsRef: limits.ref, readings: drafts };
    }
    const steps: Step[] = [];
    const replaced = new Set<number>();
    for (const [i, old] of standIn) {
      replaced.add(old);
      const draft = drafts[old];
      draft.status = "superseded";
      draft.cause = "amended";
      draft.causeRef = drafts[i].ref;
    }
    for (const [i, draft] of drafts.entries()) {
      let origin = i;
      for (let old = standIn.get(origin); old !== undefined; old = standIn.get(origin)) origin = old;
      const from = drafts[origin];
      if (replaced.has(i)) judge(draft);
      else steps.push({ order: order.get(from.ref) ?? 0, at: from.at, cell: from.cell, reading: i });
    }
    for (const event of events) steps.push({ order: event.order, at: event.at, cell: -2, event });
    if (!steps.every((step, i) => i === 0 || inOrder(steps[i - 1], step) <= 0)) steps.sort(inOrder);

    for (const step of steps) {
      if (step.event) walk.happen(step.event);
      else walk.take(drafts[step.reading as number]);
    }
    walk.finish();
    return { scope, feature, type, revision, limitsRef: limits.ref, readings: drafts };
  },
};

/** Readings of a history by block; worked out once for each history that is asked about. */
const byBlock = new WeakMap<PlaceHistory, ReadonlyMap<string, readonly HistoryReading[]>>();

function groupedByBlock(history: PlaceHistory): ReadonlyMap<string, readonly HistoryReading[]> {
  let groups = byBlock.get(history);
  if (!groups) {
    const made = new Map<string, HistoryReading[]>();
    for (const one of history.readings) {
      const list = made.get(one.ref);
      if (list) list.push(one);
      else made.set(one.ref, [one]);
    }
    groups = made;
    byBlock.set(history, groups);
  }
  return groups;
}

/** Key: `scope|feature|ref`. The readings of one block of work, so that rules on a block are asked again only when its own readings stand differently. */
export const blockReadings: Total<readonly HistoryReading[]> = {
  name: "block-readings",
  compute(key: string, ask: Ask): readonly HistoryReading[] {
    const bar = key.indexOf("|", key.indexOf("|") + 1);
    const history = ask.total(placeHistory, key.slice(0, bar));
    const ref = key.slice(bar + 1);
    // Most features of a job are read in one block.
    const { readings } = history;
    if (readings.length > 0 && readings[0]?.ref === ref && !byBlock.has(history)) {
      if (readings.every((one) => one.ref === ref)) return readings;
    }
    return groupedByBlock(history).get(ref) ?? NO_READINGS;
  },
};

const NO_READINGS: readonly HistoryReading[] = [];

const currentOf = new WeakMap<PlaceHistory, ReadonlyMap<string, HistoryReading>>();

/** What each place shows now: by path, of a hot or cold engine `path|state`, the last reading that speaks for it. Worked out once for each history. */
export function currentReadings(history: PlaceHistory): ReadonlyMap<string, HistoryReading> {
  const known = currentOf.get(history);
  if (known) return known;
  const now = new Map<string, HistoryReading>();
  currentOf.set(history, now);
  for (const one of history.readings) {
    if (!one.speaks || one.pathNow === undefined) continue;
    now.set(one.state === "" ? one.pathNow : `${one.pathNow}|${one.state}`, one);
  }
  return now;
}
