/**
 * Places: `cylinder.bore[3]`, `cylinder.nut[1..9/1..12]`, `valve[1..9/inlet,exhaust]`.
 *
 * A place set is a feature and, for each level between slashes, the labels that are meant. A reading stands at one path; a limit or torque
 * covers every path that begins with one of its own (`cylinder.bore[1..9]` covers `cylinder.bore[3/head.thrust]`).
 */

export interface LabelRange {
  readonly from: number;
  readonly to: number;
}

/** One level of a selector: number ranges and names. */
export interface Level {
  readonly ranges: readonly LabelRange[];
  readonly names: readonly string[];
}

export interface PlaceSet {
  readonly feature: string;
  readonly levels: readonly Level[];
  /** As written. */
  readonly text: string;
}

/** More places than any engine has under one line; a longer list is cut and said so. */
export const PLACES_AT_MOST = 4096;

const kept = new Map<string, PlaceSet | undefined>();

function parseLevel(text: string): Level | undefined {
  const ranges: LabelRange[] = [];
  const names: string[] = [];
  for (const part of text.split(",")) {
    const range = /^(\d{1,6})(?:\.\.(\d{1,6}))?$/u.exec(part);
    if (range) {
      const from = Number(range[1]);
      const to = range[2] === undefined ? from : Number(range[2]);
      if (to < from) return undefined;
      ranges.push({ from, to });
    } else if (/^[\p{L}\d][\p{L}\p{M}\d._-]*$/u.test(part) && !part.includes("..")) names.push(part);
    else return undefined;
  }
  return { ranges, names };
}

/**
 * Reads a place as written.
 * @param text `feature` or `feature[levels]`
 * @returns undefined when the brackets hold something else than labels, ranges and lists
 */
export function parsePlace(text: string): PlaceSet | undefined {
  if (kept.has(text)) return kept.get(text);
  let place: PlaceSet | undefined;
  const bracket = text.indexOf("[");
  if (bracket < 0) place = { feature: text, levels: [], text };
  else if (text.endsWith("]")) {
    const levels = text
      .slice(bracket + 1, -1)
      .split("/")
      .map(parseLevel);
    if (levels.every((level) => level !== undefined)) place = { feature: text.slice(0, bracket), levels: levels, text };
  }
  if (kept.size > 20_000) kept.clear();
  kept.set(text, place);
  return place;
}

function labelsOf(level: Level, most: number): string[] {
  const labels: string[] = [];
  for (const { from, to } of level.ranges) {
    for (let n = from; n <= to && labels.length < most; n++) labels.push(String(n));
  }
  labels.push(...level.names);
  return labels;
}

const expanded = new WeakMap<PlaceSet, readonly string[]>();

/**
 * Every path of a place set, labels joined by `/`; `[""]` for a feature without brackets. Cut at `PLACES_AT_MOST`.
 */
export function pathsOf(place: PlaceSet): readonly string[] {
  let paths = expanded.get(place);
  if (!paths) {
    let grown: string[] = [""];
    for (const level of place.levels) {
      const labels = labelsOf(level, PLACES_AT_MOST);
      const next: string[] = [];
      for (const prefix of grown)
        for (const label of labels)
          if (next.length < PLACES_AT_MOST) next.push(prefix === "" ? label : `${prefix}/${label}`);
      grown = next;
    }
    paths = grown;
    expanded.set(place, paths);
  }
  return paths;
}

/** How many places a set names, without listing them. */
export function countOf(place: PlaceSet): number {
  return place.levels.reduce(
    (product, level) => product * (level.names.length + level.ranges.reduce((sum, r) => sum + r.to - r.from + 1, 0)),
    1,
  );
}

/** The number that a stretch of text writes in digits, or -1. */
function digitsAt(text: string, from: number, to: number): number {
  if (to <= from || to - from > 9) return -1;
  let n = 0;
  for (let i = from; i < to; i++) {
    const digit = text.charCodeAt(i) - 0x30;
    if (digit < 0 || digit > 9) return -1;
    n = n * 10 + digit;
  }
  return n;
}

/** Whether the label between two offsets of a path is one of the level's. */
function levelHas(level: Level, path: string, from: number, to: number): boolean {
  if (level.ranges.length > 0) {
    const n = digitsAt(path, from, to);
    if (n >= 0) for (const range of level.ranges) if (n >= range.from && n <= range.to) return true;
  }
  for (const name of level.names) if (name.length === to - from && path.startsWith(name, from)) return true;
  return false;
}

/**
 * Whether the set covers a path: its levels match the first labels of the path. A set with more levels than the path has does not cover it.
 * Asked for every reading by many rules, so it makes no strings.
 */
export function covers(place: PlaceSet, path: string): boolean {
  const { levels } = place;
  if (levels.length === 0) return true;
  if (path === "") return false;
  let from = 0;
  for (let i = 0; i < levels.length; i++) {
    if (from > path.length) return false;
    const slash = path.indexOf("/", from);
    const to = slash < 0 ? path.length : slash;
    if (!levelHas(levels[i], path, from, to)) return false;
    from = to + 1;
  }
  return true;
}

/** `feature[path]`, or the feature alone for an empty path. */
export function placeText(feature: string, path: string): string {
  return path === "" ? feature : `${feature}[${path}]`;
}

/** Whether place `inner` is `outer` or below it: a path that begins with the other, or a feature of the part (`cylinder[3]` holds `cylinder.bore[3/a]`). */
export function isWithin(innerFeature: string, innerPath: string, outerFeature: string, outerPath: string): boolean {
  if (innerFeature !== outerFeature && !innerFeature.startsWith(`${outerFeature}.`)) return false;
  return outerPath === "" || innerPath === outerPath || innerPath.startsWith(`${outerPath}/`);
}
