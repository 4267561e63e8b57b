/**
 * What a run is checked against: engine, type, limits, stand and schedule, resolved in one place so that rules, totals and features agree.
 */
import type { Ask } from "../checking/ask.ts";
import type {
  EngineTypeBlock,
  LimitsBlock,
  MagnetoLimit,
  MagnetoLine,
  RouteBlock,
  RunInBlock,
  StandBlock,
  WorkBlock,
} from "../facts/types.ts";
import { compareMeasures } from "../quantity/compare.ts";
import { jobContext } from "./job-context.ts";

/** The limits that a job works to. */
export function limitsOfJob(ask: Ask, job: string): LimitsBlock | undefined {
  if (job === "") return undefined;
  const { type, revision } = ask.total(jobContext, job);
  return type === "" || revision === "" ? undefined : ask.limits(type, revision);
}

/** The type of the engine of a job. */
export function typeOfJob(ask: Ask, job: string): EngineTypeBlock | undefined {
  const engine = ask.job(job)?.engine;
  const type = engine ? ask.engine(engine)?.type : undefined;
  return type ? ask.engineType(type) : undefined;
}

/** Which schedule a run follows, and who says so; `type` when nobody names one but the engine type has one. */
export interface Schedule {
  readonly name: string;
  readonly from: "run" | "job" | "route" | "type";
  readonly block: RunInBlock | undefined;
}

/** A schedule by its name; a variant may be named alone, as its type is known. */
function schedule(ask: Ask, type: string, name: string): RunInBlock | undefined {
  return ask.runIn(name) ?? (type === "" ? undefined : ask.runIn(`${type}/${name}`));
}

function neededBy(route: RouteBlock | undefined): string {
  for (const step of route?.steps ?? []) for (const need of step.needs) if (need.kind === "run-in") return need.type;
  return "";
}

/**
 * The run-in schedule of a run: named by the run, else by its job, else by the route of the job, else the one of the engine type. Only a named
 * one asks for its steps; how to start, warm and cool the engine holds for every run.
 * @returns undefined when the engine's type is not known or there is nothing to name
 */
export function scheduleOf(ask: Ask, run: { readonly job: string; readonly runIn: string }): Schedule | undefined {
  const job = ask.job(run.job);
  const type = job ? (ask.engine(job.engine)?.type ?? "") : "";
  if (run.runIn !== "") return { name: run.runIn, from: "run", block: schedule(ask, type, run.runIn) };
  if (!job) return undefined;
  if (job.runIn !== "") return { name: job.runIn, from: "job", block: schedule(ask, type, job.runIn) };
  const needed = job.route === "" ? "" : neededBy(ask.route(job.route));
  if (needed !== "") return { name: needed, from: "route", block: schedule(ask, type, needed) };
  const block = type === "" ? undefined : ask.runIn(type);
  return block ? { name: block.name, from: "type", block } : undefined;
}

export interface RunContext {
  readonly type: EngineTypeBlock | undefined;
  readonly limits: LimitsBlock | undefined;
  readonly stand: StandBlock | undefined;
  readonly schedule: Schedule | undefined;
}

/** Everything that a run is checked against. */
export function runContext(ask: Ask, run: WorkBlock): RunContext {
  return {
    type: typeOfJob(ask, run.job),
    limits: limitsOfJob(ask, run.job),
    stand: run.stand === "" ? undefined : ask.stand(run.stand),
    schedule: scheduleOf(ask, run),
  };
}

/** `Curlew-9 revision C, ref "4-2"`: how a message names the line that it judges by. */
export function limitName(limits: { readonly type: string; readonly revision: string }, reference: string): string {
  return `${limits.type} revision ${limits.revision}${reference === "" ? "" : `, ref "${reference}"`}`;
}

/**
 * The magneto limit that judges a check: of the lines that set this member the one for the speed of the check, else the first.
 * @param member `drop` or `split`
 */
export function magnetoLimitFor(
  limits: LimitsBlock | undefined,
  line: MagnetoLine,
  member: "drop" | "split",
): MagnetoLimit | undefined {
  const lines = (limits?.magnetos ?? []).filter((one) => one[member]);
  return lines.find((one) => sameSpeed(line, one)) ?? lines[0];
}

/** Whether a check was made at the speed that a limit names; a line without a speed holds for any. */
export function sameSpeed(line: MagnetoLine, limit: MagnetoLimit): boolean {
  if (!line.speed || !limit.speed) return true;
  return line.speed.unit.dimension === limit.speed.unit.dimension && compareMeasures(line.speed, limit.speed) === 0;
}
