/** What one reading leads to, worked out step by step: its size at 20 °C, a compression ratio, the sums of valve timing, wear and hours left. */
import { compressionRatio } from "../../calc/engine-arithmetic.ts";
import { show } from "../../calc/figures.ts";
import type { Result, Worked } from "../../calc/result.ts";
import { type ValveEvents, valveTiming } from "../../calc/valve-timing.ts";
import { wearForecast, wearRate } from "../../calc/wear.ts";
import { opposedPairs, weightSet } from "../../calc/weight-set.ts";
import type { LimitLine } from "../../facts/types.ts";
import { convertNumber, type Measure } from "../../quantity/compare.ts";
import { findUnit } from "../../quantity/units.ts";
import type { SummarySection } from "../../report/summary.ts";
import type { Row } from "../../report/wording.ts";
import { atReference } from "../../totals/at-reference.ts";
import { sweptVolume } from "../../totals/engine-figures.ts";
import { layoutOf } from "../../totals/engine-shape.ts";
import { jobContext } from "../../totals/job-context.ts";
import { currentReadings, type HistoryReading, historyKey, placeHistory } from "../../totals/place-history.ts";
import { engineOfScope, wearSeries } from "../../totals/trends.ts";
import type { Subject } from "./context.ts";

function steps(worked: Result<Worked>): Row[] {
  return worked.ok ? worked.steps.map((step): Row => ["", step]) : [["", worked.refused]];
}

function inUnit(measure: Measure | undefined, spelling: string): number | undefined {
  const unit = findUnit(spelling);
  return measure && unit && measure.unit.dimension === unit.dimension
    ? convertNumber(measure.value, measure.unit, unit)
    : undefined;
}

/** At 20 °C, where the entry states the air and both materials are known. */
function referenceRows(reading: HistoryReading, feature: string, subject: Subject): Row[] {
  const { ask, scope } = subject;
  const block = ask.workBlock(reading.ref);
  const type = ask.engineType(ask.total(jobContext, scope).type);
  const at = block && reading.result === "value" ? atReference(ask, block, type, feature, reading) : undefined;
  if (!at) return [];
  const { corrected } = at;
  return [
    ["part", at.partMaterial],
    ["scale", `${at.scale}, ${at.scaleMaterial}`],
    ...steps(corrected),
    ...(corrected.ok
      ? [
          ["doubt", `${show(corrected.doubt_mm, 2)} mm, from expansions that are good to 5 %`] as const,
          ["source", at.sources.join("; ")] as const,
        ]
      : []),
  ];
}

/** The volume left above the piston, as poured, gives the ratio of that cylinder. */
function ratioRows(reading: HistoryReading, feature: string, subject: Subject): Row[] {
  const clearance_cm3 = inUnit(reading.measure, "cm3");
  if (feature !== "chamber.volume" || clearance_cm3 === undefined || reading.result !== "value") return [];
  const { ask, scope } = subject;
  const swept = sweptVolume(ask.engineType(ask.total(jobContext, scope).type));
  return swept
    ? steps(compressionRatio(swept.cylinder_cm3, clearance_cm3))
    : [["", "The engine type names no bore and stroke, so no ratio follows."]];
}

const EVENTS: Readonly<Record<string, keyof ValveEvents>> = {
  "timing.inlet-opens": "intakeOpens_degBefore",
  "timing.intake-opens": "intakeOpens_degBefore",
  "timing.inlet-closes": "intakeCloses_degAfter",
  "timing.intake-closes": "intakeCloses_degAfter",
  "timing.exhaust-opens": "exhaustOpens_degBefore",
  "timing.exhaust-closes": "exhaustCloses_degAfter",
};

/** How long the valves are open, once all four events of the place are read. */
function timingRows(reading: HistoryReading, feature: string, subject: Subject): Row[] {
  if (EVENTS[feature] === undefined) return [];
  const { ask, scope } = subject;
  const events: Partial<Record<keyof ValveEvents, number>> = {};
  for (const [name, event] of Object.entries(EVENTS)) {
    for (const one of currentReadings(ask.total(placeHistory, historyKey(scope, name))).values())
      if (one.pathNow === reading.pathNow && one.result === "value")
        events[event] = inUnit(one.measure, "deg") ?? events[event];
  }
  const io = events.intakeOpens_degBefore;
  const ic = events.intakeCloses_degAfter;
  const eo = events.exhaustOpens_degBefore;
  const ec = events.exhaustCloses_degAfter;
  if (io !== undefined && ic !== undefined && eo !== undefined && ec !== undefined)
    return steps(
      valveTiming({
        intakeOpens_degBefore: io,
        intakeCloses_degAfter: ic,
        exhaustOpens_degBefore: eo,
        exhaustCloses_degAfter: ec,
      }),
    );
  // The overlap needs only the two events about top dead centre.
  return io !== undefined && ec !== undefined
    ? [["", `Overlap: ${show(io)} + ${show(ec)} = ${show(Number((io + ec).toPrecision(12)))} degrees.`]]
    : [];
}

/** The set of weighed parts that a reading belongs to, and those that stand opposite each other. */
function weightRows(reading: HistoryReading, feature: string, subject: Subject): Row[] {
  const { ask, scope } = subject;
  if (inUnit(reading.measure, "g") === undefined || !feature.endsWith(".weight")) return [];
  const parts = [...currentReadings(ask.total(placeHistory, historyKey(scope, feature))).values()].flatMap((one) => {
    const mass_g = one.result === "value" ? inUnit(one.measure, "g") : undefined;
    return mass_g === undefined || one.pathNow === undefined ? [] : [{ name: one.pathNow, mass_g }];
  });
  const { type, revision } = ask.total(jobContext, scope);
  const spread = ask
    .limits(type, revision)
    ?.limits.find((one) => one.stat === "spread" && one.place.feature === feature);
  const bounds = spread?.bare ?? spread?.newLimits ?? spread?.wearLimits;
  const rows = steps(weightSet(parts, inUnit(bounds?.high, "g")));
  const weighed = new Set(parts.map((part) => part.name));
  const throws = new Map<number, string[]>();
  const layout = layoutOf(ask.engineType(type));
  if (layout?.arrangement === "opposed" || layout?.arrangement === "vee")
    for (const cylinder of layout.cylinders)
      throws.set(cylinder.row, [...(throws.get(cylinder.row) ?? []), String(cylinder.number)]);
  const pairs = [...throws.values()].flatMap(([one = "", other = ""]): (readonly [string, string])[] =>
    weighed.has(one) && weighed.has(other) ? [[one, other]] : [],
  );
  return pairs.length === 0 ? rows : [...rows, ...steps(opposedPairs(parts, pairs))];
}

/** How fast a place wears and how far it is to its limit, once it was measured often enough at known hours. */
function wearRows(reading: HistoryReading, feature: string, subject: Subject, line: LimitLine | undefined): Row[] {
  const { ask, scope } = subject;
  const engine = engineOfScope(ask, scope);
  const limit_mm = inUnit(line?.wearLimits?.high ?? line?.wearLimits?.low, "mm");
  if (engine === "" || limit_mm === undefined || reading.result !== "value") return [];
  const series = ask.total(wearSeries, `${engine}|${feature}|${reading.pathNow ?? reading.path}`);
  // One day shows no wear, and saying so at every reading would be noise.
  if (series.length < 2) return [];
  const rate = wearRate(series);
  return [...steps(rate), ...(rate.ok ? steps(wearForecast(series, limit_mm)) : [])];
}

/** Sections with their working; empty ones are left out by the writer. */
export function workedSections(
  reading: HistoryReading,
  feature: string,
  subject: Subject,
  line: LimitLine | undefined,
): SummarySection[] {
  return [
    { heading: "Wear by hours", rows: wearRows(reading, feature, subject, line) },
    { heading: "Weight set", rows: weightRows(reading, feature, subject) },
    { heading: "At 20 °C", rows: referenceRows(reading, feature, subject) },
    { heading: "Compression ratio", rows: ratioRows(reading, feature, subject) },
    { heading: "Valve timing", rows: timingRows(reading, feature, subject) },
  ];
}
