/**
 * Which fasteners of the limits have a torque that still counts, are locked, and were torqued again after the run where the limits ask for it.
 *
 * A torque counts until the fastener, or a part that holds it, is taken off, fitted, moved or opened again. A later torque of the same fastener
 * replaces an earlier one, also one out of range: tightening again is the cure. `retorque` of a limit asks for a torque
 * after the last run of the job.
 */
import type { Ask, Placed, Total } from "../checking/ask.ts";
import { type PlaceSet, pathsOf } from "../facts/place.ts";
import type { MoveLine, TorqueLimit, TorqueLine } from "../facts/types.ts";
import { compareExact, compareMeasures, difference, type Measure } from "../quantity/compare.ts";
import { jobContext } from "./job-context.ts";
import { chooseTorque, limitsFor, limitsKey } from "./limits-for.ts";
import { orderOfWork } from "./place-events.ts";
import { historyKey } from "./place-history.ts";

/** A torque line and how it stands to the limit of the first place that it names. */
export interface TorqueVerdict {
  readonly ref: string;
  readonly at: number;
  /** Line of the limit in the limits block, -1 where none is known. */
  readonly limitAt: number;
  readonly verdict: "in" | "low" | "high" | "none";
  readonly low: Measure | undefined;
  readonly high: Measure | undefined;
  /** Every fastener that it names was torqued again later, or was opened. */
  readonly superseded: boolean;
}

export interface FastenerCoverage {
  readonly feature: string;
  readonly limitAt: number;
  readonly reference: string;
  readonly bounds: string;
  readonly lubrication: string;
  readonly locking: string;
  readonly expected: number;
  readonly torqued: number;
  /** Of the torqued: out of range, and not tightened again since. */
  readonly out: number;
  /** Paths without a torque that counts. */
  readonly missing: readonly string[];
  /** Paths of a fastener that is to be locked, torqued and not locked since. */
  readonly unlocked: readonly string[];
  /** Paths that must be torqued again after the last run and are not; empty while nothing has run. */
  readonly retorque: readonly string[];
}

export interface FeatureTorques {
  readonly lines: readonly FastenerCoverage[];
  readonly verdicts: readonly TorqueVerdict[];
}

export interface TorqueCoverage {
  readonly scope: string;
  readonly limitsRef: string;
  readonly lines: readonly FastenerCoverage[];
  readonly expected: number;
  readonly torqued: number;
  readonly missing: number;
}

/**
 * Judges a torque at the fastener, exactly. Of a self-locking fastener the drag is taken off first.
 * Source: AC 43.13-1B para 7-40 (the final torque is the table value and the drag).
 */
export function judgeTorque(
  line: Pick<TorqueLine, "value" | "drag">,
  limit: TorqueLimit | undefined,
): "in" | "low" | "high" | "none" {
  if (!limit) return "none";
  const { value } = line;
  const drag = line.drag?.unit.dimension === value.unit.dimension ? line.drag : undefined;
  const order = (bound: Measure | undefined): number => {
    if (!bound || bound.unit.dimension !== value.unit.dimension) return Number.NaN;
    if (!drag) return compareMeasures(value, bound);
    const clamping = difference(value, drag);
    return compareExact(clamping.exact, clamping.unit, bound);
  };
  const { low, high } = limit.bounds;
  const toLow = order(low);
  const toHigh = order(high);
  if (Number.isNaN(toLow) && Number.isNaN(toHigh)) return "none";
  return toLow < 0 ? "low" : toHigh > 0 ? "high" : "in";
}

interface Moment {
  readonly order: number;
  readonly at: number;
}
const isAfter = (a: Moment, b: Moment | undefined): boolean =>
  b === undefined || a.order > b.order || (a.order === b.order && a.at > b.at);

type Moved = Placed<{ readonly at: number }>;

const grouped = new WeakMap<readonly Moved[], ReadonlyMap<string, readonly Moved[]>>();

/** Lines by the features that they name: every fastener of a job goes through the same ones. */
function byFeature<F extends { readonly at: number }>(
  placed: readonly Placed<F>[],
  featuresOf: (fact: F) => readonly string[],
): ReadonlyMap<string, readonly Placed<F>[]> {
  let groups = grouped.get(placed) as ReadonlyMap<string, readonly Placed<F>[]> | undefined;
  if (!groups) {
    const made = new Map<string, Placed<F>[]>();
    for (const one of placed) {
      for (const feature of featuresOf(one.fact)) {
        const group = made.get(feature);
        if (!group) made.set(feature, [one]);
        else if (group.at(-1) !== one) group.push(one);
      }
    }
    groups = made;
    grouped.set(placed, groups);
  }
  return groups;
}

/** A feature and the parts that hold it: `cylinder.stud`, `cylinder`. */
function partsAbove(feature: string): readonly string[] {
  const parts = [feature];
  for (let end = feature.lastIndexOf("."); end > 0; end = feature.lastIndexOf(".", end - 1))
    parts.push(feature.slice(0, end));
  return parts;
}

const NOWHERE: readonly string[] = [];
const placeOf = (fact: { readonly place: PlaceSet | undefined }): readonly string[] =>
  fact.place ? [fact.place.feature] : NOWHERE;
const movedOf = (fact: MoveLine): readonly string[] => [fact.from.feature, fact.to.feature];
const openedOf = (fact: { readonly opens: boolean; readonly what: string }): readonly string[] =>
  fact.opens ? [fact.what] : NOWHERE;

/** Key: `scope|feature`. */
export const featureTorques: Total<FeatureTorques> = {
  name: "feature-torques",
  compute(key: string, ask: Ask): FeatureTorques {
    const bar = key.indexOf("|");
    const scope = key.slice(0, bar);
    const feature = key.slice(bar + 1);
    const { type, revision } = ask.total(jobContext, scope);
    const { torques: limits } = ask.total(limitsFor, limitsKey(type, revision, feature));
    const placed = ask.torques(scope, feature);
    const order = orderOfWork(scope, ask);
    const moment = (one: { block: { ref: string }; fact: { at: number } }): Moment => ({
      order: order.get(one.block.ref) ?? 0,
      at: one.fact.at,
    });

    const last = new Map<string, { moment: Moment; line: Placed<TorqueLine>; index: number }>();
    for (const [index, line] of placed.entries()) {
      const when = moment(line);
      for (const path of pathsOf(line.fact.place))
        if (isAfter(when, last.get(path)?.moment)) last.set(path, { moment: when, line, index });
    }
    // Whatever disturbs a fastener takes its torque away.
    const disturb = (partFeature: string, paths: readonly string[], when: Moment): void => {
      if (feature !== partFeature && !feature.startsWith(`${partFeature}.`)) return;
      for (const [path, torque] of last) {
        if (
          isAfter(when, torque.moment) &&
          paths.some((outer) => outer === "" || path === outer || path.startsWith(`${outer}/`))
        )
          last.delete(path);
      }
    };
    if (last.size > 0) {
      const fits = byFeature(ask.facts(scope, "fits"), placeOf);
      const removes = byFeature(ask.facts(scope, "removes"), placeOf);
      const moves = byFeature(ask.facts(scope, "moves"), movedOf);
      const opens = byFeature(ask.facts(scope, "openCloses"), openedOf);
      for (const part of partsAbove(feature)) {
        for (const lines of [fits.get(part), removes.get(part)])
          for (const one of lines ?? [])
            if (one.fact.place) disturb(one.fact.place.feature, pathsOf(one.fact.place), moment(one));
        for (const one of moves.get(part) ?? []) {
          disturb(one.fact.from.feature, pathsOf(one.fact.from), moment(one));
          disturb(one.fact.to.feature, pathsOf(one.fact.to), moment(one));
        }
        for (const one of opens.get(part) ?? []) disturb(one.fact.what, [""], moment(one));
      }
    }

    const locks = new Map<string, Moment>();
    for (const one of byFeature(ask.facts(scope, "locked"), placeOf).get(feature) ?? []) {
      const when = moment(one);
      for (const path of pathsOf(one.fact.place)) if (isAfter(when, locks.get(path))) locks.set(path, when);
    }
    const lockOf = (path: string): Moment | undefined => {
      for (let prefix = path; prefix !== ""; prefix = prefix.slice(0, Math.max(0, prefix.lastIndexOf("/")))) {
        const found = locks.get(prefix);
        if (found) return found;
      }
      return locks.get("");
    };
    const work = ask.work(scope);
    const lastRun = work.findLastIndex((head) => head.kind === "run");

    const torqueOf = (path: string) => {
      if (last.size === 0) return undefined;
      for (let prefix = path; prefix !== ""; prefix = prefix.slice(0, Math.max(0, prefix.lastIndexOf("/")))) {
        const found = last.get(prefix);
        if (found) return found;
      }
      return last.get("");
    };
    const counts = new Set<number>();
    for (const { index } of last.values()) counts.add(index);
    const verdicts = placed.map(({ block, fact }, index): TorqueVerdict => {
      const limit = chooseTorque(limits, pathsOf(fact.place)[0] ?? "");
      return {
        ref: block.ref,
        at: fact.at,
        limitAt: limit?.at ?? -1,
        verdict: judgeTorque(fact, limit),
        low: limit?.bounds.low,
        high: limit?.bounds.high,
        superseded: !counts.has(index),
      };
    });
    const lines = limits.map((limit): FastenerCoverage => {
      const paths = pathsOf(limit.place);
      const missing: string[] = [];
      const unlocked: string[] = [];
      const retorque: string[] = [];
      let out = 0;
      for (const path of paths) {
        const torque = torqueOf(path);
        if (!torque) {
          missing.push(path);
          continue;
        }
        const verdict = verdicts[torque.index]?.verdict;
        if (verdict === "low" || verdict === "high") out++;
        if (limit.locking !== "") {
          const lock = lockOf(path);
          if (!lock || lock.order < torque.moment.order) unlocked.push(path);
        }
        if (limit.retorque && lastRun >= 0 && torque.moment.order < lastRun) retorque.push(path);
      }
      return {
        feature,
        limitAt: limit.at,
        reference: limit.reference,
        bounds: limit.bounds.text,
        lubrication: limit.lubrication,
        locking: limit.locking,
        expected: paths.length,
        torqued: paths.length - missing.length,
        out,
        missing,
        unlocked,
        retorque,
      };
    });
    return { lines, verdicts };
  },
};

/** Key: scope. All torque lines of the revision that the job works to, in order. */
export const torqueCoverage: Total<TorqueCoverage> = {
  name: "torque-coverage",
  compute(scope: string, ask: Ask): TorqueCoverage {
    const { type, revision } = ask.total(jobContext, scope);
    const limits = ask.limits(type, revision);
    const features = new Set((limits?.torques ?? []).map((line) => line.place.feature));
    const lines = [...features].flatMap((feature) => ask.total(featureTorques, historyKey(scope, feature)).lines);
    lines.sort((a, b) => a.limitAt - b.limitAt);
    return {
      scope,
      limitsRef: limits?.ref ?? "",
      lines,
      expected: lines.reduce((sum, line) => sum + line.expected, 0),
      torqued: lines.reduce((sum, line) => sum + line.torqued, 0),
      missing: lines.reduce((sum, line) => sum + line.missing.length, 0),
    };
  },
};
