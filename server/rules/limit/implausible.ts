import { modifiedZ, outlierScore, plausibility } from "../../calc/plausibility.ts";
import { placeText } from "../../facts/place.ts";
import { scopeOf } from "../../facts/refs.ts";
import type { LimitLine } from "../../facts/types.ts";
import type { Measure } from "../../quantity/compare.ts";
import { convertNumber } from "../../quantity/compare.ts";
import { serviceEnds } from "../../totals/limits-for.ts";
import {
  currentReadings,
  type HistoryReading,
  historyKey,
  type PlaceHistory,
  placeHistory,
} from "../../totals/place-history.ts";
import { stepOf } from "../../totals/reading-verdict.ts";
import { lineOf, readingsOfBlock } from "../../totals/readings-of-block.ts";
import { BORES } from "../example-shops.ts";
import { spotOf, WORK } from "../limit-wording.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly place: string;
  readonly says: string;
}

/** Bounds that nobody would doubt: half the least and twice the greatest figure that the limits name. Common practice, no source. */
function believable(
  low: Measure | undefined,
  high: Measure | undefined,
  unit: Measure["unit"],
): { least: number; greatest: number } | undefined {
  const ends = [low, high].flatMap((end) =>
    end && end.unit.dimension === unit.dimension && unit.dimension !== "temperature"
      ? [convertNumber(end.value, end.unit, unit)]
      : [],
  );
  if (ends.length === 0 || ends.some((end) => end <= 0)) return undefined;
  const least = low && high ? Math.min(...ends) / 2 : low ? Math.min(...ends) / 5 : Number.NEGATIVE_INFINITY;
  const greatest = low && high ? Math.max(...ends) * 2 : high ? Math.max(...ends) * 5 : Number.POSITIVE_INFINITY;
  return { least, greatest };
}

/** The readings of one unit, state and size that speak for their places now, where there are enough of them to compare with. */
interface Spread {
  readonly values: readonly number[];
  readonly least: number;
  readonly greatest: number;
  /** Median and deviation; undefined where they cannot be worked out, `null` until somebody asks. */
  middle: Middle | undefined | null;
  /** The last digit of the readings: a lesser deviation is not believed. */
  readonly step: number;
}

interface Middle {
  readonly median: number;
  readonly deviation: number;
}

/** A job's blocks share their fellows: the figures of a feature are gone through once for all of them. */
const spreads = new WeakMap<PlaceHistory, Map<string, Spread | undefined>>();

function spreadOf(history: PlaceHistory, group: string, like: HistoryReading, step: number): Spread | undefined {
  let known = spreads.get(history);
  if (!known) {
    known = new Map();
    spreads.set(history, known);
  }
  const key = `${group}|${step}`;
  if (known.has(key)) return known.get(key);
  const values: number[] = [];
  for (const other of currentReadings(history).values()) {
    const alike = other.state === like.state && other.result === "value" && other.size?.text === like.size?.text;
    if (alike && other.measure && other.measure.unit === like.measure?.unit) values.push(other.measure.value);
  }
  let least = Number.POSITIVE_INFINITY;
  let greatest = Number.NEGATIVE_INFINITY;
  for (const value of values) {
    if (value < least) least = value;
    if (value > greatest) greatest = value;
  }
  const spread: Spread | undefined = values.length > 4 ? { values, least, greatest, middle: null, step } : undefined;
  known.set(key, spread);
  return spread;
}

function middleOf(spread: Spread): Middle | undefined {
  if (spread.middle === null) {
    const scored = modifiedZ(spread.values[0] ?? 0, spread.values, spread.step);
    spread.middle = scored.ok ? { median: scored.median, deviation: scored.spread } : undefined;
  }
  return spread.middle;
}

export default rule<(typeof WORK)[number], Found>({
  id: "limit/implausible",
  severity: "information",
  on: WORK,
  reads: ["readings"],
  page: {
    what: "A reading looks like a slip: ten times off, inches for millimetres, two digits exchanged, or far from the other places.",
    why: "A slip that is found on the day costs a minute; found at release it costs a strip. This is a doubt, never a verdict: worn parts do measure oddly.",
    remedy: "Look at the gauge again. If the figure is right, leave it.",
    faulty: [
      { text: `${BORES}entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 9.8031 mm with BG-2\n` },
    ],
    sound: [
      { text: `${BORES}entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.031 mm with BG-2\n` },
    ],
  },
  check(block, ask, report) {
    for (const { feature, limits, readings } of readingsOfBlock(block, ask)) {
      // Readings of a table share limit and unit, so their bounds and fellows are worked out once.
      let bounds: ReturnType<typeof believable> | null | undefined;
      let boundsOf: LimitLine | undefined;
      let boundsIn: Measure["unit"] | undefined;
      let ends: ReturnType<typeof serviceEnds>;
      let lastLimit: number | undefined;
      let line: LimitLine | undefined;
      let others: Spread | undefined;
      let othersOf: string | undefined;
      const spread = new Map<string, Spread | undefined>();
      for (const one of readings) {
        const { measure } = one;
        if (one.result !== "value" || one.status === "superseded" || !measure) continue;
        if (one.limitAt !== lastLimit) {
          line = lineOf(limits, one);
          ends = line && serviceEnds(line);
          lastLimit = one.limitAt;
        }
        if (bounds === undefined || line !== boundsOf || measure.unit !== boundsIn) {
          bounds = believable(ends?.low, ends?.high, measure.unit) ?? null;
          boundsOf = line;
          boundsIn = measure.unit;
        }
        const isWild = bounds !== null && (measure.value < bounds.least || measure.value > bounds.greatest);
        const plain = one.state === "" && one.size === undefined;
        const group = plain ? measure.unit.spelling : `${one.state}|${measure.unit.spelling}|${one.size?.text ?? ""}`;
        if (group !== othersOf) {
          if (!spread.has(group)) {
            const history = ask.total(placeHistory, historyKey(scopeOf(block), feature));
            spread.set(group, spreadOf(history, group, one, stepOf(measure)));
          }
          others = spread.get(group);
          othersOf = group;
        }
        // Inside a narrow tolerance an outlier is a good part: only a distance that matters against the limits is doubted.
        const width =
          ends?.low && ends.high && ends.low.unit.dimension === measure.unit.dimension
            ? convertNumber(ends.high.value, ends.high.unit, measure.unit) -
              convertNumber(ends.low.value, ends.low.unit, measure.unit)
            : 0;
        // The median lies between the ends, so a reading near both of them is near it.
        const mayBeFar =
          others !== undefined && Math.max(measure.value - others.least, others.greatest - measure.value) > width / 2;
        if (!isWild && !mayBeFar) continue;
        const middle = others && middleOf(others);
        const off = middle ? Math.abs(measure.value - middle.median) : 0;
        const isFar = middle !== undefined && (0.6745 * off) / middle.deviation > outlierScore && off > width / 2;
        if ((!isWild && !isFar) || !/^-?[0-9]+(\.[0-9]+)?$/u.test(measure.text)) continue;
        const rest = (middle ? others : undefined)?.values.filter((value) => value !== measure.value);
        const answer = plausibility({
          written: measure.text,
          believable: bounds && Number.isFinite(bounds.least) && Number.isFinite(bounds.greatest) ? bounds : undefined,
          siblings: rest,
          resolution: stepOf(measure),
        });
        const suspicion = answer.ok ? answer.suspicions[0] : undefined;
        if (!suspicion && !isWild) continue;
        // That a part out of limit differs from its fellows is no news.
        if (!isWild && one.verdict === "out" && suspicion?.kind.startsWith("far from")) continue;
        const place = placeText(feature, one.path);
        report(
          spotOf(one),
          { place, says: suspicion?.says ?? `${measure.text} is far from anything that the limits name.` },
          { place },
        );
      }
    }
  },
  say: ({ place, says }) =>
    `${place}: ${says} If the figure is right, leave it; if not, correct it before it is signed.`,
});
