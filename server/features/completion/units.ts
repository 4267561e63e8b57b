/** Units of the dimension that stands there: the limit's own first. */
import { parsePlace } from "../../facts/place.ts";
import { findUnit, unitsOfDimension } from "../../quantity/units.ts";
import { jobContext } from "../../totals/job-context.ts";
import { limitsFor, limitsKey, serviceEnds } from "../../totals/limits-for.ts";
import type { Completion } from "../feature.ts";
import { leadWord } from "../under-cursor.ts";
import { offer, type Typing, typedRole } from "./context.ts";

const TIME = ["h", "min", "s"];
const LENGTH = ["mm", "in"];
const TORQUE = ["N.m", "lbf.ft", "lbf.in"];
const INTERVAL = ["h", "months", "years", "days", "cycles", "landings", "starts"];

/** Units that a role wants, usual ones first; a line without an entry for the role has one of its own under `*`. */
const WANTED: Readonly<Record<string, Readonly<Record<string, readonly string[]>>>> = {
  notice: { "*": ["h", "days", "months"] },
  task: { "*": INTERVAL },
  bulletin: { "*": INTERVAL },
  life: { "*": INTERVAL },
  fit: { "*": INTERVAL },
  remove: { "*": ["h", "cycles"] },
  defer: { "*": ["h", "cycles"] },
  length: { "*": LENGTH },
  bore: { "*": LENGTH },
  stroke: { "*": LENGTH },
  mounting: { "*": ["deg"] },
  layout: { "*": ["deg"] },
  "lock-check": { "*": TIME },
  standing: { "*": TIME },
  torque: { "*": TORQUE, adapter: LENGTH, length: LENGTH, angle: ["deg"] },
  "compression-limit": { "*": ["psi", "bar", "kPa"], orifice: ["in", "mm"] },
  compression: { "*": ["psi", "bar", "kPa"], orifice: ["in", "mm"] },
  "magneto-limit": { "*": ["rpm"] },
  magneto: { "*": ["rpm"] },
  power: {
    "*": ["rpm"],
    arm: ["m", "ft"],
    force: ["N", "kgf", "lbf"],
    torque: TORQUE,
    fuel: ["L/h", "kg/h"],
    density: ["kg/L"],
  },
  air: { "*": ["C", "F", "hPa", "inHg", "%"] },
  oil: { "*": ["L", "qt", "gal"], value: ["L", "qt", "gal", "ppm"] },
  fuel: { "*": ["L", "gal", "kg"] },
  labour: { "*": ["h", "min"] },
  used: { "*": ["h"] },
  hours: { "*": ["h", "cycles", "landings", "starts"] },
  meter: { "*": ["h"] },
  entry: { "*": ["h"] },
  done: { "*": ["h", "cycles"] },
  step: { for: ["min", "h", "s"] },
  start: { within: ["s", "min"] },
  cool: { "*": ["C/min", "F/min"] },
  point: { speed: ["rpm"], power: ["kW", "hp"] },
  club: { speeds: ["rpm"], density: ["kg/m3"] },
};

/** The feature that a bound or value is about: the nearest place before the cursor. */
function featureBefore(typing: Typing): string {
  for (const token of typing.before.tokens.toReversed()) {
    const place = /^[\p{L}]/u.test(token.text) && !token.text.startsWith('"') ? parsePlace(token.text) : undefined;
    if (place && (token.text.includes("[") || token.text.includes("."))) return place.feature;
  }
  return /^[^[/]*/u.exec(typedRole(typing.before, "place") || typedRole(typing.before, "channel"))?.[0] ?? "";
}

/** Units in which limits state a feature, in any revision of the type where the job's own has none. */
function unitsOfFeature(typing: Typing, feature: string): string[] {
  const { ask, scope, type } = typing;
  const own = ask.total(jobContext, scope).revision;
  const revisions = own === "" ? ask.revisions(type).map((one) => one.revision) : [own];
  const found = new Set<string>();
  for (const revision of revisions) {
    const limits = ask.total(limitsFor, limitsKey(type, revision, feature));
    for (const line of [...limits.readings, ...limits.statistics, ...limits.formulas]) {
      const ends = serviceEnds(line);
      const unit = (ends?.high ?? ends?.low)?.unit;
      if (unit) found.add(unit.spelling);
    }
    for (const line of limits.torques) {
      const unit = (line.bounds.high ?? line.bounds.low)?.unit;
      if (unit) found.add(unit.spelling);
    }
  }
  const first = findUnit([...found][0] ?? "");
  return [...found, ...(first ? unitsOfDimension(first.dimension) : [])];
}

/** Money of the shop, for rates and costs. */
function money(typing: Typing): string[] {
  const currency = typing.ask.shop().money;
  const word = leadWord(typing.before);
  return currency === "" ? [] : word === "rate" ? [`${currency}/h`] : word === "cost" ? [currency] : [];
}

export function units(typing: Typing, role: string): Completion[] {
  const word = leadWord(typing.before);
  const table = WANTED[word];
  const about = ["limit", "measure", "torque", "start", "warm", "cool", "step"].includes(word)
    ? unitsOfFeature(typing, featureBefore(typing))
    : [];
  const usual = table?.[role] ?? table?.["*"] ?? [];
  const instrument = word === "range" || word === "resolution" || word === "uncertainty";
  const own =
    typing.block?.kind === "instrument" ? (typing.block.range?.high ?? typing.block.range?.low)?.unit : undefined;
  const fromInstrument =
    instrument && own
      ? [own.spelling, ...(word === "uncertainty" ? ["%"] : []), ...unitsOfDimension(own.dimension)]
      : instrument
        ? ["mm", "N.m", "psi", "C", "rpm", "g", "N"]
        : [];
  // A limit's own unit goes before the usual ones of the line, but the length of an adapter is no torque.
  const list = table?.[role] ? [...usual] : [...about, ...fromInstrument, ...money(typing), ...usual];
  const dimension = findUnit(list[0] ?? "")?.dimension;
  const all = list.length === 0 ? ["mm", "in", "N.m", "psi", "C", "h", "L", "g", "rpm", "deg", "%"] : list;
  return [...new Set(all)].map((unit, i) =>
    offer(
      typing,
      {
        label: unit,
        kind: "unit",
        detail:
          findUnit(unit)
            ?.dimension.replace(/^count:/u, "count of ")
            .replaceAll("-", " ") ?? "",
      },
      findUnit(unit)?.dimension === dimension ? 0 : 1,
      i,
    ),
  );
}
