/** Instruments: in calibration on that day and with a range that fits what is measured, before the others. */
import { parsePlace } from "../../facts/place.ts";
import type { InstrumentBlock } from "../../facts/types.ts";
import { formatDate } from "../../quantity/civil-date.ts";
import { convertNumber, type Measure, measure } from "../../quantity/compare.ts";
import { findUnit, type Unit } from "../../quantity/units.ts";
import { boundsText } from "../../report/wording.ts";
import { calibrationOn } from "../../totals/instrument-uses.ts";
import { jobContext } from "../../totals/job-context.ts";
import { limitsFor, limitsKey, serviceEnds } from "../../totals/limits-for.ts";
import type { Completion } from "../feature.ts";
import { leadWord, readLine } from "../under-cursor.ts";
import { offer, type Typing, typedRole } from "./context.ts";

/** What is to be measured: its ends, or only its unit where no limit is known. */
export interface Target {
  readonly unit: Unit;
  readonly ends: readonly Measure[];
}

/** The feature that a line is about. */
function featureOf(typing: Typing): string {
  const head = typedRole(typing.before, "head") || typedRole(typing.before, "place");
  return /^[^[/]*/u.exec(head)?.[0] ?? "";
}

/** A `with` line serves the lines below it: the first that measures says what. */
function featureBelow(typing: Typing): string {
  for (let i = typing.line + 1; i < typing.lines.length; i++) {
    const read = readLine(typing.lines[i] ?? "");
    if (read.plan.kind === "header") return "";
    const word = leadWord(read);
    if (word === "grid" || word === "measure") return /^[^[/]*/u.exec(read.tokens[1]?.text ?? "")?.[0] ?? "";
  }
  return "";
}

export function targetOf(typing: Typing): Target | undefined {
  const { before, ask, scope } = typing;
  const word = leadWord(before);
  if (word === "torque" || word === "measure") {
    const value = before.plan.fields.find((one) => one.role === "value");
    const [number, unit] = value ? before.tokens.slice(value.from, value.from + 2) : [];
    const written = number && unit ? measure(number.text, unit.text) : undefined;
    if (written) return { unit: written.unit, ends: [written] };
  }
  if (word === "compression") {
    const unit = findUnit("psi");
    return unit && { unit, ends: [] };
  }
  if (word === "channel" || word === "check" || word === "log") return undefined;
  const feature = word === "with" ? featureBelow(typing) : featureOf(typing);
  if (feature === "" || !parsePlace(feature)) return undefined;
  const { type, revision } = ask.total(jobContext, scope);
  const limits = ask.total(limitsFor, limitsKey(type, revision, feature));
  const ends = limits.readings.filter((line) => !line.condition).map(serviceEnds)[0];
  const list = [ends?.low, ends?.high].filter((one) => one !== undefined);
  const unit = list[0]?.unit ?? findUnit(/\/([^\s]+)$/u.exec(typedRole(before, "head"))?.[1] ?? "");
  return unit && { unit, ends: list };
}

/** Whether an instrument measures what is asked for: its kind, and every end of the limit within its range. */
export function fits(instrument: InstrumentBlock, target: Target | undefined): "fits" | "other range" | "other kind" {
  const range = instrument.range;
  const of = range?.high ?? range?.low;
  if (!target) return "fits";
  if (!range || !of || of.unit.dimension !== target.unit.dimension) return "other kind";
  const inside = target.ends.every((end) => {
    const value = convertNumber(end.value, end.unit, of.unit);
    const low = range.low ? convertNumber(range.low.value, range.low.unit, of.unit) : Number.NEGATIVE_INFINITY;
    const high = range.high ? convertNumber(range.high.value, range.high.unit, of.unit) : Number.POSITIVE_INFINITY;
    return value >= low && value <= high;
  });
  return inside ? "fits" : "other range";
}

const STANDING = {
  good: "",
  never: "never calibrated",
  "not-yet": "not yet calibrated",
  lapsed: "calibration lapsed",
  failed: "found out at calibration",
} as const;

export function instruments(typing: Typing): Completion[] {
  const { ask, day } = typing;
  const target = targetOf(typing);
  return ask.instruments().map((instrument, i) => {
    const gone = instrument.withdrawn !== undefined && instrument.withdrawn.on <= day;
    const state = calibrationOn(instrument, day);
    const fit = fits(instrument, target);
    const rank = (fit === "fits" ? 0 : fit === "other range" ? 2 : 4) + (state.state === "good" && !gone ? 0 : 1);
    const why = [
      boundsText(instrument.range),
      gone ? "withdrawn" : STANDING[state.state],
      fit === "other range" ? "the limit lies outside its range" : "",
    ].filter((text) => text !== "");
    return offer(
      typing,
      {
        label: instrument.name,
        kind: "name",
        detail: `${instrument.title}${why.length > 0 ? `; ${why.join("; ")}` : ""}`,
        documentation:
          state.state === "good" && state.day !== undefined ? `In calibration until ${formatDate(state.day)}.` : "",
      },
      rank,
      i,
    );
  });
}
