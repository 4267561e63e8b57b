/**
 * Reads the fields of one parsed line into values, and notes what could not be read.
 *
 * One cursor serves all lines of a file: it looks at the scanner's arrays, which the next parse overwrites.
 */
import type { Field, Plan } from "../../grammar/line-parser.ts";
import { scanned, T, typeName } from "../../grammar/tokens.ts";
import { type CivilDate, parseDate, parseTime } from "../quantity/civil-date.ts";
import { compareMeasures, type Measure } from "../quantity/compare.ts";
import { exact, parseDecimal } from "../quantity/decimal.ts";
import { decimalsOf, formatExact } from "../quantity/format.ts";
import { type Dimension, findUnit, nearestUnits, type Unit } from "../quantity/units.ts";
import { countOf, PLACES_AT_MOST, type PlaceSet, parsePlace } from "./place.ts";
import type { At, Bounds, Problem } from "./types.ts";

/** More digits than this do not survive in a double, and no gauge shows them. */
const DIGITS_AT_MOST = 15;

export function unquote(image: string): string {
  const curly = image.charCodeAt(0) !== 0x22;
  const closed = image.length > 1 && (image.endsWith('"') || (curly && /[\u201c\u201d\u00bb]$/u.test(image)));
  const inner = image.slice(1, closed ? -1 : undefined);
  return inner.includes('""') ? inner.replaceAll('""', '"') : inner;
}

export class Cursor {
  text = "";
  plan!: Plan;
  at: At = 0;
  problems: Problem[] = [];

  /** Set to a line that was just parsed. */
  use(text: string, plan: Plan, at: At): void {
    this.text = text;
    this.plan = plan;
    this.at = at;
  }

  problem(what: string, from: number, to: number, ...data: string[]): void {
    this.problems.push({ what, at: this.at, from, to, data });
  }

  /** A problem under the tokens `from` up to but not including `to`. */
  problemAt(what: string, from: number, to: number, ...data: string[]): void {
    this.problem(what, scanned.starts[from], scanned.ends[Math.max(from, to - 1)], ...data);
  }

  image(token: number): string {
    return this.text.slice(scanned.starts[token], scanned.ends[token]);
  }

  field(role: string): Field | undefined {
    return this.plan.by[role];
  }

  has(role: string): boolean {
    return this.plan.by[role] !== undefined;
  }

  all(role: string): Field[] {
    return this.plan.fields.filter((field) => field.role === role);
  }

  /** The text of a one-token field as written, or "". */
  word(role: string): string {
    const field = this.plan.by[role];
    return field ? this.image(field.from) : "";
  }

  words(role: string): string[] {
    return this.all(role).map((field) => this.image(field.from));
  }

  /** Quoted text without its quotes, or "". */
  quoted(role: string): string {
    const field = this.plan.by[role];
    return field ? unquote(this.image(field.from)) : "";
  }

  quotedAll(role: string): string[] {
    return this.all(role).map((field) => unquote(this.image(field.from)));
  }

  date(role: string): CivilDate | undefined {
    const field = this.plan.by[role];
    if (!field) return undefined;
    const image = this.image(field.from);
    const date = parseDate(image);
    if (date === undefined) this.problemAt("bad-date", field.from, field.to, image);
    return date;
  }

  time(role: string): number | undefined {
    const field = this.plan.by[role];
    return field ? parseTime(this.image(field.from)) : undefined;
  }

  count(role: string): number | undefined {
    const field = this.plan.by[role];
    return field ? this.countOf(field) : undefined;
  }

  countOf(field: Field): number | undefined {
    const image = this.image(field.from);
    if (/^\d{1,9}$/u.test(image)) return Number(image);
    this.problemAt("bad-number", field.from, field.to, image, "a whole number");
    return undefined;
  }

  unit(token: number): Unit | undefined {
    return this.unitText(this.image(token), token);
  }

  unitText(image: string, token: number): Unit | undefined {
    const plain = image.includes("\u00b0") ? image.replaceAll("\u00b0", "") : image;
    const unit = findUnit(plain);
    if (!unit) this.problemAt("unknown-unit", token, token + 1, plain, ...nearestUnits(plain).slice(0, 3));
    return unit;
  }

  /** The number at a token, checked for digits that would be lost. */
  numberAt(token: number): { value: number; text: string } | undefined {
    let image = this.image(token);
    if (scanned.odd) image = image.replace(/[\u2010-\u2015\u2212]/gu, "-");
    const value = parseDecimal(image);
    if (
      !Number.isFinite(value) ||
      (image.length > DIGITS_AT_MOST && image.replace(/\D/gu, "").length > DIGITS_AT_MOST)
    ) {
      this.problemAt("bad-number", token, token + 1, image, `a number of at most ${DIGITS_AT_MOST} digits`);
      return undefined;
    }
    return { value, text: image };
  }

  /** @param wanted the only dimension that makes sense here, when there is one */
  measureAt(number: number, unit: number, wanted?: Dimension | readonly Dimension[]): Measure | undefined {
    const read = this.numberAt(number);
    const of = this.unit(unit);
    if (!read || !of) return undefined;
    if (
      wanted !== undefined &&
      !(typeof wanted === "string" ? wanted === of.dimension : wanted.includes(of.dimension))
    ) {
      this.problemAt(
        "wrong-dimension",
        number,
        unit + 1,
        of.spelling,
        of.dimension,
        typeof wanted === "string" ? wanted : wanted.join(" or "),
      );
      return undefined;
    }
    return { value: read.value, text: read.text, unit: of };
  }

  q(role: string, wanted?: Dimension | readonly Dimension[]): Measure | undefined {
    const field = this.plan.by[role];
    return field && field.to > field.from + 1 ? this.measureAt(field.from, field.from + 1, wanted) : undefined;
  }

  qAll(role: string, wanted?: Dimension | readonly Dimension[]): Measure[] {
    return this.all(role)
      .flatMap((field) => (field.to > field.from + 1 ? [this.measureAt(field.from, field.from + 1, wanted)] : []))
      .filter((m) => m !== undefined);
  }

  place(role: string): PlaceSet | undefined {
    const field = this.plan.by[role];
    return field ? this.placeAt(field.from) : undefined;
  }

  placeAt(token: number): PlaceSet | undefined {
    const image = this.image(token);
    const place = parsePlace(image);
    if (!place) this.problemAt("bad-place", token, token + 1, image);
    else if (place.levels.length > 0 && countOf(place) > PLACES_AT_MOST)
      this.problemAt("bad-place", token, token + 1, image, `more than ${PLACES_AT_MOST} places`);
    return place;
  }

  bounds(role: string): Bounds | undefined {
    const field = this.plan.by[role];
    return field ? this.boundsOf(field) : undefined;
  }

  /** Bounds of a `bounds` or `range` field: `a..b u`, `n u`, `n +/- d u`, `min a u`, `max b u`, `min a u max b u`. */
  boundsOf(field: Field): Bounds | undefined {
    const first = scanned.types[field.from];
    const text = this.text.slice(scanned.starts[field.from], scanned.ends[field.to - 1]);
    if (first === T.Range) {
      const unit = this.unit(field.from + 1);
      const [low = "", high = ""] = this.image(field.from).split("..");
      const a = parseDecimal(low);
      const b = parseDecimal(high);
      if (!unit) return undefined;
      const bounds = { low: { value: a, text: low, unit }, high: { value: b, text: high, unit }, text };
      if (compareMeasures(bounds.low, bounds.high) > 0) {
        this.problemAt("bad-range", field.from, field.from + 1, this.image(field.from));
        return undefined;
      }
      return bounds;
    }
    if (first === T.Number || first === T.Fraction) {
      if (scanned.types[field.from + 1] === T.PlusMinus) {
        const middle = this.numberAt(field.from);
        const half = this.numberAt(field.from + 2);
        const unit = this.unit(field.from + 3);
        if (!middle || !half || !unit) return undefined;
        const digits = Math.max(decimalsOf(middle.text), decimalsOf(half.text));
        const [centre, width] = [exact(middle.text), exact(half.text)];
        return {
          low: measured(centre.sub(width), digits, unit),
          high: measured(centre.add(width), digits, unit),
          text,
        };
      }
      const one = this.measureAt(field.from, field.from + 1);
      return one ? { low: one, high: one, text } : undefined;
    }
    let low: Measure | undefined;
    let high: Measure | undefined;
    for (let token = field.from; token + 2 < field.to + 1 && token < field.to; token += 3) {
      const measure = this.measureAt(token + 1, token + 2);
      if (!measure) return undefined;
      if (typeName(scanned.types[token]) === "min") low = measure;
      else high = measure;
    }
    if (low && high && low.unit.dimension === high.unit.dimension && compareMeasures(low, high) > 0) {
      this.problemAt("bad-range", field.from, field.to, text);
      return undefined;
    }
    return low || high ? { low, high, text } : undefined;
  }
}

/** An exact value as if it had been written with so many digits. */
function measured(value: ReturnType<typeof exact>, digits: number, unit: Unit): Measure {
  const text = formatExact(value, digits);
  return { value: parseDecimal(text), text, unit };
}
