/**
 * Correction of a measured brake power to reference air.
 *
 * Nothing is corrected unless the engine type names a rule. The rules below were written for vehicle engines; the maker
 * of an aircraft or marine engine may ask for another formula, and that one comes before these.
 */
import { show } from "./figures.ts";
import { answer, type Result, refuse, refuseNotPositive, refuseUnusable, type Worked } from "./result.ts";

export type CorrectionRule = "none" | "iso-1585" | "sae-j1349-1990" | "sae-j607";

export interface CorrectionRulePage {
  readonly rule: CorrectionRule;
  /** Name with edition, as a report prints it. */
  readonly edition: string;
  readonly reference: string;
  readonly validity: string;
  readonly source: string;
}

/** What the rules are called, where they hold, and what this project read about them. */
export const correctionRules: readonly CorrectionRulePage[] = [
  {
    rule: "none",
    edition: "No correction: power as measured",
    reference: "the air of the day",
    validity: "always",
    source: "none needed",
  },
  {
    rule: "iso-1585",
    edition: "ISO 1585:1992, spark ignition (same rule as directive 80/1269/EEC as amended)",
    reference: "25 C, 99 kPa dry air",
    validity: "factor 0.93 to 1.07",
    source: "formula as repeated on public pages and in public program text; the standard itself was not seen",
  },
  {
    rule: "sae-j1349-1990",
    edition: "SAE J1349, June 1990, spark ignition, mechanical efficiency taken as 85 %",
    reference: "25 C (77 F), 99 kPa (29.23 inHg) dry air",
    validity: "factor 0.93 to 1.07; air 15 to 35 C; dry air 90 to 105 kPa",
    source: "lumped form as repeated on public pages; the standard itself was not seen, its ranges are from memory",
  },
  {
    rule: "sae-j607",
    edition: "SAE J607 (often called STD)",
    reference: "60 F, 29.92 inHg dry air",
    validity: "no range is stated; refused outside a factor of 0.8 to 1.25",
    source: "formula as repeated on public pages; the standard itself was not seen",
  },
];

export interface AirOfTheDay {
  /** Total pressure in Pa at the engine's intake. */
  air_Pa: number;
  /** Vapour pressure in Pa. */
  vapour_Pa: number;
  /** Temperature of the intake air in C. */
  air_C: number;
}

export interface CorrectedPower extends Worked {
  rule: CorrectionRule;
  edition: string;
  factor: number;
  power_kW: number;
}

function pageOf(rule: CorrectionRule): CorrectionRulePage {
  const page = correctionRules.find((each) => each.rule === rule);
  if (!page) throw new Error(`no page for correction rule ${rule}`);
  return page;
}

function outsideFactor(edition: string, factor: number, from: number, until: number) {
  if (factor >= from && factor <= until) return undefined;
  return refuse(
    `${edition} holds for a factor of ${from} to ${until}; the air of this run would give ${show(factor, 5)}, so no corrected power is stated.`,
  );
}

function factorIso1585(dry_kPa: number, air_C: number) {
  // The published factor is exactly one at 25 C only with T = t + 273, which is how the constants 298 and 99 were chosen.
  const kelvin = air_C + 273;
  const factor = (99 / dry_kPa) ** 1.2 * (kelvin / 298) ** 0.6;
  return {
    factor,
    step: `Factor: (99 / ${show(dry_kPa, 5)} kPa)^1.2 x (${show(kelvin, 5)} / 298)^0.6 = ${show(factor, 5)}, with T = t + 273.`,
  };
}

function factorJ1349(dry_kPa: number, air_C: number) {
  const kelvin = air_C + 273;
  const factor = 1.18 * (99 / dry_kPa) * Math.sqrt(kelvin / 298) - 0.18;
  return {
    factor,
    step: `Factor: 1.180 x (99 / ${show(dry_kPa, 5)} kPa) x sqrt(${show(kelvin, 5)} / 298) - 0.180 = ${show(factor, 5)}, with T = t + 273.`,
  };
}

function factorJ607(dry_kPa: number, air_C: number) {
  const dry_inHg = (dry_kPa * 1000) / 3386.388640341;
  const rankine = air_C * 1.8 + 32 + 460;
  const factor = (29.92 / dry_inHg) * Math.sqrt(rankine / 520);
  return {
    factor,
    step: `Factor: (29.92 / ${show(dry_inHg, 5)} inHg) x sqrt(${show(rankine, 5)} / 520) = ${show(factor, 5)}, with conventional inHg and T = F + 460.`,
  };
}

/**
 * Corrects a measured brake power by a named rule, or leaves it alone.
 * @param rule the rule that the engine type names; "none" is the default of the whole project
 * @param observed_kW brake power as measured, kW
 * @param air the air of the day; a total pressure of 50 to 110 kPa, vapour below it, -40 to 60 C
 * @returns factor, corrected power, edition and working; a refusal when the factor lies outside the rule's range
 * Source: see `correctionRules`.
 */
export function correctPower(rule: CorrectionRule, observed_kW: number, air: AirOfTheDay): Result<CorrectedPower> {
  const bad = refuseNotPositive({ "measured power": observed_kW });
  if (bad) return bad;
  const page = pageOf(rule);
  if (rule === "none") {
    return answer({
      rule,
      edition: page.edition,
      factor: 1,
      power_kW: observed_kW,
      steps: ["No correction is named for this engine type; the power stands as measured."],
    });
  }
  const unusable = refuseUnusable({
    "air pressure": air.air_Pa,
    "vapour pressure": air.vapour_Pa,
    "air temperature": air.air_C,
  });
  if (unusable) return unusable;
  if (air.air_Pa < 50_000 || air.air_Pa > 110_000) {
    return refuse(`An air pressure of ${show(air.air_Pa / 100)} hPa is outside 500 to 1100 hPa.`);
  }
  if (air.vapour_Pa < 0 || air.vapour_Pa > 0.25 * air.air_Pa) {
    return refuse(`A vapour pressure of ${show(air.vapour_Pa)} Pa does not fit the air of a stand.`);
  }
  if (air.air_C < -40 || air.air_C > 60) {
    return refuse(`An intake air temperature of ${show(air.air_C)} C is outside -40 to 60 C.`);
  }
  const dry_kPa = (air.air_Pa - air.vapour_Pa) / 1000;
  if (rule === "sae-j1349-1990" && (air.air_C < 15 || air.air_C > 35 || dry_kPa < 90 || dry_kPa > 105)) {
    return refuse(
      `${page.edition} holds for air of 15 to 35 C and 90 to 105 kPa dry; this run had ${show(air.air_C)} C and ${show(dry_kPa, 4)} kPa.`,
    );
  }
  const { factor, step } =
    rule === "iso-1585"
      ? factorIso1585(dry_kPa, air.air_C)
      : rule === "sae-j1349-1990"
        ? factorJ1349(dry_kPa, air.air_C)
        : factorJ607(dry_kPa, air.air_C);
  const outside =
    rule === "sae-j607"
      ? outsideFactor(page.edition, factor, 0.8, 1.25)
      : outsideFactor(page.edition, factor, 0.93, 1.07);
  if (outside) return outside;
  const power_kW = observed_kW * factor;
  return answer({
    rule,
    edition: page.edition,
    factor,
    power_kW,
    steps: [
      `Dry air: ${show(air.air_Pa / 1000, 5)} - ${show(air.vapour_Pa / 1000, 4)} = ${show(dry_kPa, 5)} kPa; intake ${show(air.air_C)} C.`,
      step,
      `Corrected power: ${show(observed_kW, 4)} kW x ${show(factor, 4)} = ${show(power_kW, 4)} kW by ${page.edition}.`,
    ],
  });
}

/** A maker's formula: factor = (1 + loss) x (reference dry / dry)^a x (T / reference T)^b - loss. */
export interface MakerFormula {
  /** Document and page, as a report prints it. */
  readonly source: string;
  /** Reference pressure of dry air in Pa and reference temperature in C. */
  readonly dry_Pa: number;
  readonly air_C: number;
  /** Powers of the two ratios. */
  readonly pressurePower: number;
  readonly temperaturePower: number;
  /** Share of the power lost in the engine itself, 0 when the formula has no such term. */
  readonly loss: number;
  /** Range of the factor for which the maker lets it be used. */
  readonly factorFrom: number;
  readonly factorUntil: number;
}

/**
 * Corrects a measured brake power by the formula of the engine's maker, in the common form of two powers and a loss.
 * @param formula from the maker's document, with its range
 * @param observed_kW brake power as measured, kW
 * @param air the air of the day
 * @returns a refusal outside the maker's range, like the named rules
 * Source: the form covers ISO 1585 (loss 0, powers 1.2 and 0.6), SAE J1349 (0.18, 1 and 0.5) and rules of marine
 *   generator makers; all its figures come in.
 */
export function correctByMakerFormula(
  formula: MakerFormula,
  observed_kW: number,
  air: AirOfTheDay,
): Result<{ factor: number; power_kW: number; source: string } & Worked> {
  const bad =
    refuseNotPositive({
      "measured power": observed_kW,
      "reference pressure": formula.dry_Pa,
      "air pressure": air.air_Pa,
      "pressure of the dry air": air.air_Pa - air.vapour_Pa,
      "reference temperature in kelvin": formula.air_C + 273.15,
      "intake temperature in kelvin": air.air_C + 273.15,
    }) ??
    refuseUnusable({
      "power of the pressure ratio": formula.pressurePower,
      "power of the temperature ratio": formula.temperaturePower,
      "lost share": formula.loss,
    });
  if (bad) return bad;
  if (formula.loss < 0 || formula.loss >= 1) return refuse(`A lost share of ${show(formula.loss)} is outside 0 to 1.`);
  const dry_Pa = air.air_Pa - air.vapour_Pa;
  const pressures = formula.dry_Pa / dry_Pa;
  const temperatures = (air.air_C + 273.15) / (formula.air_C + 273.15);
  const ratio = pressures ** formula.pressurePower * temperatures ** formula.temperaturePower;
  const factor = (1 + formula.loss) * ratio - formula.loss;
  const outside = outsideFactor(formula.source, factor, formula.factorFrom, formula.factorUntil);
  if (outside) return outside;
  const power_kW = observed_kW * factor;
  return answer({
    factor,
    power_kW,
    source: formula.source,
    steps: [
      `Ratios: pressure ${show(pressures, 5)}, temperature ${show(temperatures, 5)}.`,
      `Factor: ${show(1 + formula.loss)} x ${show(pressures, 5)}^${show(formula.pressurePower)} x ${show(temperatures, 5)}^${show(formula.temperaturePower)} - ${show(formula.loss)} = ${show(factor, 5)} (${formula.source}).`,
      `Corrected power: ${show(observed_kW, 4)} kW x ${show(factor, 4)} = ${show(power_kW, 4)} kW.`,
    ],
  });
}
