/**
 * What is due on an engine: recurring tasks, bulletins, lives of parts, deferred defects; by hours, calendar or cycles, whichever comes first.
 */
import { type DueAmounts, dueState, type DueTask, lifeState, type MeasureDue, type UsePoint } from "../calc/due.ts";
import type { Ask, Placed, Total, WorkHead } from "../checking/ask.ts";
import type { At, DoneLine, EngineBlock, FitLine, TaskBlock } from "../facts/types.ts";
import { type CivilDate, formatDate } from "../quantity/civil-date.ts";
import { addMonths } from "../quantity/civil-months.ts";
import type { Measure } from "../quantity/compare.ts";
import { amountOf, type EngineHours, engineHours, engineWork, hoursOn, hoursWhen } from "./engine-hours.ts";

export type DueVerdict = "ahead" | "due-soon" | "overdue" | "beyond-tolerance" | "never-done" | "done" | "unknown";

export interface DoneAt {
  readonly date: CivilDate;
  readonly hours_h: number | undefined;
  readonly ref: string;
  readonly at: At;
}

export interface DueItem {
  readonly kind: "task" | "bulletin" | "life" | "deferral";
  /** The task, bulletin or defect, or the part and its serial. */
  readonly name: string;
  readonly title: string;
  /** Where it is laid down: block and line. */
  readonly ref: string;
  readonly at: At;
  readonly verdict: DueVerdict;
  /** The measure that decides, and all of them: hours, days since 1970-01-01, or cycles. */
  readonly governing: MeasureDue | undefined;
  readonly measures: readonly MeasureDue[];
  /** `25 h or 6 months`. */
  readonly interval: string;
  /** `5 h`, or "" for none. */
  readonly tolerance: string;
  readonly last: DoneAt | undefined;
  /** Where the count begins when it was never done: the overhaul, or the engine new. */
  readonly since: { readonly what: "overhaul" | "new" | "fitted" | "deferred"; readonly date: CivilDate } | undefined;
  /** Why the verdict is unknown. */
  readonly reason: string;
  /** Bulletins only. */
  readonly force: "" | "mandatory" | "recommended" | "optional";
}

/** Amounts as the computation of due points takes them. A month of notice or tolerance is taken as 30 days. */
function amounts(values: readonly Measure[], monthsAsDays = false): DueAmounts & { readonly days?: number } {
  const found: { hours_h?: number; months?: number; days?: number; cycles?: number } = {};
  for (const { value, unit } of values) {
    if (unit.dimension === "calendar") {
      const months = value * unit.factorNumber;
      if (monthsAsDays) found.days = Math.round(30 * months);
      else found.months = months;
    } else if (unit.dimension === "time" && unit.factorNumber >= 86_400) found.days = (value * unit.factorNumber) / 86_400;
    else if (unit.dimension === "time") found.hours_h = (value * unit.factorNumber) / 3600;
    else if (unit.dimension.startsWith("count:")) found.cycles = value;
  }
  return found;
}

const written = (values: readonly Measure[]): string => values.map((value) => `${value.text} ${value.unit.spelling}`).join(" or ");

/** The notice of the shop: 10 h or 30 days where it says nothing. */
export function noticeOf(ask: Ask): { readonly hours_h: number; readonly days: number; readonly cycles: number } {
  const { hours_h, days, cycles } = amounts(ask.shop().notices, true);
  return { hours_h: hours_h ?? 10, days: days ?? 30, cycles: cycles ?? 10 };
}

interface Scene {
  readonly ask: Ask;
  readonly engine: EngineBlock;
  readonly ledger: EngineHours;
  readonly rankOf: ReadonlyMap<string, number>;
  /** Time since new where it is known, else time since overhaul. */
  readonly counter: string;
  readonly today: CivilDate;
  readonly soon: { readonly hours_h: number; readonly days: number; readonly cycles: number };
  readonly start: (UsePoint & { readonly what: "overhaul" | "new" }) | undefined;
}

function cycleCounter(ledger: EngineHours, values: readonly Measure[]): string {
  const dimension = values.find((value) => value.unit.dimension.startsWith("count:"))?.unit.dimension;
  return Object.entries(ledger.dimensions).find(([, one]) => one === dimension)?.[0] ?? "";
}

const hours = (amount_s: number | undefined): number | undefined => (amount_s === undefined ? undefined : amount_s / 3600);

/** The engine on a day, by the counters that matter. */
function pointOn(scene: Scene, date: CivilDate, cycles: string): UsePoint {
  return { date, hours_h: hours(hoursOn(scene.ledger, scene.counter, date)), cycles: cycles === "" ? undefined : hoursOn(scene.ledger, cycles, date) };
}

/** Where the engine's own clock begins in these records: its last overhaul, else the day on which it is stated as new. */
function startOf(ledger: EngineHours, counter: string, today: CivilDate): Scene["start"] {
  let start: Scene["start"];
  for (const entry of ledger.entries) {
    if (entry.date > today) break;
    if (entry.kind === "overhauled") start = { what: "overhaul", date: entry.date, hours_h: hours(entry.after[counter]) };
    else if (!start && entry.kind === "stated" && entry.stated.some((one) => one.counter === "tsn" && one.amount === 0)) start = { what: "new", date: entry.date, hours_h: 0 };
  }
  return start;
}

function sceneOf(engine: EngineBlock, ask: Ask): Scene {
  const ledger = ask.total(engineHours, engine.name);
  const counter = "tsn" in ledger.dimensions ? "tsn" : "tso";
  const today = ask.asOf();
  return {
    ask, engine, ledger, counter, today, soon: noticeOf(ask), start: startOf(ledger, counter, today),
    rankOf: new Map(engineWork(engine.name, ask).map((head, rank) => [head.ref, rank])),
  };
}

/** Hours at a stated counter, carried over to the counter that the tasks are counted by. */
function carried(scene: Scene, counter: string, value: Measure | undefined, date: CivilDate): number | undefined {
  const amount = value && amountOf(value);
  if (amount === undefined) return undefined;
  if (counter === scene.counter) return amount;
  const [mine, theirs] = [hoursOn(scene.ledger, scene.counter, date), hoursOn(scene.ledger, counter, date)];
  return mine === undefined || theirs === undefined ? undefined : mine - theirs + amount;
}

interface DonePoint extends UsePoint {
  readonly ref: string;
  readonly at: At;
}

function whenDone(scene: Scene, line: DoneLine, head: WorkHead | undefined, cycles: string): DonePoint | undefined {
  const date = line.on ?? head?.date;
  if (date === undefined || date > scene.today) return undefined;
  const rank = head && line.on === undefined ? scene.rankOf.get(head.ref) : undefined;
  const before = (ref: string): boolean => rank === undefined || (scene.rankOf.get(ref) ?? Number.POSITIVE_INFINITY) <= rank;
  const stated = carried(scene, line.counter, line.hours, date);
  const amount = stated ?? (rank === undefined ? hoursOn(scene.ledger, scene.counter, date) : hoursWhen(scene.ledger, scene.counter, date, before));
  const counted = line.counter !== "" && line.counter === cycles && line.hours ? line.hours.value : undefined;
  return {
    date, hours_h: hours(amount), cycles: counted ?? (cycles === "" ? undefined : hoursOn(scene.ledger, cycles, date)),
    ref: head?.ref ?? scene.engine.ref, at: line.at,
  };
}

const places = (engine: EngineBlock, ask: Ask): string[] => [...ask.jobsOf(engine.name).map((job) => job.name), `engine:${engine.name}`];

function doneByTask(scene: Scene): ReadonlyMap<string, { readonly line: DoneLine; readonly head: WorkHead | undefined }[]> {
  const found = new Map<string, { line: DoneLine; head: WorkHead | undefined }[]>();
  const add = (line: DoneLine, head: WorkHead | undefined): void => {
    const list = found.get(line.task);
    if (list) list.push({ line, head });
    else found.set(line.task, [{ line, head }]);
  };
  for (const line of scene.engine.done) add(line, undefined);
  for (const scope of places(scene.engine, scene.ask)) for (const { block, fact } of scene.ask.facts(scope, "done")) add(fact, block);
  return found;
}

/**
 * The times done that still matter, and the task with which they are counted. A task that was done late, beyond what its tolerance allows,
 * begins again where it was done: it is cleared by its `done`. Done late within the tolerance, the next interval is counted from where it was due.
 */
function counted(task: DueTask, start: UsePoint | undefined, done: readonly DonePoint[]): { task: DueTask; start: UsePoint | undefined; done: readonly DonePoint[] } {
  let from = start;
  let kept: DonePoint[] = [];
  let now = task;
  for (const point of done) {
    const state = from || kept.length > 0 ? dueState(now, from, kept, point, addMonthsTo) : undefined;
    const late = state?.ok === true && (state.verdict === "beyond-tolerance" || (state.verdict === "overdue" && !toleranceFor(task, state.governing)));
    if (late) {
      from = point;
      kept = [];
      now = { ...task, first: undefined };
    } else kept.push(point);
  }
  return { task: now, start: from, done: kept };
}

function toleranceFor(task: DueTask, governing: MeasureDue | undefined): boolean {
  if (!governing) return false;
  const key = governing.measure === "hours" ? "hours_h" : governing.measure === "calendar" ? "days" : "cycles";
  return task.tolerance?.[key] !== undefined;
}

const addMonthsTo = (date: number, months: number): number => addMonths(date as CivilDate, months);

function taskItem(scene: Scene, block: TaskBlock, lines: readonly { readonly line: DoneLine; readonly head: WorkHead | undefined }[]): DueItem {
  const cycles = cycleCounter(scene.ledger, block.every);
  const task: DueTask = {
    every: amounts(block.every), first: block.first.length > 0 ? amounts(block.first) : undefined,
    tolerance: block.tolerance.length > 0 ? amounts(block.tolerance, true) : undefined, soon: scene.soon, anchor: "plan",
  };
  const all = lines.map(({ line, head }) => whenDone(scene, line, head, cycles)).filter((point) => point !== undefined);
  all.sort((a, b) => a.date - b.date || (a.hours_h ?? 0) - (b.hours_h ?? 0));
  const { start } = scene;
  // What was done before an overhaul does not count any more: the task begins again with the overhauled engine.
  const since = start ? all.filter((point) => point.date > start.date || (point.date === start.date && start.what === "new")) : all;
  const last = since.at(-1);
  const item = {
    kind: "task" as const, name: block.name, title: block.about, ref: block.ref, at: 0, interval: written(block.every), tolerance: written(block.tolerance),
    last: last && { date: last.date as CivilDate, hours_h: last.hours_h, ref: last.ref, at: last.at },
    since: start && { what: start.what, date: start.date as CivilDate }, reason: "", force: "" as const,
  };
  const now = pointOn(scene, scene.today, cycles);
  const startPoint = start && { date: start.date, hours_h: start.hours_h, cycles: cycles === "" ? undefined : hoursOn(scene.ledger, cycles, start.date as CivilDate) };
  if (!startPoint && since.length === 0) return { ...item, ...neverDone(task, now, scene) };
  const terms = counted(task, startPoint, since);
  const state = dueState(terms.task, terms.start, terms.done, now, addMonthsTo);
  if (!state.ok) return { ...item, verdict: "unknown", governing: undefined, measures: [], reason: state.refused };
  // Overdue is only called so where no tolerance covers it; the rules tell the two apart by `tolerance`.
  return { ...item, verdict: state.verdict, governing: state.governing, measures: state.measures };
}

/** Nobody wrote down when the clock began. An engine with fewer hours since new than the first interval still has time; else nothing is known. */
function neverDone(task: DueTask, now: UsePoint, scene: Scene): Pick<DueItem, "verdict" | "governing" | "measures"> {
  const opening = task.first ?? task.every;
  const byHoursOnly = opening?.hours_h !== undefined && opening.months === undefined && opening.days === undefined && opening.cycles === undefined;
  if (byHoursOnly && scene.counter === "tsn" && now.hours_h !== undefined) {
    const state = dueState({ ...task, every: { hours_h: opening.hours_h }, first: undefined }, { date: now.date, hours_h: 0 }, [], now, addMonthsTo);
    if (state.ok && (state.verdict === "ahead" || state.verdict === "due-soon")) return { verdict: state.verdict, governing: state.governing, measures: state.measures };
  }
  return { verdict: "never-done", governing: undefined, measures: [] };
}

function bulletinItems(scene: Scene): DueItem[] {
  const { ask, engine } = scene;
  const embodied = new Map<string, DoneAt>();
  const add = (name: string, date: CivilDate | undefined, ref: string, at: At): void => {
    const earlier = embodied.get(name);
    if (date !== undefined && date <= scene.today && (!earlier || date >= earlier.date)) embodied.set(name, { date, hours_h: hours(hoursOn(scene.ledger, scene.counter, date)), ref, at });
  };
  for (const line of engine.embodied) add(line.bulletin, line.on, engine.ref, line.at);
  for (const scope of places(engine, ask)) for (const { block, fact } of ask.facts(scope, "embodied")) add(fact.bulletin, fact.on ?? block.date, block.ref, fact.at);
  return ask.bulletinsOf(engine.type).map((bulletin): DueItem => {
    const last = embodied.get(bulletin.name);
    const item = {
      kind: "bulletin" as const, name: bulletin.name, title: bulletin.title, ref: bulletin.ref, at: 0, tolerance: "", last, since: undefined, reason: "",
      force: bulletin.force, interval: bulletin.repeat ? written([bulletin.repeat]) : "",
    };
    if (last && !bulletin.repeat) return { ...item, verdict: "done", governing: undefined, measures: [] };
    if (last && bulletin.repeat) {
      const state = dueState({ every: amounts([bulletin.repeat]), soon: scene.soon, anchor: "done" }, last, [], pointOn(scene, scene.today, cycleCounter(scene.ledger, [bulletin.repeat])), addMonthsTo);
      return state.ok ? { ...item, verdict: state.verdict, governing: state.governing, measures: state.measures } : { ...item, verdict: "unknown", governing: undefined, measures: [], reason: state.refused };
    }
    if (bulletin.by === undefined) return { ...item, verdict: "never-done", governing: undefined, measures: [] };
    const left = bulletin.by - scene.today;
    const verdict = left < 0 ? "overdue" : left <= scene.soon.days ? "due-soon" : "ahead";
    const governing: MeasureDue = { measure: "calendar", dueAt: bulletin.by, left, verdict };
    return { ...item, verdict, governing, measures: [governing] };
  });
}

/** Parts with a life that are still fitted: a later part at the same place, or a `remove` of the same serial, ends the count. */
function lifeItems(scene: Scene): DueItem[] {
  const { ask, engine } = scene;
  const lives = new Map((ask.engineType(engine.type)?.lives ?? []).map((line) => [line.part, line.lives]));
  const fitted = new Map<string, { readonly fit: FitLine; readonly date: CivilDate; readonly ref: string }>();
  const keyOf = (part: string, serial: string, place: string): string => (serial === "" && place !== "" ? `at ${place}` : `${part} ${serial}`);
  const fit = (line: FitLine, date: CivilDate | undefined, ref: string): void => {
    if (date !== undefined && date <= scene.today) fitted.set(keyOf(line.part, line.serial, line.place?.text ?? ""), { fit: line, date, ref });
  };
  for (const line of engine.fits) fit(line, line.on, engine.ref);
  for (const scope of places(engine, ask)) {
    const events: Placed<{ readonly at: At; readonly go: () => void }>[] = [];
    for (const { block, fact } of ask.facts(scope, "fits")) events.push({ block, fact: { at: fact.at, go: () => fit(fact, fact.on ?? block.date, block.ref) } });
    for (const { block, fact } of ask.facts(scope, "removes")) events.push({ block, fact: { at: fact.at, go: () => void fitted.delete(keyOf(fact.part, fact.serial, fact.place?.text ?? "")) } });
    events.sort((a, b) => (scene.rankOf.get(a.block.ref) ?? 0) - (scene.rankOf.get(b.block.ref) ?? 0) || a.fact.at - b.fact.at);
    for (const { fact } of events) fact.go();
  }
  return [...fitted.values()].flatMap(({ fit: line, date, ref }): DueItem[] => {
    const limit = line.life ? [line.life] : lives.get(line.part);
    if (!limit || limit.length === 0) return [];
    const atFit = hours(hoursOn(scene.ledger, scene.counter, date));
    const used = line.sinceNew ? (amountOf(line.sinceNew) ?? 0) / 3600 : line.used ? undefined : 0;
    const made: UsePoint = { date, hours_h: atFit === undefined || used === undefined ? undefined : atFit - used };
    const state = lifeState(amounts(limit), made, pointOn(scene, scene.today, ""), addMonthsTo, scene.soon);
    const item = {
      kind: "life" as const, name: line.serial === "" ? line.part : `${line.part} ${line.serial}`, title: line.place?.text ?? "", ref, at: line.at, interval: written(limit),
      tolerance: "", last: undefined, since: { what: "fitted" as const, date }, force: "" as const,
    };
    if (!state.ok) return [{ ...item, verdict: "unknown", governing: undefined, measures: [], reason: state.refused }];
    // A life has no tolerance, so past it there is only one word.
    const verdict = state.verdict === "beyond-tolerance" ? "overdue" : state.verdict;
    return [{ ...item, verdict, governing: state.governing, measures: state.measures, reason: "" }];
  });
}

function deferralItems(scene: Scene): DueItem[] {
  const { ask, engine } = scene;
  const items: DueItem[] = [];
  for (const scope of places(engine, ask)) {
    const full = (ref: string): string => (ref.includes("/") ? ref : `${scope}/${ref}`);
    const rectified = new Set<string>();
    // A rectification may stand in a later job on the same engine, with the name of the job that found the defect.
    for (const other of places(engine, ask)) for (const { fact } of ask.facts(other, "rectifies")) rectified.add(fact.defect.includes("/") ? fact.defect : `${other}/${fact.defect}`);
    for (const { block, fact } of ask.facts(scope, "defers")) {
      if (rectified.has(full(fact.defect)) || fact.on > scene.today) continue;
      const measures: MeasureDue[] = [];
      const add = (measure: MeasureDue["measure"], dueAt: number, now: number, soon: number): void => {
        const left = dueAt - now;
        measures.push({ measure, dueAt, left, verdict: left < 0 ? "overdue" : left <= soon ? "due-soon" : "ahead" });
      };
      if (fact.until !== undefined) add("calendar", fact.until, scene.today, scene.soon.days);
      const limit_s = fact.limit && fact.limit.unit.dimension === "time" ? amountOf(fact.limit) : undefined;
      const [then_s, now_s] = [hoursOn(scene.ledger, scene.counter, fact.on), hoursOn(scene.ledger, scene.counter, scene.today)];
      if (limit_s !== undefined && then_s !== undefined && now_s !== undefined) add("hours", (then_s + limit_s) / 3600, now_s / 3600, scene.soon.hours_h);
      const governing = measures.find((one) => one.verdict === "overdue") ?? measures.find((one) => one.verdict === "due-soon") ?? measures[0];
      items.push({
        kind: "deferral", name: full(fact.defect), title: fact.reason, ref: block.ref, at: fact.at, verdict: governing?.verdict ?? "unknown", governing, measures,
        interval: [fact.until === undefined ? "" : `until ${formatDate(fact.until)}`, fact.limit ? written([fact.limit]) : ""].filter((text) => text !== "").join(" or "),
        tolerance: "", last: undefined, since: { what: "deferred", date: fact.on }, reason: governing ? "" : "The records do not count the hours that it was put off by.", force: "",
      });
    }
  }
  return items;
}

/** Key: an engine's name. Tasks first, then bulletins, lives, deferrals; each kind in the order of the records. */
export const dueItems: Total<readonly DueItem[]> = {
  name: "due-items",
  compute(name: string, ask: Ask): readonly DueItem[] {
    const engine = ask.engine(name);
    if (!engine) return [];
    const scene = sceneOf(engine, ask);
    const done = doneByTask(scene);
    return [
      ...ask.tasksOf(engine.type).map((task) => taskItem(scene, task, done.get(task.name) ?? [])),
      ...bulletinItems(scene), ...lifeItems(scene), ...deferralItems(scene),
    ];
  },
};

/** `at 1210.0 h`, `on 2026-08-31`, `at 300 cycles`: where a measure is due. */
export function dueText(measure: MeasureDue): string {
  if (measure.measure === "calendar") return `on ${formatDate(measure.dueAt as CivilDate)}`;
  return measure.measure === "hours" ? `at ${hoursText(measure.dueAt)}` : `at ${measure.dueAt} cycles`;
}

/** `12.5 h`, `30 days`, `4 cycles`: an amount left or past, without its sign. */
export function leftText(measure: MeasureDue): string {
  const left = Math.abs(measure.left);
  if (measure.measure === "hours") return hoursText(left);
  const word = measure.measure === "calendar" ? "day" : "cycle";
  return `${left} ${word}${left === 1 ? "" : "s"}`;
}

function hoursText(hours_h: number): string {
  const hundredths = Math.round(hours_h * 100);
  return `${(hundredths / 100).toFixed(hundredths % 10 === 0 ? 1 : 2)} h`;
}
