/**
 * How much of what the limits ask for has been measured.
 *
 * Expected are the places that a limit line names, as finely as the engine type's `places` lines divide them: a limit for `cylinder.bore[1..9]` on a type
 * with `places cylinder.bore[1..9/head,mid,skirt]` expects 27 readings. A reading at a finer place counts for the place that holds it; `-` counts as
 * "does not apply". Lines for an oversize expect nothing of their own: the place is expected once, whatever its size.
 */
import type { Ask, Total } from "../checking/ask.ts";
import { covers, pathsOf } from "../facts/place.ts";
import type { LimitLine } from "../facts/types.ts";
import { jobContext } from "./job-context.ts";
import { limitsFor, limitsKey } from "./limits-for.ts";
import { historyKey, placeHistory } from "./place-history.ts";

export interface FeatureCoverage {
  readonly feature: string;
  readonly state: "" | "hot" | "cold";
  /** Line in the limits block. */
  readonly limitAt: number;
  readonly reference: string;
  readonly expected: number;
  /** Places with a reading that speaks for the part that is there. */
  readonly measured: number;
  /** Places with `-`. */
  readonly notApplicable: number;
  /** Paths with a `?` and no reading yet. */
  readonly todo: readonly string[];
  /** Paths with neither reading, `-` nor `?`. */
  readonly missing: readonly string[];
  /** Paths measured before the part was changed, reworked or repaired, and not since. */
  readonly again: readonly string[];
  /** Of the measured: readings inside the new limits, inside others, outside. */
  readonly isNew: number;
  readonly isIn: number;
  readonly isOut: number;
}

export interface Coverage {
  readonly scope: string;
  readonly limitsRef: string;
  readonly lines: readonly FeatureCoverage[];
  readonly expected: number;
  readonly measured: number;
  readonly todo: number;
  readonly missing: number;
  readonly again: number;
}

/** Limit lines and the places of a type are the same objects for every job of the type. */
const expectedKept = new WeakMap<
  LimitLine,
  { readonly divided: readonly string[]; readonly paths: readonly string[] }
>();

/** Places that a line expects: its own, divided as the type's `places` lines divide them. */
export function expectedPaths(line: LimitLine, divided: readonly string[]): readonly string[] {
  const known = expectedKept.get(line);
  if (known?.divided === divided) return known.paths;
  const covered = divided.filter((path) => covers(line.place, path));
  const paths = covered.length > 0 ? covered : pathsOf(line.place);
  expectedKept.set(line, { divided, paths });
  return paths;
}

/** Every path that the engine type names for a feature. */
export function placesOfType(type: string, feature: string, ask: Ask): readonly string[] {
  return ask.total(typePlaces, `${type}|${feature}`);
}

/** Key: `type|feature`. */
const typePlaces: Total<readonly string[]> = {
  name: "type-places",
  compute(key: string, ask: Ask): readonly string[] {
    const [type = "", feature = ""] = key.split("|");
    const lines = ask.engineType(type)?.places ?? [];
    return lines.filter((line) => line.place.feature === feature).flatMap((line) => pathsOf(line.place));
  },
};

const outwardsKept = new Map<string, readonly string[]>();
/** Far more than the places of a type; paths come from records, so what is kept of them is bounded. */
const PATHS_KEPT = 4096;

/** A path and those of the places that hold it, without the whole: `3/head/a`, `3/head`, `3`. The same ones come again with every job. */
function outwards(path: string): readonly string[] {
  let paths = outwardsKept.get(path);
  if (!paths) {
    const made = [path];
    for (let end = path.lastIndexOf("/"); end >= 0; end = path.lastIndexOf("/", end - 1)) {
      made.push(path.slice(0, end));
      if (end === 0) break;
    }
    paths = made;
    if (outwardsKept.size >= PATHS_KEPT) outwardsKept.clear();
    outwardsKept.set(path, paths);
  }
  return paths;
}

/** Key: `scope|feature`. One entry for each base line of the feature in the job's limits. */
export const featureCoverage: Total<readonly FeatureCoverage[]> = {
  name: "feature-coverage",
  compute(key: string, ask: Ask): readonly FeatureCoverage[] {
    const bar = key.indexOf("|");
    const scope = key.slice(0, bar);
    const feature = key.slice(bar + 1);
    const { type, revision } = ask.total(jobContext, scope);
    const { readings: lines } = ask.total(limitsFor, limitsKey(type, revision, feature));
    const base = lines.filter(
      (line) =>
        line.condition === undefined &&
        (line.size === undefined ||
          !lines.some((other) => other.size === undefined && other.place.text === line.place.text)),
    );
    if (base.length === 0) return [];
    const divided = placesOfType(type, feature, ask);
    // What each place shows; a finer reading also counts for the places above it.
    const shows = new Map<string, "value" | "none" | "todo" | "again">();
    const placeOf = (path: string, state: string): string => (state === "" ? path : `${path}|${state}`);
    const rank = { todo: 0, again: 1, none: 2, value: 3 };
    const verdicts = new Map<string, "new" | "in" | "out" | "none">();
    for (const one of ask.total(placeHistory, historyKey(scope, feature)).readings) {
      const isMark = (one.result === "todo" || one.result === "none") && one.status !== "superseded";
      if ((!one.speaks && !isMark) || one.pathNow === undefined) continue;
      const kind =
        one.result === "todo"
          ? "todo"
          : one.result === "none"
            ? "none"
            : one.awaits === "" || one.awaits === "rectified"
              ? "value"
              : "again";
      for (const path of outwards(one.pathNow)) {
        const place = placeOf(path, one.state);
        const before = shows.get(place);
        if (before === undefined || rank[kind] > rank[before]) shows.set(place, kind);
        if (kind === "value" && (verdicts.get(place) !== "out" || one.pathNow === path))
          verdicts.set(place, one.verdict);
      }
      if (one.pathNow !== "") {
        const whole = placeOf("", one.state);
        const before = shows.get(whole);
        if (before === undefined || rank[kind] > rank[before]) shows.set(whole, kind);
      }
    }
    const shown = <V>(map: ReadonlyMap<string, V>, path: string, state: string): V | undefined =>
      state === ""
        ? (map.get(path) ?? map.get(`${path}|cold`) ?? map.get(`${path}|hot`))
        : (map.get(`${path}|${state}`) ?? map.get(path));
    return base.map((line) => {
      const todo: string[] = [];
      const missing: string[] = [];
      const again: string[] = [];
      let measured = 0;
      let notApplicable = 0;
      const count = { new: 0, in: 0, out: 0, none: 0 };
      const expected = expectedPaths(line, divided);
      for (const path of expected) {
        const kind = shown(shows, path, line.state);
        if (kind === undefined) missing.push(path);
        else if (kind === "todo") todo.push(path);
        else if (kind === "again") again.push(path);
        else if (kind === "none") notApplicable++;
        else {
          measured++;
          count[shown(verdicts, path, line.state) ?? "none"]++;
        }
      }
      return {
        feature,
        state: line.state,
        limitAt: line.at,
        reference: line.reference,
        expected: expected.length,
        measured,
        notApplicable,
        todo,
        missing,
        again,
        isNew: count.new,
        isIn: count.in,
        isOut: count.out,
      };
    });
  },
};

/** Key: scope. All base limit lines of the revision that the job works to, in order. */
export const coverage: Total<Coverage> = {
  name: "coverage",
  compute(scope: string, ask: Ask): Coverage {
    const { type, revision } = ask.total(jobContext, scope);
    const limits = ask.limits(type, revision);
    const features = new Set<string>();
    for (const line of limits?.limits ?? [])
      if (line.stat === "value" && line.formula.length === 0 && line.condition === undefined)
        features.add(line.place.feature);
    const lines = [...features].flatMap((feature) => ask.total(featureCoverage, historyKey(scope, feature)));
    lines.sort((a, b) => a.limitAt - b.limitAt);
    const sum = (of: (line: FeatureCoverage) => number): number => lines.reduce((total, line) => total + of(line), 0);
    return {
      scope,
      limitsRef: limits?.ref ?? "",
      lines,
      expected: sum((line) => line.expected - line.notApplicable),
      measured: sum((line) => line.measured),
      todo: sum((line) => line.todo.length),
      missing: sum((line) => line.missing.length),
      again: sum((line) => line.again.length),
    };
  },
};
