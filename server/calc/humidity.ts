/**
 * Water vapour in the air of the test stand.
 *
 * Power corrections work with the pressure of dry air, so the share of the vapour has to be known, either from a
 * relative humidity or from the wet bulb of a ventilated psychrometer.
 */
import { show } from "./figures.ts";
import { answer, type Result, refuse, refuseNotPositive, refuseUnusable, type Worked } from "./result.ts";

/** Lowest and highest air temperature of the Magnus formula over water, as the guide states them. */
const magnusFrom_C = -45;
const magnusUntil_C = 60;

export interface Vapour extends Worked {
  /** Partial pressure of the water vapour, Pa. */
  vapour_Pa: number;
  /** Relative humidity over water, percent. */
  humidity_percent: number;
}

/** The bare Magnus formula; callers have checked the range. */
function magnus_Pa(air_C: number): number {
  return 611.2 * Math.exp((17.62 * air_C) / (243.12 + air_C));
}

function outsideMagnus(name: string, value_C: number) {
  if (value_C >= magnusFrom_C && value_C <= magnusUntil_C) return undefined;
  return refuse(
    `The ${name} of ${show(value_C)} C is outside ${magnusFrom_C} to ${magnusUntil_C} C, where the vapour formula holds.`,
  );
}

/**
 * Saturation vapour pressure over water.
 * @param air_C air temperature in C, -45 to 60
 * @returns pressure in Pa, or a refusal outside the range
 * Source: Magnus formula of WMO-No. 8, Guide to Instruments and Methods of Observation, annex 4.B.
 */
export function saturationPressure(air_C: number): Result<{ saturation_Pa: number } & Worked> {
  const bad = refuseUnusable({ "air temperature": air_C }) ?? outsideMagnus("air temperature", air_C);
  if (bad) return bad;
  const saturation_Pa = magnus_Pa(air_C);
  return answer({
    saturation_Pa,
    steps: [
      `Saturation pressure at ${show(air_C)} C: 611.2 x exp(17.62 x ${show(air_C)} / (243.12 + ${show(air_C)})) = ${show(saturation_Pa, 5)} Pa (Magnus, WMO-No. 8).`,
    ],
  });
}

/**
 * Vapour pressure from a relative humidity.
 * @param air_C air temperature in C, -45 to 60
 * @param humidity_percent relative humidity over water, 0 to 100 percent
 * Source: definition of relative humidity; saturation pressure as above.
 */
export function vapourFromHumidity(air_C: number, humidity_percent: number): Result<Vapour> {
  const bad = refuseUnusable({ "relative humidity": humidity_percent });
  if (bad) return bad;
  if (humidity_percent < 0 || humidity_percent > 100) {
    return refuse(`A relative humidity of ${show(humidity_percent)} % is outside 0 to 100 %.`);
  }
  const saturation = saturationPressure(air_C);
  if (!saturation.ok) return saturation;
  const vapour_Pa = (saturation.saturation_Pa * humidity_percent) / 100;
  return answer({
    vapour_Pa,
    humidity_percent,
    steps: [
      ...saturation.steps,
      `Vapour pressure: ${show(humidity_percent)} % of ${show(saturation.saturation_Pa, 5)} Pa = ${show(vapour_Pa, 5)} Pa.`,
    ],
  });
}

/**
 * Vapour pressure from the wet bulb of a ventilated psychrometer (air past the bulbs at 3 m/s or more).
 * @param dry_C dry bulb in C, up to 60
 * @param wet_C wet bulb in C, from 0 (water, not ice, on the wick) up to the dry bulb
 * @param air_Pa total air pressure in Pa, 50 000 to 110 000
 * @returns vapour pressure in Pa and relative humidity; a refusal for ice on the bulb, a wet bulb above the dry one, or
 *   a pair that no air can have
 * Source: psychrometer formula of WMO-No. 8, annex 4.B: e = e_s(wet) - 0.000653 (1 + 0.000944 wet) p (dry - wet).
 */
export function vapourFromWetBulb(dry_C: number, wet_C: number, air_Pa: number): Result<Vapour> {
  const bad =
    refuseUnusable({ "dry bulb": dry_C, "wet bulb": wet_C, "air pressure": air_Pa }) ??
    outsideMagnus("dry bulb", dry_C);
  if (bad) return bad;
  if (wet_C > dry_C) {
    return refuse(`The wet bulb at ${show(wet_C)} C is above the dry bulb at ${show(dry_C)} C, which cannot be.`);
  }
  if (wet_C < 0) {
    return refuse(
      `The wet bulb at ${show(wet_C)} C is below freezing; the formula is for water, not ice, on the wick.`,
    );
  }
  if (air_Pa < 50_000 || air_Pa > 110_000) {
    return refuse(`An air pressure of ${show(air_Pa / 100)} hPa is outside 500 to 1100 hPa.`);
  }
  const atWet_Pa = magnus_Pa(wet_C);
  const drop_Pa = 0.000653 * (1 + 0.000944 * wet_C) * air_Pa * (dry_C - wet_C);
  const vapour_Pa = atWet_Pa - drop_Pa;
  if (vapour_Pa < 0) {
    return refuse(
      `A wet bulb of ${show(wet_C)} C at a dry bulb of ${show(dry_C)} C would be air drier than dry; one of them is wrong.`,
    );
  }
  const humidity_percent = (100 * vapour_Pa) / magnus_Pa(dry_C);
  return answer({
    vapour_Pa,
    humidity_percent,
    steps: [
      `Saturation pressure at the wet bulb, ${show(wet_C)} C: ${show(atWet_Pa, 5)} Pa (Magnus, WMO-No. 8).`,
      `Psychrometer term: 0.000653 x (1 + 0.000944 x ${show(wet_C)}) x ${show(air_Pa)} Pa x ${show(dry_C - wet_C, 4)} K = ${show(drop_Pa, 5)} Pa.`,
      `Vapour pressure: ${show(atWet_Pa, 5)} - ${show(drop_Pa, 5)} = ${show(vapour_Pa, 5)} Pa, a relative humidity of ${show(humidity_percent, 3)} %.`,
    ],
  });
}

/**
 * Dew point of air with a given vapour pressure.
 * @param vapour_Pa vapour pressure in Pa, greater than zero
 * @returns dew point in C over water, or a refusal outside -45 to 60 C
 * Source: inverse of the Magnus formula above.
 */
export function dewPoint(vapour_Pa: number): Result<{ dewPoint_C: number } & Worked> {
  const bad = refuseNotPositive({ "vapour pressure": vapour_Pa });
  if (bad) return bad;
  const ratio = Math.log(vapour_Pa / 611.2);
  const dewPoint_C = (243.12 * ratio) / (17.62 - ratio);
  const outside = outsideMagnus("dew point", dewPoint_C);
  if (outside) return outside;
  return answer({
    dewPoint_C,
    steps: [
      `Dew point: 243.12 x ln(e / 611.2) / (17.62 - ln(e / 611.2)) with e = ${show(vapour_Pa, 5)} Pa is ${show(dewPoint_C, 3)} C.`,
    ],
  });
}

/**
 * Pressure of the dry air alone.
 * @param air_Pa total pressure in Pa, greater than zero
 * @param vapour_Pa vapour pressure in Pa, not negative and below the total
 * Source: Dalton's law of partial pressures.
 */
export function dryAirPressure(air_Pa: number, vapour_Pa: number): Result<{ dry_Pa: number } & Worked> {
  const bad = refuseNotPositive({ "air pressure": air_Pa }) ?? refuseUnusable({ "vapour pressure": vapour_Pa });
  if (bad) return bad;
  if (vapour_Pa < 0 || vapour_Pa >= air_Pa) {
    return refuse(`A vapour pressure of ${show(vapour_Pa)} Pa does not fit an air pressure of ${show(air_Pa)} Pa.`);
  }
  const dry_Pa = air_Pa - vapour_Pa;
  return answer({
    dry_Pa,
    steps: [`Dry air: ${show(air_Pa)} - ${show(vapour_Pa, 5)} = ${show(dry_Pa)} Pa.`],
  });
}
