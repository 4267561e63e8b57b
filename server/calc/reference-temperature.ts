import { settle, show } from "./figures.ts";
import type { Result, Worked } from "./result.ts";
import { answer, refuse, refuseNotPositive } from "./result.ts";

/** The temperature at which sizes hold. Source: ISO 1. */
export const referenceTemperature_C = 20;

export interface Expansion {
  readonly material: string;
  /** Linear expansion in millionths per kelvin. */
  readonly expansion_um_per_m_K: number;
  readonly source: string;
}

const handbook = "Callister, Materials Science and Engineering, table B.6";

/**
 * Linear expansion of the materials of the shop, mean values of 20 to 100 C, good to about 5 %.
 * A maker's own figure goes before any of these.
 */
export const expansionTable: readonly Expansion[] = [
  { material: "gauge-steel", expansion_um_per_m_K: 11.5, source: "cal75 metrology page, steel gauge block" },
  { material: "steel", expansion_um_per_m_K: 11.7, source: `${handbook}, steel 1020` },
  { material: "alloy-steel", expansion_um_per_m_K: 12.3, source: `${handbook}, steels 4140 and 4340` },
  { material: "stainless-steel", expansion_um_per_m_K: 17.2, source: `${handbook}, stainless 304` },
  { material: "grey-iron", expansion_um_per_m_K: 11.4, source: `${handbook}, grey iron` },
  { material: "ductile-iron", expansion_um_per_m_K: 11.0, source: `${handbook}, ductile iron 10.6 to 11.2` },
  { material: "aluminium", expansion_um_per_m_K: 23.6, source: `${handbook}, aluminium 6061` },
  { material: "aluminium-forged", expansion_um_per_m_K: 22.9, source: `${handbook}, aluminium 2024` },
  { material: "aluminium-cast", expansion_um_per_m_K: 21.5, source: `${handbook}, aluminium 356` },
  { material: "bronze", expansion_um_per_m_K: 18.0, source: `${handbook}, bearing bronze C93200` },
  { material: "magnesium", expansion_um_per_m_K: 26.0, source: `${handbook}, magnesium AZ91` },
  { material: "titanium", expansion_um_per_m_K: 8.6, source: `${handbook}, Ti-6Al-4V` },
];

/** Share by which a handbook figure may be off. */
const expansionDoubt = 0.05;

/** Temperatures at which a measurement is corrected; the handbook means are not good far outside. */
const leastTemperature_C = -10;
const greatestTemperature_C = 60;

export interface CorrectedSize extends Worked {
  /** Size that the part has at 20 C. */
  readonly size_mm: number;
  /** What was added to the reading. */
  readonly correction_mm: number;
  /** Doubt of the correction from 5 % of either expansion. */
  readonly doubt_mm: number;
}

/**
 * Expansion of a material by its name in the table.
 * @returns refused for a name that the table does not hold
 */
export function expansionOf(material: string): Result<Expansion> {
  const found = expansionTable.find((entry) => entry.material === material);
  if (found !== undefined) return answer(found);
  return refuse(
    `No expansion is known for "${material}"; known are ${expansionTable.map((entry) => entry.material).join(", ")}.`,
  );
}

/**
 * Size at 20 C of a part that was measured at another temperature, with an instrument that may itself be warm.
 *
 * A warm instrument reads short (its scale has grown) and a warm part is large; both are taken into account, so that a
 * steel part measured with a steel instrument at the same temperature keeps its reading.
 * @param measurement reading in mm, greater than zero; temperatures -10 to 60 C; expansions 0 to 50 um/(m K). Leave the
 *   instrument's expansion at 0 when the instrument corrects itself or was set on a ring of the part's temperature.
 * @returns refused outside those ranges
 * Source: ISO 1; linear expansion; worked example of NPL (nominal 500 mm steel rod at 23.7 C).
 */
export function sizeAtReference(measurement: {
  readonly reading_mm: number;
  readonly partTemperature_C: number;
  readonly partExpansion_um_per_m_K: number;
  readonly instrumentTemperature_C: number;
  readonly instrumentExpansion_um_per_m_K: number;
}): Result<CorrectedSize> {
  const { reading_mm, partTemperature_C, instrumentTemperature_C } = measurement;
  const bad = refuseNotPositive({ reading: reading_mm });
  if (bad !== undefined) return bad;
  for (const [name, temperature_C] of [
    ["part", partTemperature_C],
    ["instrument", instrumentTemperature_C],
  ] as const) {
    if (!(temperature_C >= leastTemperature_C && temperature_C <= greatestTemperature_C)) {
      return refuse(
        `The temperature of the ${name}, ${temperature_C} C, is outside ${leastTemperature_C} to ${greatestTemperature_C} C, where the expansion figures hold.`,
      );
    }
  }
  for (const [name, expansion] of [
    ["part", measurement.partExpansion_um_per_m_K],
    ["instrument", measurement.instrumentExpansion_um_per_m_K],
  ] as const) {
    if (!(expansion >= 0 && expansion <= 50)) {
      return refuse(`The expansion of the ${name} must lie between 0 and 50 um/(m K), not ${expansion}.`);
    }
  }
  const partGrowth = measurement.partExpansion_um_per_m_K * 1e-6 * (partTemperature_C - referenceTemperature_C);
  const instrumentGrowth =
    measurement.instrumentExpansion_um_per_m_K * 1e-6 * (instrumentTemperature_C - referenceTemperature_C);
  const size_mm = settle((reading_mm * (1 + instrumentGrowth)) / (1 + partGrowth));
  const correction_mm = settle(size_mm - reading_mm);
  return answer({
    size_mm,
    correction_mm,
    doubt_mm: settle(reading_mm * expansionDoubt * Math.hypot(partGrowth, instrumentGrowth)),
    steps: [
      `Part at ${show(partTemperature_C)} C, ${show(measurement.partExpansion_um_per_m_K)} um/(m K): grown by ${show(reading_mm * partGrowth * 1000, 3)} um against 20 C.`,
      `Instrument at ${show(instrumentTemperature_C)} C, ${show(measurement.instrumentExpansion_um_per_m_K)} um/(m K): scale grown by ${show(reading_mm * instrumentGrowth * 1000, 3)} um.`,
      `${show(reading_mm, 9)} mm ${correction_mm < 0 ? "-" : "+"} ${show(Math.abs(correction_mm), 4)} mm = ${show(size_mm, 9)} mm at 20 C (ISO 1).`,
    ],
  });
}
