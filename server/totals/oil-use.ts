/** Oil that an engine used: in one run, and over all runs of a job, against the limit of its revision. */
import { type OilConsumption, oilConsumption } from "../calc/oil-consumption.ts";
import { type Result, refuse } from "../calc/result.ts";
import type { Ask } from "../checking/ask.ts";
import type { LimitLine, LimitsBlock, WorkBlock } from "../facts/types.ts";
import { convertNumber, type Measure } from "../quantity/compare.ts";
import { findUnit } from "../quantity/units.ts";
import { limitName, limitsOfJob } from "./run-context.ts";
import { runTime } from "./run-summary.ts";

/** The figure that a limit of oil consumption is about: `limit oil.consumption max 0.5 L/h`. */
export const CONSUMPTION = "oil.consumption";

const litre = findUnit("L");
const litresPerHour = findUnit("L/h");

function inUnit(measure: Measure | undefined, unit: ReturnType<typeof findUnit>): number | undefined {
  return measure && unit && measure.unit.dimension === unit.dimension
    ? convertNumber(measure.value, measure.unit, unit)
    : undefined;
}

/** The limit of oil consumption that a revision sets; undefined where it sets none as a volume in an hour. */
export function oilLimit(
  limits: LimitsBlock | undefined,
): { readonly line: LimitLine; readonly greatest_Lph: number; readonly source: string } | undefined {
  for (const line of limits?.limits ?? []) {
    if (line.place.feature !== CONSUMPTION || line.stat !== "value" || line.formula.length > 0) continue;
    const greatest_Lph = inUnit((line.bare ?? line.wearLimits ?? line.newLimits)?.high, litresPerHour);
    if (greatest_Lph !== undefined && limits) return { line, greatest_Lph, source: limitName(limits, line.reference) };
  }
  return undefined;
}

/** Oil put in and taken out, in litres; a mass cannot be turned into a volume here, so it makes both unknown. */
function balance(run: WorkBlock): { readonly added_L: number; readonly drained_L: number } | undefined {
  let added_L = 0;
  let drained_L = 0;
  for (const oil of run.oils) {
    const volume_L = inUnit(oil.value, litre);
    if (volume_L === undefined) return undefined;
    if (oil.what === "added") added_L += volume_L;
    else if (oil.what === "drained") drained_L += volume_L;
  }
  return { added_L, drained_L };
}

/** Running time shorter than this says nothing about what an engine uses. Source: common practice, no source. */
const LEAST_h = 0.5;

function consumption(ask: Ask, runs: readonly WorkBlock[], limits: LimitsBlock | undefined): Result<OilConsumption> {
  let hours_h = 0;
  let added_L = 0;
  let drained_L = 0;
  for (const run of runs) {
    const time_s = ask.total(runTime, run.ref);
    if (time_s === undefined) return refuse(`No log shows how long ${run.name} ran, so no rate follows.`);
    const own = balance(run);
    if (!own) return refuse(`The oil of ${run.name} is written as a mass, so no volume in an hour follows.`);
    hours_h += time_s / 3600;
    added_L += own.added_L;
    drained_L += own.drained_L;
  }
  if (hours_h < LEAST_h) return refuse("The engine ran for less than half an hour, which says nothing about its oil.");
  const limit = oilLimit(limits);
  return oilConsumption(
    { added_L, drained_L, hours_h },
    limit && { greatest_Lph: limit.greatest_Lph, source: limit.source },
  );
}

/** What one run used, its oil being brought to the same mark before and after. */
export function oilOfRun(ask: Ask, run: WorkBlock): Result<OilConsumption> {
  return consumption(ask, [run], limitsOfJob(ask, run.job));
}

/** What all runs of a job used, up to and with this one; only runs since the oil was last filled anew. */
export function oilOfJob(ask: Ask, upTo: WorkBlock): Result<OilConsumption> & { readonly runs: readonly string[] } {
  const runs: WorkBlock[] = [];
  const filled = new Set<string>();
  for (const { block, fact } of ask.facts(upTo.job, "oils")) if (fact.what === "filled") filled.add(block.ref);
  for (const head of ask.work(upTo.job)) {
    if (filled.has(head.ref)) runs.length = 0;
    // Only runs are looked at as a whole: a reading typed into an entry says nothing about the oil.
    const run = head.kind === "run" ? ask.workBlock(head.ref) : undefined;
    if (run) runs.push(run);
    if (head.ref === upTo.ref) break;
  }
  return { ...consumption(ask, runs, limitsOfJob(ask, upTo.job)), runs: runs.map((run) => run.name) };
}
