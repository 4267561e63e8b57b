/** The readings of one block with the limits that they are judged by, for rules on blocks of work. */
import type { Ask, Total } from "../checking/ask.ts";
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

/** Features read in a block, in order of first reading, each with its limits and how its readings stand. */
export function readingsOfBlock(block: WorkBlock, ask: Ask): readonly ReadingsOfFeature[] {
  if (block.readings.length === 0) return NONE;
  // A dozen rules ask this of each block. Of two blocks with one name the second is answered from its own lines.
  return ask.workBlock(block.ref) === block ? ask.total(readingsByRef, block.ref) : collect(block, ask);
}

const NONE: readonly ReadingsOfFeature[] = [];

/** Key: `ref` of a block of work. */
const readingsByRef: Total<readonly ReadingsOfFeature[]> = {
  name: "readings-of-block",
  compute(ref: string, ask: Ask): readonly ReadingsOfFeature[] {
    const block = ask.workBlock(ref);
    return block ? collect(block, ask) : NONE;
  },
};

function collect(block: WorkBlock, ask: Ask): readonly ReadingsOfFeature[] {
  const scope = scopeOf(block);
  const context = ask.total(jobContext, scope);
  return featuresIn(block.readings).map((feature) => ({
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
