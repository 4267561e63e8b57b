import { nearest } from "../../../grammar/nearest.ts";
import { covers, type PlaceSet, pathsOf, placeText } from "../../facts/place.ts";
import { scopeOf } from "../../facts/refs.ts";
import type { EngineTypeBlock, Reading } from "../../facts/types.ts";
import { jobContext } from "../../totals/job-context.ts";
import { BORES } from "../example-shops.ts";
import { spotOf, WORK } from "../limit-wording.ts";
import type { Spot } from "../rule.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly place: string;
  readonly type: string;
  /** The places that there are, as the type's line writes them. */
  readonly known: string;
  readonly near: string;
}

/** The place lines that divide a feature: its own, or those of the part that holds it. */
function linesFor(type: EngineTypeBlock, feature: string): readonly PlaceSet[] {
  for (let part = feature; part !== ""; part = part.slice(0, Math.max(0, part.lastIndexOf(".")))) {
    const own = type.places.filter((line) => line.place.feature === part).map((line) => line.place);
    if (own.length > 0) return own;
  }
  return [];
}

const places = new WeakMap<EngineTypeBlock, Map<string, readonly PlaceSet[]>>();
/** More than a type has; features come from records, so what is kept of them is bounded. */
const FEATURES_KEPT = 4096;

/** `linesFor`, once for each feature of a type. */
function placesFor(type: EngineTypeBlock, feature: string): readonly PlaceSet[] {
  let features = places.get(type);
  if (!features) {
    features = new Map();
    places.set(type, features);
  }
  let found = features.get(feature);
  if (!found) {
    found = linesFor(type, feature);
    if (features.size < FEATURES_KEPT) features.set(feature, found);
  }
  return found;
}

/** Whether a path is one of the line's, lies below one, or holds some. */
function fits(line: PlaceSet, path: string): boolean {
  if (path === "" || covers(line, path)) return true;
  const labels = path.split("/");
  return labels.length < line.levels.length && covers({ ...line, levels: line.levels.slice(0, labels.length) }, path);
}

const held = new WeakMap<PlaceSet, WeakMap<PlaceSet, boolean>>();

/** Whether every path of a place fits a line; both are the same objects wherever they are written alike. */
function holds(line: PlaceSet, place: PlaceSet): boolean {
  let known = held.get(line);
  if (!known) {
    known = new WeakMap();
    held.set(line, known);
  }
  let answer = known.get(place);
  if (answer === undefined) {
    answer = pathsOf(place).every((path) => fits(line, path));
    known.set(place, answer);
  }
  return answer;
}

export default rule<(typeof WORK)[number], Found>({
  id: "limit/place-unknown",
  severity: "error",
  on: WORK,
  reads: ["readings", "torques", "locked", "fits", "removes", "moves", "reworks", "defects"],
  page: {
    what: "A line names a place that the engine type does not have.",
    why: "A tenth cylinder of a nine-cylinder engine is a slip of the pen, and the reading that it was meant for is missing at its true place.",
    remedy: "Correct the place, or add it to the `places` lines of the engine type.",
    faulty: [
      { text: `${BORES}entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[10] 98.031 mm with BG-2\n` },
    ],
    sound: [
      { text: `${BORES}entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[9] 98.031 mm with BG-2\n` },
    ],
  },
  check(block, ask, report) {
    const { type: typeName } = ask.total(jobContext, scopeOf(block));
    const type = ask.engineType(typeName);
    if (!type || type.places.length === 0) return;
    let lines: readonly PlaceSet[] = [];
    let linesOf: string | undefined;
    const look = (spot: () => Spot, feature: string, path: string): boolean => {
      if (feature !== linesOf) {
        lines = placesFor(type, feature);
        linesOf = feature;
      }
      if (lines.length === 0 || lines.some((line) => fits(line, path))) return true;
      const place = placeText(feature, path);
      const whole = lines.flatMap((line) =>
        pathsOf(line)
          .slice(0, 256)
          .map((known) => placeText(feature, known)),
      );
      report(
        spot(),
        {
          place,
          type: typeName,
          known: lines.map((line) => line.text).join(", "),
          near: nearest(place, whole, 2)[0] ?? "",
        },
        { place, related: [{ ref: type.ref, spot: { at: type.places[0]?.at ?? 0 }, says: "The places of the type" }] },
      );
      return false;
    };
    // One finding a row of a grid: its label is wrong, not each of its cells.
    const rows = new Set<number>();
    let lastFeature = "";
    let lastPath = "";
    for (const reading of block.readings) {
      // The figures of a row often share their place.
      if (reading.feature === lastFeature && reading.path === lastPath) continue;
      if (rows.has(reading.at)) continue;
      if (!look(() => spotIn(type, reading), reading.feature, reading.path)) rows.add(reading.at);
      else {
        lastFeature = reading.feature;
        lastPath = reading.path;
      }
    }
    const lookAt = (at: number, role: string, place: PlaceSet | undefined): void => {
      if (!place) return;
      const [line, second] = placesFor(type, place.feature);
      // Most features are divided by one line, and the same places come again with every job.
      if (line && !second && holds(line, place)) return;
      pathsOf(place).every((path) => look(() => ({ at, role }), place.feature, path));
    };
    for (const one of block.torques) lookAt(one.at, "place", one.place);
    for (const one of block.locked) lookAt(one.at, "place", one.place);
    for (const one of block.fits) lookAt(one.at, "at", one.place);
    for (const one of block.removes) lookAt(one.at, "at", one.place);
    for (const one of block.moves) {
      lookAt(one.at, "from", one.from);
      lookAt(one.at, "to", one.to);
    }
    for (const one of block.reworks) lookAt(one.at, "place", one.place);
    for (const one of block.defects) lookAt(one.at, "place", one.place);
  },
  say: ({ place, type, known, near }) =>
    `${type} has no ${place}; it has ${known}, so the line belongs to no part.${near === "" ? " Correct the place." : ` Did you mean ${near}?`}`,
});

/** Where the finding about a reading points: its place, the label of its row, or its cell. */
function spotIn(type: EngineTypeBlock, reading: Reading): Spot {
  if (reading.cell < 0) return { at: reading.at, role: "place" };
  return isRowUnknown(linesFor(type, reading.feature), reading.path)
    ? { at: reading.at, role: "label" }
    : spotOf(reading);
}

function isRowUnknown(lines: readonly PlaceSet[], path: string): boolean {
  const row = path.split("/")[0] ?? "";
  return !lines.some((line) => fits(line, row));
}
