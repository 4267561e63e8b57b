/**
 * What a job works to: its engine, the engine's type, the route, the revision of the limits, and how a reading near a limit is judged.
 *
 * Only names are kept. A rule that needs a block asks for it by name, so that a change in one limit line does not touch everything that
 * merely wanted to know the type.
 */
import type { Ask, Total } from "../checking/ask.ts";
import type { LimitsBlock } from "../facts/types.ts";
import type { CivilDate } from "../quantity/civil-date.ts";

export interface JobContext {
  /** A job's name, or `engine:` and an engine's name for work in service. */
  readonly scope: string;
  /** `""` for work in service. */
  readonly job: string;
  readonly engine: string;
  readonly type: string;
  readonly route: string;
  readonly runIn: string;
  /** The revision that applies, `""` where none is known. */
  readonly revision: string;
  /** Whether the job names the revision itself; otherwise it is the one in force when the engine was received, or as of today. */
  readonly revisionNamed: boolean;
  readonly received: CivilDate | undefined;
  readonly decision: "guarded" | "simple";
}

/** The revision with the latest `from` that is not after the day. */
export function revisionInForce(revisions: readonly LimitsBlock[], on: CivilDate): LimitsBlock | undefined {
  let latest: LimitsBlock | undefined;
  for (const one of revisions) {
    if (one.from === undefined || one.from > on) continue;
    if (latest?.from === undefined || one.from > latest.from) latest = one;
  }
  return latest;
}

/** Key: a job's name, or `engine:NAME`. Members that cannot be resolved are `""`. */
export const jobContext: Total<JobContext> = {
  name: "job-context",
  compute(scope: string, ask: Ask): JobContext {
    const inService = scope.startsWith("engine:");
    const job = inService ? undefined : ask.job(scope);
    const engineName = inService ? scope.slice("engine:".length) : (job?.engine ?? "");
    const type = engineName === "" ? "" : (ask.engine(engineName)?.type ?? "");
    const received = job?.received?.on;
    const named = job?.limits ?? "";
    let revision = named;
    if (revision === "" && type !== "") {
      revision = revisionInForce(ask.revisions(type), received ?? ask.asOf())?.revision ?? "";
    }
    return {
      scope,
      job: inService ? "" : scope,
      engine: engineName,
      type,
      route: job?.route ?? "",
      runIn: job?.runIn ?? "",
      revision,
      revisionNamed: named !== "",
      received,
      decision: ask.shop().decision,
    };
  },
};
