/**
 * Figures that limits are about and that no gauge shows: clearances and other formulas, taper, out-of-round, mean and spread.
 *
 * They are worked out with exact fractions from the readings that speak for their places now, so a clearance equal to its limit is inside it. A
 * figure is left out where a part was changed or reworked since one of its readings, where a term is not measured at all, and where a concession names
 * the figure's own place. A greatest or least of places that are not all measured is what it is so far.
 */
import type Fraction from "fraction.js";
import type { Ask, Total } from "../checking/ask.ts";
import { covers, pathsOf } from "../facts/place.ts";
import type { FormulaTerm, LimitLine } from "../facts/types.ts";
import { compareExact, compareMeasures, convertNumber, exactIn, type Measure } from "../quantity/compare.ts";
import { exact } from "../quantity/decimal.ts";
import { decimalsOf, formatExact } from "../quantity/format.ts";
import { differenceUnit, type Unit } from "../quantity/units.ts";
import { placesOfType } from "./coverage.ts";
import { jobContext } from "./job-context.ts";
import { serviceEnds } from "./limits-for.ts";
import { mayConcede, orderOfWork } from "./place-events.ts";
import { currentReadings, type HistoryReading, historyKey, type PlaceHistory, placeHistory } from "./place-history.ts";

export interface ComputedFigure {
  readonly feature: string;
  readonly path: string;
  readonly limitAt: number;
  /** The figure with the digits that its readings justify, and its unit. */
  readonly text: string;
  readonly verdict: "in" | "out";
  readonly outsideNew: boolean;
  readonly end: "low" | "high" | undefined;
  readonly bound: Measure | undefined;
  readonly boundKind: "limit" | "wear limit" | "new limit";
  /** How far outside, in the figure's unit. */
  readonly excess: string;
  /** How it was worked out: `98.031 mm - 97.889 mm`. */
  readonly working: string;
  /** The reading that completed it, and the feature of that reading. */
  readonly last: { readonly ref: string; readonly at: number; readonly cell: number };
  readonly parts: readonly {
    readonly ref: string;
    readonly at: number;
    readonly cell: number;
    readonly place: string;
  }[];
}

type Used = { readonly reading: HistoryReading; readonly feature: string };

interface Term {
  readonly value: Fraction;
  readonly text: string;
  readonly used: readonly Used[];
}

/** Readings that speak for places of one feature now, in one state; and of those each place with what lies below it. */
interface Shown {
  readonly all: readonly HistoryReading[];
  byPlace: ReadonlyMap<string, readonly HistoryReading[]> | undefined;
}

/** Every formula and statistic of a job looks at the same readings. */
const shown = new WeakMap<PlaceHistory, Map<string, Shown>>();
const NO_READINGS: readonly HistoryReading[] = [];

function shownIn(history: PlaceHistory, state: "" | "hot" | "cold"): Shown {
  let states = shown.get(history);
  if (!states) {
    states = new Map();
    shown.set(history, states);
  }
  let found = states.get(state);
  if (!found) {
    const all: HistoryReading[] = [];
    for (const one of currentReadings(history).values())
      if (
        one.result === "value" &&
        one.measure !== undefined &&
        (state === "" || one.state === state || one.state === "")
      )
        all.push(one);
    found = { all, byPlace: undefined };
    states.set(state, found);
  }
  return found;
}

function groupedByPlace(readings: readonly HistoryReading[]): ReadonlyMap<string, readonly HistoryReading[]> {
  const groups = new Map<string, HistoryReading[]>();
  for (const one of readings) {
    for (let path = one.pathNow ?? ""; path !== ""; path = path.slice(0, Math.max(0, path.lastIndexOf("/")))) {
      const group = groups.get(path);
      if (group) group.push(one);
      else groups.set(path, [one]);
    }
  }
  return groups;
}

class Current {
  /** Position of each block of work. */
  readonly order: ReadonlyMap<string, number>;
  readonly #ask: Ask;
  readonly #scope: string;

  constructor(scope: string, ask: Ask) {
    this.#scope = scope;
    this.#ask = ask;
    this.order = orderOfWork(scope, ask);
  }

  #shown(feature: string, state: "" | "hot" | "cold"): Shown {
    return shownIn(this.#ask.total(placeHistory, historyKey(this.#scope, feature)), state);
  }

  /** Readings with a figure that speak for places of a feature now, in one state. */
  of(feature: string, state: "" | "hot" | "cold"): readonly HistoryReading[] {
    return this.#shown(feature, state).all;
  }

  /** Those at a place and below it. */
  at(feature: string, state: "" | "hot" | "cold", path: string): readonly HistoryReading[] {
    const found = this.#shown(feature, state);
    if (path === "") return found.all;
    found.byPlace ??= groupedByPlace(found.all);
    return found.byPlace.get(path) ?? NO_READINGS;
  }
}

/** What `pick` would choose, in doubles; NaN where only `pick` can tell. */
function roughPick(stat: FormulaTerm["stat"], readings: readonly HistoryReading[], unit: Unit): number {
  const first = readings[0]?.measure;
  if (!first) return Number.NaN;
  let sum = 0;
  let least = Number.POSITIVE_INFINITY;
  let greatest = Number.NEGATIVE_INFINITY;
  for (const { measure } of readings) {
    if (!measure || measure.unit.dimension !== unit.dimension) return Number.NaN;
    if (stat === "each" && (measure.unit !== first.unit || measure.text !== first.text)) return Number.NaN;
    const value = measure.unit === unit ? measure.value : convertNumber(measure.value, measure.unit, unit);
    sum += value;
    if (value < least) least = value;
    if (value > greatest) greatest = value;
  }
  return stat === "mean" ? sum / readings.length : stat === "least" ? least : greatest;
}

/** Far above what rounding can do to a few doubles, relative to their sizes. */
const CLEAR = 1e-9;

/**
 * Whether a figure in doubles is inside every bound of its line by so much that no rounding can have put it there.
 * @param scale sum of the sizes of what it was worked out from, in `unit`
 */
function isClearlyInside(line: LimitLine, value: number, scale: number, unit: Unit, which: Which): boolean {
  if (!Number.isFinite(value) || unit.dimension === "temperature") return false;
  for (const bounds of [serviceEnds(line), which === "out" ? undefined : line.newLimits]) {
    if (!bounds) continue;
    const { low, high } = bounds;
    if ((low && low.unit.dimension !== unit.dimension) || (high && high.unit.dimension !== unit.dimension))
      return false;
    if (low) {
      const end = convertNumber(low.value, low.unit, unit);
      if (!(value - end > CLEAR * (scale + Math.abs(end)))) return false;
    }
    if (high) {
      const end = convertNumber(high.value, high.unit, unit);
      if (!(end - value > CLEAR * (scale + Math.abs(end)))) return false;
    }
  }
  return true;
}

function pick(
  stat: FormulaTerm["stat"],
  readings: readonly HistoryReading[],
  unit: Unit,
): { value: Fraction; text: string } | undefined {
  const measures = readings.flatMap((one) => (one.measure?.unit.dimension === unit.dimension ? [one.measure] : []));
  const first = measures[0];
  if (!first || measures.length !== readings.length) return undefined;
  if (stat === "mean") {
    const sum = measures.slice(1).reduce((total, one) => total.add(exactIn(one, unit)), exactIn(first, unit));
    const digits = Math.max(...measures.map((one) => decimalsOf(one.text)));
    const mean = sum.div(measures.length);
    return { value: mean, text: `${formatExact(mean, digits + 1)} ${unit.spelling}` };
  }
  if (stat === "each" && measures.some((one) => compareMeasures(one, first) !== 0)) return undefined;
  let chosen = first;
  for (const one of measures) {
    const order = compareMeasures(one, chosen);
    if (stat === "greatest" ? order > 0 : stat === "least" ? order < 0 : false) chosen = one;
  }
  return { value: exactIn(chosen, unit), text: `${chosen.text} ${chosen.unit.spelling}` };
}

/** Readings that a term takes at a place; undefined where there are none, or a part of them was changed or reworked since. */
function takenBy(
  term: FormulaTerm,
  path: string,
  state: LimitLine["state"],
  current: Current,
): readonly HistoryReading[] | undefined {
  const { feature, levels } = term.place;
  const readings =
    levels.length > 0
      ? current.of(feature, state).filter((one) => covers(term.place, one.pathNow ?? ""))
      : current.at(feature, state, path);
  if (readings.length === 0 || readings.some((one) => one.awaits === "replaced" || one.awaits === "reworked"))
    return undefined;
  return readings;
}

function termOf(term: FormulaTerm, readings: readonly HistoryReading[], unit: Unit): Term | undefined {
  const picked = pick(term.stat, readings, unit);
  if (!picked) return undefined;
  const factor = exact(term.factor < 0 ? `-${plain(-term.factor)}` : plain(term.factor));
  return {
    value: picked.value.mul(factor).mul(term.sign),
    text: term.factor === 1 ? picked.text : `${plain(term.factor)} x ${picked.text}`,
    used: readings.map((reading) => ({ reading, feature: term.place.feature })),
  };
}

/** A factor without an exponent. */
const plain = (n: number): string => (Number.isInteger(n) ? String(n) : n.toFixed(9).replace(/0+$/u, ""));

function unitOf(line: LimitLine): Unit | undefined {
  const ends = serviceEnds(line);
  return (ends?.low ?? ends?.high)?.unit;
}

function figure(
  line: LimitLine,
  path: string,
  value: Fraction,
  unit: Unit,
  working: string,
  used: readonly Used[],
  order: ReadonlyMap<string, number>,
): ComputedFigure | undefined {
  const ends = serviceEnds(line);
  const last = used.at(-1);
  if (!ends || !last) return undefined;
  const digits = Math.min(
    9,
    Math.max(
      ...used.map(({ reading }) => (reading.measure?.unit === unit ? decimalsOf(reading.measure.text) : 0)),
      decimalsOf((ends.high ?? ends.low)?.text ?? ""),
    ),
  );
  const outside = (low: Measure | undefined, high: Measure | undefined): "low" | "high" | undefined =>
    low && compareExact(value, unit, low) < 0
      ? "low"
      : high && compareExact(value, unit, high) > 0
        ? "high"
        : undefined;
  const end = outside(ends.low, ends.high);
  const bound = end === undefined ? undefined : ends[end];
  const latest = used.reduce((a, b) => (isLater(b.reading, a.reading, order) ? b : a), last);
  const at = ({ ref, at: line_, cell }: HistoryReading) => ({ ref, at: line_, cell });
  return {
    feature: line.place.feature,
    path,
    limitAt: line.at,
    text: `${formatExact(value, digits)} ${unit.spelling}`,
    verdict: end === undefined ? "in" : "out",
    outsideNew: line.newLimits !== undefined && outside(line.newLimits.low, line.newLimits.high) !== undefined,
    end,
    bound,
    boundKind: ends.kind,
    excess: bound
      ? `${formatExact(value.sub(exactIn(bound, differenceless(bound, unit))).abs(), digits)} ${unit.spelling}`
      : "",
    working,
    last: at(latest.reading),
    parts: used.map(({ reading, feature }) => ({
      ...at(reading),
      place: reading.path === "" ? feature : `${feature}[${reading.path}]`,
    })),
  };
}

/** Differences of temperatures are compared in steps of degrees, and a bound on a scale is then meant as a step. */
function differenceless(bound: Measure, unit: Unit): Unit {
  return bound.unit.dimension === unit.dimension ? unit : bound.unit;
}

function isLater(a: HistoryReading, b: HistoryReading, order: ReadonlyMap<string, number>): boolean {
  const blocks = (order.get(a.ref) ?? 0) - (order.get(b.ref) ?? 0);
  return blocks !== 0 ? blocks > 0 : a.at > b.at || (a.at === b.at && a.cell > b.cell);
}

function formulaFigures(
  line: LimitLine,
  type: string,
  current: Current,
  ask: Ask,
  which: Which,
): readonly ComputedFigure[] {
  const unit = unitOf(line);
  if (!unit) return [];
  const declared = line.place.levels.length > 0 ? pathsOf(line.place) : placesOfType(type, line.place.feature, ask);
  return (declared.length > 0 ? declared : [""]).flatMap((path) => {
    const taken: (readonly HistoryReading[])[] = [];
    let rough = 0;
    let scale = 0;
    for (const term of line.formula) {
      const readings = takenBy(term, path, line.state, current);
      if (!readings) return [];
      taken.push(readings);
      if (which === "all") continue;
      const part = roughPick(term.stat, readings, unit) * term.factor;
      rough += part * term.sign;
      scale += Math.abs(part);
    }
    if (which !== "all" && isClearlyInside(line, rough, scale, unit, which)) return [];
    const terms = line.formula.map((term, i) => termOf(term, taken[i] ?? NO_READINGS, unit));
    if (terms.some((term) => term === undefined)) return [];
    const all = terms as Term[];
    const value = all.slice(1).reduce((sum, term) => sum.add(term.value), all[0].value);
    const working = all
      .map((term, i) => `${line.formula[i]?.sign === -1 ? "- " : i > 0 ? "+ " : ""}${term.text}`)
      .join(" ");
    const made = figure(
      line,
      path,
      value,
      unit,
      working,
      all.flatMap((term) => term.used),
      current.order,
    );
    return made ? [made] : [];
  });
}

/** Labels below the place of a group: `3/head.thrust` in group `3` is level `head`, axis `thrust`; so is `3/head/thrust`. */
function levelAndAxis(path: string, group: string): readonly [level: string, axis: string] {
  const rest = group === "" ? path : path.slice(group.length + 1);
  const part = Math.max(rest.indexOf("/"), rest.indexOf("."));
  return part < 0 ? [rest, ""] : [rest.slice(0, part), rest.slice(part + 1)];
}

function spans(
  line: LimitLine,
  group: string,
  readings: readonly HistoryReading[],
): readonly (readonly HistoryReading[])[] {
  if (line.stat === "mean" || line.stat === "spread") return [readings];
  const sets = new Map<string, HistoryReading[]>();
  const split = readings.map((one) => ({ one, parts: levelAndAxis(one.pathNow ?? "", group) }));
  const isPlain = split.every(({ parts }) => parts[1] === "");
  for (const { one, parts } of split) {
    // Taper runs along an axis over the levels, out-of-round along a level over the axes; labels of one kind serve either.
    const key = isPlain ? "" : line.stat === "taper" ? parts[1] : parts[0];
    const set = sets.get(key);
    if (set) set.push(one);
    else sets.set(key, [one]);
  }
  return [...sets.values()];
}

function statisticFigures(line: LimitLine, current: Current, which: Which): readonly ComputedFigure[] {
  const limitUnit = unitOf(line);
  const readings = current.of(line.place.feature, line.state).filter((one) => covers(line.place, one.pathNow ?? ""));
  if (!limitUnit || readings.length === 0) return [];
  const hasSub = readings.some((one) => (one.pathNow ?? "").includes("/"));
  const groups = new Map<string, HistoryReading[]>();
  for (const one of readings) {
    const path = one.pathNow ?? "";
    const group =
      line.stat === "spread" || (line.stat === "mean" && !hasSub) || !path.includes("/")
        ? ""
        : path.slice(0, path.indexOf("/"));
    const list = groups.get(group);
    if (list) list.push(one);
    else groups.set(group, [one]);
  }
  const found: ComputedFigure[] = [];
  for (const [group, list] of groups) {
    if (list.some((one) => one.awaits === "replaced" || one.awaits === "reworked")) continue;
    for (const set of spans(line, group, list)) {
      const unit = set[0]?.measure?.unit;
      if (!unit || set.some((one) => one.measure?.unit.dimension !== unit.dimension)) continue;
      if (line.stat !== "mean" && set.length < 2) continue;
      if (which !== "all") {
        const high = roughPick("greatest", set, unit);
        const low = roughPick("least", set, unit);
        const rough = line.stat === "mean" ? roughPick("mean", set, unit) : high - low;
        const of = line.stat === "mean" ? unit : differenceUnit(unit);
        if (isClearlyInside(line, rough, Math.abs(high) + Math.abs(low), of, which)) continue;
      }
      const used = set.map((reading) => ({ reading, feature: line.place.feature }));
      const name = `${line.stat} of ${set.length} readings`;
      if (line.stat === "mean") {
        const mean = pick("mean", set, unit);
        const made = mean && figure(line, group, mean.value, unit, name, used, current.order);
        if (made) found.push(made);
        continue;
      }
      const greatest = pick("greatest", set, unit);
      const least = pick("least", set, unit);
      if (!greatest || !least) continue;
      const made = figure(
        line,
        group,
        greatest.value.sub(least.value),
        differenceUnit(unit),
        `${greatest.text} - ${least.text}`,
        used,
        current.order,
      );
      if (made) found.push(made);
    }
  }
  return found;
}

/** All figures, or only those that are out, or not new: rules need no others, and those clearly inside need neither fractions nor texts. */
type Which = "all" | "out" | "not-new";

function figuresAt(key: string, ask: Ask, which: Which): readonly ComputedFigure[] {
  const bar = key.lastIndexOf("|");
  const scope = key.slice(0, bar);
  const at = Number(key.slice(bar + 1));
  const { type, revision } = ask.total(jobContext, scope);
  const line = ask.limits(type, revision)?.limits.find((one) => one.at === at);
  if (!line) return NO_FIGURES;
  const current = new Current(scope, ask);
  const worked =
    line.formula.length > 0 ? formulaFigures(line, type, current, ask, which) : statisticFigures(line, current, which);
  const figures =
    which === "all" ? worked : worked.filter((one) => one.verdict === "out" || (which === "not-new" && one.outsideNew));
  if (figures.length === 0) return NO_FIGURES;
  const conceded = ask
    .facts(scope, "concessions")
    .filter(({ fact }) => fact.place?.feature === line.place.feature && mayConcede(fact, ask));
  return figures.filter((one) => !conceded.some(({ fact }) => fact.place && covers(fact.place, one.path)));
}

const NO_FIGURES: readonly ComputedFigure[] = [];

/** Key: `scope|at` of a limit line with a formula or a statistic, in the revision that the job works to. */
export const computedFigures: Total<readonly ComputedFigure[]> = {
  name: "computed-figures",
  compute: (key: string, ask: Ask) => figuresAt(key, ask, "all"),
};

/** Those of `computedFigures` that are out, under the same key. */
export const figuresOut: Total<readonly ComputedFigure[]> = {
  name: "figures-out",
  compute: (key: string, ask: Ask) => figuresAt(key, ask, "out"),
};

/** Those of `computedFigures` that are out or outside the new limits, under the same key. */
export const figuresNotNew: Total<readonly ComputedFigure[]> = {
  name: "figures-not-new",
  compute: (key: string, ask: Ask) => figuresAt(key, ask, "not-new"),
};
