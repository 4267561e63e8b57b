/** What the due points of an engine are worked out from: its ledger, the day, the notice of the shop, where its clock begins. */
import type { UsePoint } from "../calc/due.ts";
import type { Ask } from "../checking/ask.ts";
import type { EngineBlock } from "../facts/types.ts";
import type { CivilDate } from "../quantity/civil-date.ts";
import { addMonths } from "../quantity/civil-months.ts";
import type { Measure } from "../quantity/compare.ts";
import { noticeOf } from "./due-item.ts";
import { amountOf, type EngineHours, engineHours, engineWork, hoursOn } from "./engine-hours.ts";

export interface Scene {
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

/** The counter of the dimension in which an interval counts, "" for none. */
export function cycleCounter(ledger: EngineHours, values: readonly Measure[]): string {
  const dimension = values.find((value) => value.unit.dimension.startsWith("count:"))?.unit.dimension;
  return Object.entries(ledger.dimensions).find(([, one]) => one === dimension)?.[0] ?? "";
}

/** Hours of an amount of the ledger. */
export const hours = (amount_s: number | undefined): number | undefined =>
  amount_s === undefined ? undefined : amount_s / 3600;

/** The engine on a day, by the counters that matter. */
export function pointOn(scene: Scene, date: CivilDate, cycles: string): UsePoint {
  return {
    date,
    hours_h: hours(hoursOn(scene.ledger, scene.counter, date)),
    cycles: cycles === "" ? undefined : hoursOn(scene.ledger, cycles, date),
  };
}

/** Where the engine's own clock begins in these records: its last overhaul, else the day on which it is stated as new. */
function startOf(ledger: EngineHours, counter: string, today: CivilDate): Scene["start"] {
  let start: Scene["start"];
  for (const entry of ledger.entries) {
    if (entry.date > today) break;
    if (entry.kind === "overhauled")
      // Hours stated on the day of the overhaul are its own, whichever line stands first.
      start = { what: "overhaul", date: entry.date, hours_h: hours(hoursOn(ledger, counter, entry.date)) };
    else if (!start && entry.kind === "stated" && entry.stated.some((one) => one.counter === "tsn" && one.amount === 0))
      start = { what: "new", date: entry.date, hours_h: 0 };
  }
  return start;
}

/** Everything that the items of one engine share. */
export function sceneOf(engine: EngineBlock, ask: Ask): Scene {
  const ledger = ask.total(engineHours, engine.name);
  const counter = "tsn" in ledger.dimensions ? "tsn" : "tso";
  const today = ask.asOf();
  return {
    ask,
    engine,
    ledger,
    counter,
    today,
    soon: noticeOf(ask),
    start: startOf(ledger, counter, today),
    rankOf: new Map(engineWork(engine.name, ask).map((head, rank) => [head.ref, rank])),
  };
}

/** Hours at a stated counter, carried over to the counter that the tasks are counted by. */
export function carried(
  scene: Scene,
  counter: string,
  value: Measure | undefined,
  date: CivilDate,
): number | undefined {
  const amount = value && amountOf(value);
  if (amount === undefined) return undefined;
  if (counter === scene.counter) return amount;
  const [mine, theirs] = [hoursOn(scene.ledger, scene.counter, date), hoursOn(scene.ledger, counter, date)];
  return mine === undefined || theirs === undefined ? undefined : mine - theirs + amount;
}

/** Scopes of the work on an engine: its jobs, and its work in service. */
export const places = (engine: EngineBlock, ask: Ask): string[] => [
  ...ask.jobsOf(engine.name).map((job) => job.name),
  `engine:${engine.name}`,
];

/** Calendar arithmetic in the form that the computation of due points asks for. */
export const addMonthsTo = (date: number, months: number): number => addMonths(date as CivilDate, months);
