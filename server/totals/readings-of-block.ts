/** The readings of one block with the limits that they are judged by, for rules on blocks of work. */
import type { Ask, Total, WorkHead } from "../checking/ask.ts";
import { scopeOf } from "../facts/refs.ts";
import type { LimitLine, Reading, WorkBlock } from "../facts/types.ts";
import { type JobContext, jobContext } from "./job-context.ts";
import { type FeatureLimits, limitsFor, limitsKey } from "./limits-for.ts";
import { blockReadings, type HistoryReading } from "./place-history.ts";

/** What there is among some readings, so that a rule that looks for none of it need not go through them. Superseded readings do not count. */
export interface Standing {
  readonly out: boolean;
  readonly outsideNew: boolean;
  readonly notProven: boolean;
  readonly contradicts: boolean;
  readonly suspect: boolean;
  readonly todo: boolean;
  /** Figures or verdicts of a gauge for which no instrument is named. */
  readonly unnamed: boolean;
  /** Figures to which no limit applies. */
  readonly unlimited: boolean;
}

export interface ReadingsOfFeature {
  readonly feature: string;
  readonly context: JobContext;
  readonly limits: FeatureLimits;
  readonly readings: readonly HistoryReading[];
  readonly has: Standing;
}

/** How some readings stand, taken together. */
function standingOf(readings: readonly HistoryReading[]): Standing {
  let known = standings.get(readings);
  if (known) return known;
  let out = false;
  let outsideNew = false;
  let notProven = false;
  let contradicts = false;
  let suspect = false;
  let todo = false;
  let unnamed = false;
  let unlimited = false;
  for (const one of readings) {
    if (one.status === "superseded") continue;
    if (one.verdict === "out") out = true;
    if (one.outsideNew) outsideNew = true;
    if (one.notProven) notProven = true;
    if (one.contradicts !== undefined) contradicts = true;
    if (one.suspect) suspect = true;
    if (one.result === "todo") todo = true;
    else if (one.result !== "none" && one.result !== "bad") {
      if (one.instrument === "") unnamed = true;
      if (one.limitAt < 0) unlimited = true;
    }
  }
  known = { out, outsideNew, notProven, contradicts, suspect, todo, unnamed, unlimited };
  standings.set(readings, known);
  return known;
}

const standings = new WeakMap<readonly HistoryReading[], Standing>();

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
  // A dozen rules ask this of each block, and need not look again when another line of it changes.
  const found = ask.total(readingsByRef, block.ref);
  return found.scope === scopeOf(block) ? found.features : collect(block, ask);
}

const NONE: readonly ReadingsOfFeature[] = [];

interface ReadingsOfRef {
  /** `undefined` where several blocks have the name: each is then answered from its own lines. */
  readonly scope: string | undefined;
  readonly features: readonly ReadingsOfFeature[];
}

const SHARED: ReadingsOfRef = { scope: undefined, features: NONE };

/** Key: `ref` of a block of work. */
const readingsByRef: Total<ReadingsOfRef> = {
  name: "readings-of-block",
  compute(ref: string, ask: Ask): ReadingsOfRef {
    const block = ask.workBlock(ref);
    if (!block) return SHARED;
    const scope = scopeOf(block);
    return isShared(ref, scope, ask) ? SHARED : { scope, features: collect(block, ask) };
  },
};

const sharedRefs = new WeakMap<readonly WorkHead[], ReadonlySet<string>>();

/** Whether several blocks of work of a scope have one name. */
export function isShared(ref: string, scope: string, ask: Ask): boolean {
  const heads = ask.work(scope);
  let shared = sharedRefs.get(heads);
  if (!shared) {
    const once = new Set<string>();
    const twice = new Set<string>();
    for (const head of heads) (once.has(head.ref) ? twice : once).add(head.ref);
    shared = twice;
    sharedRefs.set(heads, shared);
  }
  return shared.has(ref);
}

function collect(block: WorkBlock, ask: Ask): readonly ReadingsOfFeature[] {
  const scope = scopeOf(block);
  const context = ask.total(jobContext, scope);
  return featuresIn(block.readings).map((feature) => {
    const readings = ask.total(blockReadings, `${scope}|${feature}|${block.ref}`);
    return {
      feature,
      context,
      limits: ask.total(limitsFor, limitsKey(context.type, context.revision, feature)),
      readings,
      has: standingOf(readings),
    };
  });
}

/** The limit line by which a reading was judged. */
export function lineOf(limits: FeatureLimits, reading: HistoryReading): LimitLine | undefined {
  return reading.limitAt < 0 ? undefined : limits.readings.find((line) => line.at === reading.limitAt);
}
