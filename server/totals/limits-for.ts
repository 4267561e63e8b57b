/**
 * The lines of one revision that are about one feature, and which of them applies to a reading.
 *
 * Where wear limits give one end only, the other end is that of the new limits: a bore wears wider, so a table says `wear max`, and a bore
 * below its new size is as wrong in a worn engine as in a new one. (Common practice, no source.)
 */
import type { Ask, Total } from "../checking/ask.ts";
import { countOf, covers } from "../facts/place.ts";
import type { LimitLine, LimitsBlock, TorqueLimit } from "../facts/types.ts";
import { compareMeasures, type Measure } from "../quantity/compare.ts";

export interface FeatureLimits {
  /** `ref` of the limits block, for related places. */
  readonly ref: string;
  readonly type: string;
  readonly revision: string;
  readonly title: string;
  /** Limits of the readings themselves. */
  readonly readings: readonly LimitLine[];
  /** Limits of taper, out-of-round, mean and spread of this feature's readings. */
  readonly statistics: readonly LimitLine[];
  /** Limits of a figure computed from readings, by the name of the figure. */
  readonly formulas: readonly LimitLine[];
  readonly torques: readonly TorqueLimit[];
}

/** The key of `limitsFor`. */
export const limitsKey = (type: string, revision: string, feature: string): string => `${type}|${revision}|${feature}`;

const NONE: FeatureLimits = {
  ref: "",
  type: "",
  revision: "",
  title: "",
  readings: [],
  statistics: [],
  formulas: [],
  torques: [],
};

/** Lines of a revision by feature; grouped once for all features. */
const byFeature = new WeakMap<
  LimitsBlock,
  { readonly limits: ReadonlyMap<string, LimitLine[]>; readonly torques: ReadonlyMap<string, TorqueLimit[]> }
>();

function groupedByFeature<L extends { readonly place: { readonly feature: string } }>(
  lines: readonly L[],
): ReadonlyMap<string, L[]> {
  const groups = new Map<string, L[]>();
  for (const line of lines) {
    const group = groups.get(line.place.feature);
    if (group) group.push(line);
    else groups.set(line.place.feature, [line]);
  }
  return groups;
}

/** Lines of a revision about figures that are worked out, in order; and the features that are measured for themselves. */
export interface WorkedLines {
  readonly formulas: readonly LimitLine[];
  readonly statistics: readonly LimitLine[];
  readonly features: readonly string[];
}

const worked = new WeakMap<LimitsBlock, WorkedLines>();

/** The lines of a revision about figures that are worked out from readings; sorted out once for all blocks of work. */
export function workedLines(block: LimitsBlock): WorkedLines {
  let lines = worked.get(block);
  if (!lines) {
    lines = {
      formulas: block.limits.filter((line) => line.formula.length > 0),
      statistics: block.limits.filter((line) => line.formula.length === 0 && line.stat !== "value"),
      features: [
        ...new Set(
          block.limits
            .filter((line) => line.formula.length === 0 && line.stat === "value")
            .map((line) => line.place.feature),
        ),
      ],
    };
    worked.set(block, lines);
  }
  return lines;
}

/** Key: `type|revision|feature`. `ref` is `""` where the revision is not known. */
export const limitsFor: Total<FeatureLimits> = {
  name: "limits-for",
  compute(key: string, ask: Ask): FeatureLimits {
    const [type = "", revision = "", feature = ""] = key.split("|");
    const block = ask.limits(type, revision);
    if (!block) return NONE;
    let features = byFeature.get(block);
    if (!features) {
      features = { limits: groupedByFeature(block.limits), torques: groupedByFeature(block.torques) };
      byFeature.set(block, features);
    }
    const own = features.limits.get(feature) ?? NONE.readings;
    return {
      ref: block.ref,
      type,
      revision,
      title: block.title,
      readings: own.filter((line) => line.formula.length === 0 && line.stat === "value"),
      statistics: own.filter((line) => line.formula.length === 0 && line.stat !== "value"),
      formulas: own.filter((line) => line.formula.length > 0),
      torques: features.torques.get(feature) ?? NONE.torques,
    };
  },
};

/** Ends of the range that decides whether a part may stay; either may be open. */
export interface Ends {
  readonly low: Measure | undefined;
  readonly high: Measure | undefined;
  /** Which limits the ends come from, for messages. */
  readonly kind: "limit" | "wear limit" | "new limit";
}

/** The range within which a part may stay in service: the bare limits, else wear limits completed by the new ones, else the new ones. */
export function serviceEnds(line: LimitLine): Ends | undefined {
  const { bare, newLimits, wearLimits } = line;
  if (bare) return { low: bare.low, high: bare.high, kind: "limit" };
  if (wearLimits)
    return { low: wearLimits.low ?? newLimits?.low, high: wearLimits.high ?? newLimits?.high, kind: "wear limit" };
  if (newLimits) return { low: newLimits.low, high: newLimits.high, kind: "new limit" };
  return undefined;
}

function sameSize(a: Measure | undefined, b: Measure | undefined): boolean {
  if (a === undefined || b === undefined) return a === b;
  return a.unit.dimension === b.unit.dimension && compareMeasures(a, b) === 0;
}

/**
 * The line that applies to a place: it covers the path, is for the size and for the state. Of several the most particular one, then the first.
 * A line without a state serves readings of any state, one with a state only readings of that state, or those that name none
 * where no other line stands. Lines under a condition are about a running engine and apply to no single reading.
 */
export function chooseLimit(
  lines: readonly LimitLine[],
  path: string,
  state: "" | "hot" | "cold",
  size: Measure | undefined,
): LimitLine | undefined {
  if (lines.length === 0) return undefined;
  // Nearly every reading is of a plain size, and the same places come again with every job.
  if (size !== undefined || state !== "") return choose(lines, path, state, size);
  let byPath = chosen.get(lines);
  if (!byPath) {
    byPath = new Map();
    chosen.set(lines, byPath);
  }
  let line = byPath.get(path);
  if (line === undefined) {
    line = choose(lines, path, state, size) ?? null;
    if (byPath.size < PATHS_KEPT) byPath.set(path, line);
  }
  return line ?? undefined;
}

const chosen = new WeakMap<readonly LimitLine[], Map<string, LimitLine | null>>();
/** More places than one feature has; paths come from records, so what is kept of them is bounded. */
const PATHS_KEPT = 4096;

function choose(
  lines: readonly LimitLine[],
  path: string,
  state: "" | "hot" | "cold",
  size: Measure | undefined,
): LimitLine | undefined {
  let best: LimitLine | undefined;
  let bestRank = -1;
  let bestCount = 0;
  for (const line of lines) {
    if (line.condition !== undefined || !sameSize(line.size, size) || !covers(line.place, path)) continue;
    const stateRank = line.state === state ? 2 : line.state === "" ? 1 : state === "" ? 0 : -1;
    if (stateRank < 0) continue;
    const rank = stateRank * 16 + line.place.levels.length;
    const count = countOf(line.place);
    if (rank > bestRank || (rank === bestRank && count < bestCount)) {
      best = line;
      bestRank = rank;
      bestCount = count;
    }
  }
  return best;
}

/** The torque line that covers a path; of several the most particular one. */
export function chooseTorque(lines: readonly TorqueLimit[], path: string): TorqueLimit | undefined {
  let best: TorqueLimit | undefined;
  for (const line of lines) {
    if (!covers(line.place, path)) continue;
    if (
      best === undefined ||
      line.place.levels.length > best.place.levels.length ||
      (line.place.levels.length === best.place.levels.length && countOf(line.place) < countOf(best.place))
    ) {
      best = line;
    }
  }
  return best;
}

/** Whether a feature is one of those that a route step names: itself, or a feature of the part (`cylinder` names `cylinder.bore`). No names: all. */
export function isNamedBy(feature: string, names: readonly string[]): boolean {
  return names.length === 0 || names.some((name) => feature === name || feature.startsWith(`${name}.`));
}
