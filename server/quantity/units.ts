import Fraction from "fraction.js";
import { exact } from "./decimal.ts";
import type { Dimension } from "./dimensions.ts";
import { dimensionOf, exponentsOf, multiplyInto } from "./dimensions.ts";
import type { Source, UnitRow } from "./unit-table.ts";
import { NOT_MONEY, SCALE_ROWS, UNIT_ROWS, USUAL_COMPOUNDS } from "./unit-table.ts";

export type { Dimension } from "./dimensions.ts";

/**
 * A unit as it was spelled.
 *
 * A value `v` in this unit is `v * factor + offset` in the coherent SI unit of its dimension (kelvin,
 * metre, pascal ...), except that angles stay in degrees, speed of rotation in revolutions per minute
 * and calendar counts in months, so that every factor is rational. Only temperature scales have an
 * offset other than 0.
 */
export interface Unit {
  /** The spelling that was asked for. */
  readonly spelling: string;
  /** The project's first choice among spellings of the same unit. */
  readonly preferred: string;
  readonly dimension: Dimension;
  readonly factor: Fraction;
  readonly offset: Fraction;
  /** `factor` as the nearest double. */
  readonly factorNumber: number;
  /** `offset` as the nearest double. */
  readonly offsetNumber: number;
  /** False where the factor is an agreed value for a material (mercury, water), of which others are in use. */
  readonly exact: boolean;
  /** Where the factor is published (of a compound: its first part outside the SI); see the head of `unit-table.ts`. */
  readonly source: Source;
}

const ZERO = new Fraction(0);
const ONE = new Fraction(1);

/** More spellings than any real workspace has; beyond it a spelling is worked out again each time. */
const CACHE_SIZE = 4096;

const rowBySpelling = new Map<string, UnitRow>();
for (const row of UNIT_ROWS) for (const spelling of row[1].split(" ")) rowBySpelling.set(spelling, row);

const scaleBySpelling = new Map<string, Unit>();
for (const [spellings, factor, offset_K] of SCALE_ROWS) {
  const names = spellings.split(" ");
  const preferred = names[0] ?? "";
  for (const spelling of names) {
    scaleBySpelling.set(
      spelling,
      makeUnit(spelling, preferred, "temperature", factorOf(factor), factorOf(offset_K), true, "SP811"),
    );
  }
}

const cache = new Map<string, Unit | undefined>();

/**
 * The unit that a spelling means.
 *
 * Names of the unit table, and compounds of them: parts joined by `.`, at most one `/` after which
 * everything is denominator, a final `2` or `3` as a power (`g/kW.h`, `um/m.K`, `m/s2`). `C`, `F` and
 * `K` are scales when they stand alone and differences inside a compound. Any three capital letters
 * that are no unit are money.
 *
 * Repeated spellings are answered by one look-up.
 *
 * @param spelling the unit as written, case-sensitive
 * @returns the unit, or `undefined` if the spelling means none
 */
export function findUnit(spelling: string): Unit | undefined {
  const known = cache.get(spelling);
  if (known !== undefined || cache.has(spelling)) return known;
  const found = lookUp(spelling);
  if (cache.size < CACHE_SIZE) cache.set(spelling, found);
  return found;
}

function lookUp(spelling: string): Unit | undefined {
  return scaleBySpelling.get(spelling) ?? fromTable(spelling) ?? money(spelling) ?? compound(spelling);
}

function makeUnit(
  spelling: string,
  preferred: string,
  dimension: Dimension,
  factor: Fraction,
  offset: Fraction,
  isExact: boolean,
  source: Source,
): Unit {
  return {
    spelling,
    preferred,
    dimension,
    factor,
    offset,
    factorNumber: factor.valueOf(),
    offsetNumber: offset.valueOf(),
    exact: isExact,
    source,
  };
}

/** Value of a factor text of the table: `a*b/c`, worked from left to right. */
function factorOf(text: string): Fraction {
  let product = ONE;
  for (const step of text.matchAll(/([*/]?)([\d.]+)/g)) {
    const part = exact(step[2] ?? "1");
    product = step[1] === "/" ? product.div(part) : product.mul(part);
  }
  return product;
}

function fromTable(spelling: string): Unit | undefined {
  const row = rowBySpelling.get(spelling);
  if (row === undefined) return undefined;
  const [dimension, spellings, factor, source, kind] = row;
  const preferred = spellings.split(" ", 1)[0] ?? spelling;
  return makeUnit(spelling, preferred, dimension, factorOf(factor), ZERO, kind !== "conventional", source);
}

function money(spelling: string): Unit | undefined {
  if (!/^[A-Z]{3}$/.test(spelling) || NOT_MONEY.has(spelling)) return undefined;
  return makeUnit(spelling, spelling, `money:${spelling}`, ONE, ZERO, true, "PRACTICE");
}

/** One factor of a compound: a unit with a power, where a scale counts as its difference. */
interface Part {
  readonly unit: Unit;
  readonly power: number;
}

function partOf(text: string): Part | undefined {
  const whole = scaleBySpelling.get(text) ?? fromTable(text) ?? money(text);
  if (whole !== undefined) return { unit: whole, power: 1 };
  const power = /^(.*\D)([23])$/.exec(text);
  if (power === null) return undefined;
  const unit = scaleBySpelling.get(power[1] ?? "") ?? fromTable(power[1] ?? "");
  return unit === undefined ? undefined : { unit, power: Number(power[2]) };
}

function compound(spelling: string): Unit | undefined {
  const sides = spelling.split("/");
  if (sides.length > 2 || !/[./\d]/.test(spelling)) return undefined;
  const exponents = new Map<string, number>();
  let factor = ONE;
  let isExact = true;
  let source: Source = "SI";
  const above: string[] = [];
  const preferred: string[] = [];
  for (const [index, side] of sides.entries()) {
    if (index === 0 && side === "1" && sides.length === 2) {
      preferred.push("1");
      continue;
    }
    const names: string[] = [];
    for (const text of side.split(".")) {
      const part = partOf(text);
      if (part === undefined) return undefined;
      const { unit } = part;
      const power = index === 0 ? part.power : -part.power;
      names.push(part.power === 1 ? unit.preferred : `${unit.preferred}${part.power}`);
      if (index === 0) for (let n = 0; n < part.power; n++) above.push(unit.dimension);
      factor = factor.mul(power === 1 ? unit.factor : unit.factor.pow(power));
      isExact &&= unit.exact;
      if (source === "SI") source = unit.source;
      multiplyInto(exponents, exponentsOf(unit.dimension), power);
    }
    preferred.push(names.join("."));
  }
  // A force at an arm has the exponents of energy; as a product it is always meant as torque here.
  const isTorque = sides.length === 1 && above.sort().join(" ") === "force length";
  const dimension = isTorque ? "torque" : dimensionOf(exponents);
  return makeUnit(spelling, preferred.join("/"), dimension, factor, ZERO, isExact, source);
}

/**
 * Units of a dimension for completion, usual first, one spelling each.
 *
 * @param dimension a name as units carry it
 */
export function unitsOfDimension(dimension: Dimension): string[] {
  return allUnits().filter((spelling) => findUnit(spelling)?.dimension === dimension);
}

/** Every unit by its preferred spelling: the table, the temperature scales, the usual compounds. */
export function allUnits(): string[] {
  const first = (spellings: string): string => spellings.split(" ", 1)[0] ?? spellings;
  return [...UNIT_ROWS.map((row) => first(row[1])), ...SCALE_ROWS.map((row) => first(row[0])), ...USUAL_COMPOUNDS];
}

/**
 * Spellings near to one that means no unit, nearest first, for "did you mean".
 *
 * Another case of the same letters comes first (`nm` gives `Nm`); then spellings that are one or two
 * typing slips away. A compound is mended part by part.
 *
 * @param spelling what was written
 * @param dimension if given, only units of it are offered; if none is near, its usual units are
 * @returns at most five spellings, all of which {@link findUnit} knows
 */
export function nearestUnits(spelling: string, dimension?: Dimension): string[] {
  const fits = (candidate: string): boolean => {
    const unit = candidate === spelling ? undefined : findUnit(candidate);
    return unit !== undefined && (dimension === undefined || unit.dimension === dimension);
  };
  const candidates = nearSpellings(spelling).filter(fits);
  if (/[./]/.test(spelling)) candidates.push(...mendedCompounds(spelling).filter(fits));
  if (candidates.length === 0 && dimension !== undefined) candidates.push(...unitsOfDimension(dimension).filter(fits));
  return [...new Set(candidates)].slice(0, 5);
}

/** Known spellings within reach of a typing slip, nearest first; longer words may have two slips. */
function nearSpellings(spelling: string): string[] {
  const reach = spelling.length >= 5 ? 2 : 1;
  const lower = spelling.toLowerCase();
  const found: { readonly spelling: string; readonly distance: number }[] = [];
  for (const known of [...rowBySpelling.keys(), ...scaleBySpelling.keys(), ...USUAL_COMPOUNDS]) {
    if (Math.abs(known.length - spelling.length) > reach) continue;
    const distance = known.toLowerCase() === lower ? 0.5 : slipsBetween(lower, known.toLowerCase());
    // A slip in a word of one or two letters leaves nothing of the word, so only its case may differ.
    if (distance <= (spelling.length <= 2 ? 0.5 : reach)) found.push({ spelling: known, distance });
  }
  return found.sort((a, b) => a.distance - b.distance).map((one) => one.spelling);
}

/** The compound with each unknown part replaced by its nearest unit; nothing if a part has none. */
function mendedCompounds(spelling: string): string[] {
  let mended = "";
  for (const piece of spelling.split(/([./])/)) {
    const keep = piece === "." || piece === "/" || piece === "1" || partOf(piece) !== undefined;
    const part = keep ? piece : nearSpellings(piece)[0];
    if (part === undefined) return [];
    mended += part;
  }
  const simple = mended.split("/");
  // A second slash is a usual slip: everything after the first is denominator.
  return simple.length > 2 ? [`${simple[0]}/${simple.slice(1).join(".")}`] : [mended];
}

/** Fewest single-letter changes, with a swap of neighbours as one (restricted Damerau-Levenshtein distance). */
function slipsBetween(a: string, b: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let least = Math.min((last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (last[j - 1] ?? 0) + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        least = Math.min(least, (beforeLast[j - 2] ?? 0) + 1);
      }
      row.push(least);
    }
    beforeLast = last;
    last = row;
  }
  return last[b.length] ?? 0;
}

/**
 * The unit of a difference of two values in `unit`: a step of degrees for a temperature scale, the
 * unit itself for everything else.
 *
 * @param unit the unit of both values
 */
export function differenceUnit(unit: Unit): Unit {
  if (unit.dimension !== "temperature") return unit;
  return findUnit(unit.preferred === "F" ? "dF" : "dC") ?? unit;
}
