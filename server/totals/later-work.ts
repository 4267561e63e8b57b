/**
 * Whether what was wrong in a run is past: work on the engine after it, and a later run that is inside. A better run with nothing between is
 * running until it fits, and clears nothing.
 */
import type { Ask } from "../checking/ask.ts";
import { isWithin, pathsOf } from "../facts/place.ts";
import type { WorkBlock } from "../facts/types.ts";
import { mayAct, refersTo } from "./authority.ts";

const WORK_LINES = ["rectifies", "reworks", "fits", "moves"] as const;

/** Blocks of a job, by their place in its order. */
function rankedWork(ask: Ask, job: string): ReadonlyMap<string, number> {
  return new Map(ask.work(job).map((head, rank) => [head.ref, rank]));
}

/**
 * Whether a finding about a run is put right by work and a later run of the same job.
 * @param run the run with the finding
 * @param isInside whether a later run shows the thing, and inside; undefined when it does not show it
 */
export function clearedLater(ask: Ask, run: WorkBlock, isInside: (later: WorkBlock) => boolean | undefined): boolean {
  if (run.job === "") return false;
  const ranks = rankedWork(ask, run.job);
  const own = ranks.get(run.ref) ?? -1;
  let firstWork = Number.POSITIVE_INFINITY;
  for (const member of WORK_LINES) {
    for (const { block } of ask.facts(run.job, member)) {
      const rank = ranks.get(block.ref) ?? -1;
      if (rank > own && rank < firstWork) firstWork = rank;
    }
  }
  if (firstWork === Number.POSITIVE_INFINITY) return false;
  let cleared = false;
  for (const head of ask.work(run.job)) {
    if (head.kind !== "run" || (ranks.get(head.ref) ?? -1) < firstWork) continue;
    const later = ask.workBlock(head.ref);
    const inside = later && isInside(later);
    // The last run that shows it decides.
    if (inside !== undefined) cleared = inside;
  }
  return cleared;
}

/**
 * Whether a concession of the job, by someone who may sign one, names this block and this place or one that holds it. One that names no place
 * concedes nothing here: a run holds many things of which only one was thought of.
 * @param ref the block's ref, `J26-014/R1`
 * @param feature of the place that the finding names: a channel, `step`, `magneto`, `hydraulic-lock`, `compression`
 */
export function isConceded(ask: Ask, job: string, ref: string, feature: string, path: string): boolean {
  if (job === "") return false;
  return ask.facts(job, "concessions").some(({ fact }) => {
    if (!refersTo(job, fact.of, ref) || fact.reason.trim() === "" || !mayAct(ask, fact.by, "concession", fact.on))
      return false;
    const { place } = fact;
    return place !== undefined && pathsOf(place).some((outer) => isWithin(feature, path, place.feature, outer));
  });
}
