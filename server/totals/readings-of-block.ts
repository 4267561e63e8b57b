/** The readings of one block with the limits that they are judged by, for rules on blocks of work. */
import type { Ask } from "../checking/ask.ts";
import { scopeOf } from "../facts/refs.ts";
import type { LimitLine, Reading, WorkBlock } from "../facts/types.ts";
import { type JobContext, jobContext } from "./job-context.ts";
import { type FeatureLimits, limitsFor, limitsKey } from "./limits-for.ts";
import { blockReadings, type HistoryReading } from "./place-history.ts";

export interface ReadingsOfFeature {
  readonly feature: string;
  readonly context: JobContext;
  readonly limits: FeatureLimits;
  readonly readings: readonly HistoryReading[];
}

const featuresKept = new WeakMap<readonly Reading[], readonly string[]>();

/** The features of some readings, in order of the first of each; worked out once for each list. */
export function featuresIn(readings: readonly Reading[]): readonly string[] {
  let features = featuresKept.get(readings);
  if (!features) {
    features = [...new Set(readings.map((reading) => reading.feature))];
    featuresKept.set(readings, features);
  }
  return features;
}

/** Features read in a block, in order of first reading. */
export function readingsOfBlock(block: WorkBlock, ask: Ask): readonly ReadingsOfFeature[] {
  const scope = scopeOf(block);
  const features = featuresIn(block.readings);
  if (features.length === 0) return [];
  const context = ask.total(jobContext, scope);
  return features.map((feature) => ({
    feature,
    context,
    limits: ask.total(limitsFor, limitsKey(context.type, context.revision, feature)),
    readings: ask.total(blockReadings, `${scope}|${feature}|${block.ref}`),
  }));
}

/** The limit line by which a reading was judged. */
export function lineOf(limits: FeatureLimits, reading: HistoryReading): LimitLine | undefined {
  return reading.limitAt < 0 ? undefined : limits.readings.find((line) => line.at === reading.limitAt);
}
