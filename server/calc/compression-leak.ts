/**
 * Differential compression (leak) test.
 *
 * There is no universal rule: makers differ on the orifice and on the limit, so both come in with their source.
 */
import { settle, show } from "./figures.ts";
import { answer, type Result, refuse, refuseNotPositive, refuseUnusable, type Worked } from "./result.ts";

/**
 * Where the air was heard. The last three are leaks through metal or a shrunk joint: not acceptable at any reading.
 */
export type HeardAt = "exhaust" | "intake" | "rings" | "crack" | "head-joint" | "seat-joint";

const neverAcceptable: readonly HeardAt[] = ["crack", "head-joint", "seat-joint"];

export interface LeakReading {
  readonly cylinder: number;
  /** Pressure that the cylinder held, psi. */
  readonly reading_psi: number;
  readonly heard?: readonly HeardAt[];
}

export interface LeakLimits {
  /** Where the limits stand. */
  readonly source: string;
  /** Readings from here on are good without remark, psi. */
  readonly goodFrom_psi?: number;
  /** Below it a cylinder is to be tested again after running, psi. */
  readonly retestBelow_psi?: number;
  /** Least reading, psi: below it the cylinder is to be investigated. */
  readonly least_psi?: number;
  /** Greatest leakage as a percentage of the supply: more than it is to be investigated. */
  readonly greatestLeak_percent?: number;
  /** Spread from which a retest is due, and greatest spread, psi. */
  readonly retestSpread_psi?: number;
  readonly greatestSpread_psi?: number;
}

export type LeakVerdict = "good" | "watch" | "retest" | "investigate" | "no-limit";

export interface CylinderLeak {
  cylinder: number;
  reading_psi: number;
  leak_psi: number;
  leak_percent: number;
  heard: readonly HeardAt[];
  verdict: LeakVerdict;
  /** Why, in one sentence; empty for good and no-limit. */
  why: string;
}

export interface LeakTest extends Worked {
  cylinders: CylinderLeak[];
  spread_psi: number;
  spreadVerdict: LeakVerdict;
  /** The cylinder that held least (the first of equals), and the one that held most. */
  worst: number;
  best: number;
}

function verdictFor(reading: LeakReading, leak_percent: number, limits: LeakLimits | undefined): [LeakVerdict, string] {
  const structural = (reading.heard ?? []).find((place) => neverAcceptable.includes(place));
  if (structural !== undefined) {
    return ["investigate", `A leak at the ${structural.replace("-", " ")} is not acceptable at any reading.`];
  }
  if (!limits) return ["no-limit", ""];
  const { reading_psi } = reading;
  if (limits.least_psi !== undefined && reading_psi < limits.least_psi) {
    return [
      "investigate",
      `${show(reading_psi)} psi is below the least of ${show(limits.least_psi)} psi (${limits.source}).`,
    ];
  }
  if (limits.greatestLeak_percent !== undefined && leak_percent > limits.greatestLeak_percent) {
    return [
      "investigate",
      `${show(leak_percent, 3)} % leakage is more than ${show(limits.greatestLeak_percent)} % (${limits.source}).`,
    ];
  }
  if (limits.retestBelow_psi !== undefined && reading_psi < limits.retestBelow_psi) {
    return [
      "retest",
      `${show(reading_psi)} psi is below ${show(limits.retestBelow_psi)} psi: run and test again (${limits.source}).`,
    ];
  }
  if (limits.goodFrom_psi !== undefined && reading_psi < limits.goodFrom_psi) {
    return ["watch", `${show(reading_psi)} psi is below ${show(limits.goodFrom_psi)} psi (${limits.source}).`];
  }
  const any = limits.least_psi ?? limits.greatestLeak_percent ?? limits.retestBelow_psi ?? limits.goodFrom_psi;
  return [any === undefined ? "no-limit" : "good", ""];
}

function spreadVerdict(spread_psi: number, limits: LeakLimits | undefined): LeakVerdict {
  if (limits?.greatestSpread_psi === undefined && limits?.retestSpread_psi === undefined) return "no-limit";
  if (limits.greatestSpread_psi !== undefined && spread_psi > limits.greatestSpread_psi) return "investigate";
  if (limits.retestSpread_psi !== undefined && spread_psi >= limits.retestSpread_psi) return "retest";
  return "good";
}

/**
 * Leakage of every cylinder, worst place and spread.
 * @param supply_psi regulated supply pressure, psi (80 as a rule)
 * @param readings one a cylinder, 0 to the supply pressure; no cylinder twice
 * @param limits the maker's or the shop's, with source; without them nothing is judged but a leak through metal
 * @returns a refusal for no readings, a cylinder twice, a reading above the supply
 * Source: leakage is supply less reading (AC 43.13-1B para 8-14); words for where the air escapes: common practice;
 *   cracks and leaks at head joint or seat not acceptable at any reading: Australian text with AD/ENG/4.
 */
export function leakTest(supply_psi: number, readings: readonly LeakReading[], limits?: LeakLimits): Result<LeakTest> {
  const bad = refuseNotPositive({ "supply pressure": supply_psi });
  if (bad) return bad;
  if (readings.length === 0) return refuse("The compression test has no reading.");
  const seen = new Set<number>();
  for (const { cylinder, reading_psi } of readings) {
    if (seen.has(cylinder)) return refuse(`Cylinder ${show(cylinder)} has two readings in one test.`);
    seen.add(cylinder);
    const wrong = refuseUnusable({ [`reading of cylinder ${cylinder}`]: reading_psi });
    if (wrong) return wrong;
    if (reading_psi < 0 || reading_psi > supply_psi) {
      return refuse(
        `Cylinder ${show(cylinder)} cannot hold ${show(reading_psi)} psi from a supply of ${show(supply_psi)} psi.`,
      );
    }
  }
  const cylinders = readings.map((reading): CylinderLeak => {
    const leak_psi = settle(supply_psi - reading.reading_psi);
    const leak_percent = settle((100 * leak_psi) / supply_psi);
    const [verdict, why] = verdictFor(reading, leak_percent, limits);
    return {
      cylinder: reading.cylinder,
      reading_psi: reading.reading_psi,
      leak_psi,
      leak_percent,
      heard: reading.heard ?? [],
      verdict,
      why,
    };
  });
  const worst = cylinders.reduce((low, each) => (each.reading_psi < low.reading_psi ? each : low));
  const best = cylinders.reduce((high, each) => (each.reading_psi > high.reading_psi ? each : high));
  const spread_psi = settle(best.reading_psi - worst.reading_psi);
  return answer({
    cylinders,
    spread_psi,
    spreadVerdict: spreadVerdict(spread_psi, limits),
    worst: worst.cylinder,
    best: best.cylinder,
    steps: [
      `Worst: cylinder ${worst.cylinder}, ${show(worst.reading_psi)}/${show(supply_psi)}, leakage ${show(supply_psi)} - ${show(worst.reading_psi)} = ${show(worst.leak_psi)} psi, ${show(worst.leak_percent, 3)} % of the supply.`,
      `Spread: ${show(best.reading_psi)} (cylinder ${best.cylinder}) - ${show(worst.reading_psi)} (cylinder ${worst.cylinder}) = ${show(spread_psi)} psi.`,
    ],
  });
}

/** A rule about the orifice of the tester: one for every bore, or steps by bore. */
export type OrificeRule =
  | { readonly kind: "single"; readonly orifice_in: number; readonly source: string }
  | {
      readonly kind: "by-bore";
      /** Steps in rising order: bores below `below_in` take `orifice_in`; the last step has no upper end. */
      readonly steps: readonly { readonly below_in: number; readonly orifice_in: number }[];
      readonly source: string;
    };

/** The rule of the US circular, offered as a named choice and never as a default. */
export const circularOrificeRule: OrificeRule = {
  kind: "by-bore",
  steps: [
    { below_in: 5, orifice_in: 0.04 },
    { below_in: Number.POSITIVE_INFINITY, orifice_in: 0.06 },
  ],
  source: "AC 43.13-1B para 8-14",
};

/**
 * Whether the orifice of the tester is the one that the named rule asks for.
 * @param orifice_in orifice of the tester, in
 * @param bore_in bore of the engine, in
 * @param rule the rule of the engine type
 * Source: by bore, AC 43.13-1B para 8-14 (below 5.00 in 0.040 in, from 5.00 in 0.060 in); makers' documents use 0.040 in
 *   for every bore.
 */
export function orificeCheck(
  orifice_in: number,
  bore_in: number,
  rule: OrificeRule,
): Result<{ wanted_in: number; right: boolean } & Worked> {
  const bad = refuseNotPositive({ orifice: orifice_in, bore: bore_in });
  if (bad) return bad;
  const bore = settle(bore_in);
  const wanted_in =
    rule.kind === "single" ? rule.orifice_in : rule.steps.find((step) => bore < step.below_in)?.orifice_in;
  if (wanted_in === undefined)
    return refuse(`The orifice rule (${rule.source}) has no step for a bore of ${show(bore_in)} in.`);
  const right = settle(orifice_in) === settle(wanted_in);
  return answer({
    wanted_in,
    right,
    steps: [
      rule.kind === "single"
        ? `${rule.source}: ${show(wanted_in)} in for every bore; the tester has ${show(orifice_in)} in.`
        : `${rule.source}: ${show(wanted_in)} in for a bore of ${show(bore_in)} in; the tester has ${show(orifice_in)} in.`,
    ],
  });
}

/**
 * Which of two readings of a cylinder counts. A retest counts when the engine ran between them for the time that the
 * document asks for; a better reading without a run between is measuring until it fits.
 * @param first_psi first reading
 * @param second_psi reading of the retest
 * @param ranBetween_min running time between the two, min
 * @param leastRun_min running time that the document asks for, min (3 in the US circular)
 */
export function retestCounts(
  first_psi: number,
  second_psi: number,
  ranBetween_min: number,
  leastRun_min: number,
): Result<{ counts_psi: number; retestStands: boolean; change_psi: number } & Worked> {
  const bad = refuseUnusable({
    "first reading": first_psi,
    "second reading": second_psi,
    "running time between": ranBetween_min,
    "least running time": leastRun_min,
  });
  if (bad) return bad;
  if (ranBetween_min < 0 || leastRun_min < 0) return refuse("A running time between two tests cannot be negative.");
  const retestStands = ranBetween_min >= leastRun_min || second_psi <= first_psi;
  const counts_psi = retestStands ? second_psi : first_psi;
  return answer({
    counts_psi,
    retestStands,
    change_psi: settle(second_psi - first_psi),
    steps: [
      retestStands
        ? `The retest counts: ${show(second_psi)} psi after ${show(ranBetween_min)} min of running (first ${show(first_psi)} psi).`
        : `The retest does not count: ${show(ranBetween_min)} min of running is less than ${show(leastRun_min)} min; ${show(first_psi)} psi stands.`,
    ],
  });
}
