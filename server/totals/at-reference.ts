/**
 * What a reading would be at 20 °C: the part and what measured it have grown or shrunk by their material and the temperature of the air that
 * the entry states. Nothing is judged by the corrected figure; it is shown, and said where it matters.
 */
import {
  type CorrectedSize,
  type Expansion,
  expansionOf,
  referenceTemperature_C,
  sizeAtReference,
} from "../calc/reference-temperature.ts";
import type { Result } from "../calc/result.ts";
import type { Ask } from "../checking/ask.ts";
import type { EngineTypeBlock, LimitLine, WorkBlock } from "../facts/types.ts";
import { convertNumber, type Measure } from "../quantity/compare.ts";
import { findUnit } from "../quantity/units.ts";
import { isNamedBy, serviceEnds } from "./limits-for.ts";

/** What a material is called on a drawing, and the row of the table of expansions that serves for it. */
const GRADES: readonly (readonly [RegExp, string])[] = [
  [/^(alloy[ -]steel|steel[ -](4130|4140|4340).*)$/u, "alloy-steel"],
  [/^(stainless([ -]steel)?|steel[ -]304)$/u, "stainless-steel"],
  [/^(gauge[ -]steel|gauge[ -]blocks?)$/u, "gauge-steel"],
  [/^(grey|gray|cast)[ -]iron$/u, "grey-iron"],
  [/^(ductile|nodular)[ -]iron$/u, "ductile-iron"],
  [/^alumini?um([ -]6061)?$/u, "aluminium"],
  [/^(alumini?um[ -](forged|2024)|forged[ -]alumini?um)$/u, "aluminium-forged"],
  [/^(alumini?um[ -](cast|356)|cast[ -]alumini?um)$/u, "aluminium-cast"],
  [/^(bearing[ -])?bronze$/u, "bronze"],
  [/^magnesium([ -]az91)?$/u, "magnesium"],
  [/^titanium$/u, "titanium"],
];

const named = new Map<string, Expansion | undefined>();
/** A shop has a dozen materials; what it misspells is kept too, so the list is bounded. */
const NAMES_KEPT = 500;

/** The expansion of a material by the name that a record gives it. */
function expansionNamed(name: string): Expansion | undefined {
  if (name === "") return undefined;
  if (!named.has(name)) {
    const plain = name.trim().toLowerCase();
    const found = expansionOf(GRADES.find(([pattern]) => pattern.test(plain))?.[1] ?? plain);
    if (named.size > NAMES_KEPT) named.clear();
    named.set(name, found.ok ? found : undefined);
  }
  return named.get(name);
}

const mm = findUnit("mm");
const celsius = findUnit("C");

/** The material of a feature: of the longest name that a `material` line gives, `cylinder` for `cylinder.bore`; "" where none does. */
function materialOf(type: EngineTypeBlock | undefined, feature: string): string {
  let best = "";
  let material = "";
  for (const line of type?.materials ?? []) {
    if (line.feature === "" ? best !== "" : !isNamedBy(feature, [line.feature]) || line.feature.length < best.length)
      continue;
    best = line.feature;
    material = line.material;
  }
  return material;
}

/** The temperature of the air that a block states, in degrees Celsius; undefined where it states none. */
export function airTemperature_C(block: Pick<WorkBlock, "air">): number | undefined {
  const air = block.air.find((line) => line.temperature !== undefined)?.temperature;
  return air && celsius ? convertNumber(air.value, air.unit, celsius) : undefined;
}

export interface AtReference {
  readonly partMaterial: string;
  /** The instrument, or the standard that it was set on: what stands for the scale. */
  readonly scale: string;
  readonly scaleMaterial: string;
  readonly air_C: number;
  /** What the figures are, or why there are none. */
  readonly corrected: Result<CorrectedSize>;
  /** Where the expansions come from. */
  readonly sources: readonly string[];
}

/**
 * Corrects a reading of a length to 20 °C.
 * @param type of the engine: its `material` lines say what the part is made of
 * @param reading with the instrument, and the standard that it was set on: then the standard is the scale
 * @returns undefined where the temperature or a material is not known
 * Source: ISO 1; handbook expansions as `expansionTable` names them.
 */
export function atReference(
  ask: Pick<Ask, "instrument">,
  block: Pick<WorkBlock, "air">,
  type: EngineTypeBlock | undefined,
  feature: string,
  reading: { readonly measure: Measure | undefined; readonly instrument: string; readonly standard: string },
): AtReference | undefined {
  const air_C = airTemperature_C(block);
  const { measure } = reading;
  if (!mm || air_C === undefined || !measure || measure.unit.dimension !== "length" || !(measure.value > 0))
    return undefined;
  const scale = reading.standard === "" ? reading.instrument : reading.standard;
  const partMaterial = materialOf(type, feature);
  const scaleMaterial = ask.instrument(scale)?.material ?? "";
  const part = expansionNamed(partMaterial);
  const instrument = expansionNamed(scaleMaterial);
  if (!part || !instrument) return undefined;
  const corrected = sizeAtReference({
    reading_mm: convertNumber(measure.value, measure.unit, mm),
    partTemperature_C: air_C,
    partExpansion_um_per_m_K: part.expansion_um_per_m_K,
    instrumentTemperature_C: air_C,
    instrumentExpansion_um_per_m_K: instrument.expansion_um_per_m_K,
  });
  return {
    partMaterial,
    scale,
    scaleMaterial,
    air_C,
    corrected,
    sources: [...new Set([part.source, instrument.source])],
  };
}

/**
 * The correction to 20 °C in doubles, without its working: tells at little cost that a correction is far too small to matter.
 * @param air_C temperature of part and instrument
 * @returns what `atReference` would add to the reading, in mm, good to 2e-9 mm; undefined where it would answer with nothing
 */
export function roughCorrection_mm(
  ask: Pick<Ask, "instrument">,
  air_C: number,
  type: EngineTypeBlock | undefined,
  feature: string,
  reading: { readonly measure: Measure | undefined; readonly instrument: string; readonly standard: string },
): number | undefined {
  const { measure } = reading;
  if (!mm || !measure || measure.unit.dimension !== "length" || !(measure.value > 0)) return undefined;
  const part = expansionNamed(materialOf(type, feature));
  if (!part) return undefined;
  const scale = reading.standard === "" ? reading.instrument : reading.standard;
  const instrument = expansionNamed(ask.instrument(scale)?.material ?? "");
  if (!instrument) return undefined;
  const warmer_K = (air_C - referenceTemperature_C) * 1e-6;
  const grown = (1 + instrument.expansion_um_per_m_K * warmer_K) / (1 + part.expansion_um_per_m_K * warmer_K);
  return convertNumber(measure.value, measure.unit, mm) * (grown - 1);
}

/**
 * Width of what a limit leaves, in mm: from end to end, or from the edge of new to the wear limit where it has one end only.
 * @returns undefined where there is no width
 */
export function toleranceWidth_mm(line: LimitLine | undefined): number | undefined {
  if (!line || !mm) return undefined;
  if (widths.has(line)) return widths.get(line);
  const inMm = (bound: Measure | undefined): number | undefined =>
    bound?.unit.dimension === "length" ? convertNumber(bound.value, bound.unit, mm) : undefined;
  const spans = [line.newLimits, line.bare, serviceEnds(line)].flatMap((bounds) => {
    const low = inMm(bounds?.low);
    const high = inMm(bounds?.high);
    return low === undefined || high === undefined || !(high > low) ? [] : [high - low];
  });
  widths.set(line, spans[0]);
  return spans[0];
}

/** Limit lines are the same objects for every reading that they judge. */
const widths = new WeakMap<LimitLine, number | undefined>();
