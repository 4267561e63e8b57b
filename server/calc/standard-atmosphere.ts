/**
 * The standard atmosphere up to the tropopause, pressure altitude and density altitude.
 */
import { show } from "./figures.ts";
import { answer, type Result, refuse, refuseNotPositive, refuseUnusable, type Worked } from "./result.ts";

const seaLevel_K = 288.15;
const seaLevel_Pa = 101_325;
const lapse_Kpm = 0.0065;
const gravity_mps2 = 9.80665;
/** Specific gas constant of dry air of ISO 2533, J/(kg K). */
const dryAir_JpkgK = 287.05287;
const exponent = gravity_mps2 / (dryAir_JpkgK * lapse_Kpm);
const metresPerFoot = 0.3048;
const lowest_m = -2000;
const tropopause_m = 11_000;

export interface StandardAir extends Worked {
  pressure_Pa: number;
  temperature_K: number;
  density_kgpm3: number;
}

function pressureAt(height_m: number): number {
  return seaLevel_Pa * (1 - (lapse_Kpm * height_m) / seaLevel_K) ** exponent;
}

function outsideLayer(name: string, height_m: number) {
  if (height_m >= lowest_m && height_m <= tropopause_m) return undefined;
  return refuse(
    `A ${name} of ${show(height_m, 5)} m is outside ${lowest_m} to ${tropopause_m} m, the layer that is computed here.`,
  );
}

/**
 * Standard air at a height.
 * @param height_m geopotential height in m, -2000 to 11 000
 * @returns pressure (Pa), temperature (K) and density (kg/m3)
 * Source: ISO 2533 and the 1976 US standard atmosphere (same law below 11 km), constants of ISO 2533.
 */
export function standardAir(height_m: number): Result<StandardAir> {
  const bad = refuseUnusable({ height: height_m }) ?? outsideLayer("height", height_m);
  if (bad) return bad;
  const temperature_K = seaLevel_K - lapse_Kpm * height_m;
  const pressure_Pa = pressureAt(height_m);
  const density_kgpm3 = pressure_Pa / (dryAir_JpkgK * temperature_K);
  return answer({
    pressure_Pa,
    temperature_K,
    density_kgpm3,
    steps: [
      `Temperature: 288.15 K - 0.0065 K/m x ${show(height_m)} m = ${show(temperature_K, 5)} K.`,
      `Pressure: 101325 Pa x (${show(temperature_K, 5)} / 288.15)^5.25588 = ${show(pressure_Pa, 6)} Pa.`,
      `Density: ${show(pressure_Pa, 6)} / (287.05287 x ${show(temperature_K, 5)}) = ${show(density_kgpm3, 5)} kg/m3.`,
    ],
  });
}

/**
 * Pressure altitude: the height at which the standard atmosphere has this pressure.
 * @param air_Pa pressure of the air at the place itself (not reduced to sea level), Pa
 * @returns height in m and ft, or a refusal when it lies outside -2000 to 11 000 m
 * Source: ISO 2533, inverse of the pressure law.
 */
export function pressureAltitude(air_Pa: number): Result<{ altitude_m: number; altitude_ft: number } & Worked> {
  const bad = refuseNotPositive({ "air pressure": air_Pa });
  if (bad) return bad;
  const altitude_m = (seaLevel_K / lapse_Kpm) * (1 - (air_Pa / seaLevel_Pa) ** (1 / exponent));
  const outside = outsideLayer("pressure altitude", altitude_m);
  if (outside) return outside;
  const altitude_ft = altitude_m / metresPerFoot;
  return answer({
    altitude_m,
    altitude_ft,
    steps: [
      `Pressure altitude: 44330.8 m x (1 - (${show(air_Pa)} / 101325)^0.190263) = ${show(altitude_m, 4)} m (${show(altitude_ft, 4)} ft).`,
    ],
  });
}

/**
 * Pressure at the place from an altimeter setting (QNH).
 * @param setting_Pa altimeter setting in Pa, 85 000 to 110 000
 * @param elevation_m elevation of the place in m, -500 to 5000
 * @returns pressure at the place in Pa
 * Source: the altimeter's own law, ISO 2533: the setting is the sea-level pressure of the standard column through the place.
 */
export function stationPressure(setting_Pa: number, elevation_m: number): Result<{ air_Pa: number } & Worked> {
  const bad = refuseUnusable({ "altimeter setting": setting_Pa, elevation: elevation_m });
  if (bad) return bad;
  if (setting_Pa < 85_000 || setting_Pa > 110_000) {
    return refuse(`An altimeter setting of ${show(setting_Pa / 100)} hPa is outside 850 to 1100 hPa.`);
  }
  if (elevation_m < -500 || elevation_m > 5000) {
    return refuse(`An elevation of ${show(elevation_m)} m is outside -500 to 5000 m.`);
  }
  const settingHeight_m = (seaLevel_K / lapse_Kpm) * (1 - (setting_Pa / seaLevel_Pa) ** (1 / exponent));
  const air_Pa = pressureAt(settingHeight_m + elevation_m);
  return answer({
    air_Pa,
    steps: [
      `The setting of ${show(setting_Pa / 100)} hPa stands at ${show(settingHeight_m, 4)} m in the standard atmosphere.`,
      `Pressure at ${show(settingHeight_m, 4)} + ${show(elevation_m)} m: ${show(air_Pa / 100, 5)} hPa.`,
    ],
  });
}

/**
 * Density of moist air.
 * @param air_Pa total pressure in Pa
 * @param air_C air temperature in C, -80 to 80
 * @param vapour_Pa vapour pressure in Pa, 0 for dry air
 * @returns density in kg/m3
 * Source: ideal gas law for the two parts; molar mass ratio of water to dry air 0.62198.
 */
export function airDensity(
  air_Pa: number,
  air_C: number,
  vapour_Pa = 0,
): Result<{ density_kgpm3: number; virtual_K: number } & Worked> {
  const bad =
    refuseNotPositive({ "air pressure": air_Pa }) ??
    refuseUnusable({ "air temperature": air_C, "vapour pressure": vapour_Pa });
  if (bad) return bad;
  if (air_C < -80 || air_C > 80) return refuse(`An air temperature of ${show(air_C)} C is outside -80 to 80 C.`);
  if (vapour_Pa < 0 || vapour_Pa >= air_Pa) {
    return refuse(`A vapour pressure of ${show(vapour_Pa)} Pa does not fit an air pressure of ${show(air_Pa)} Pa.`);
  }
  const virtual_K = (air_C + 273.15) / (1 - (vapour_Pa / air_Pa) * (1 - 0.62198));
  const density_kgpm3 = air_Pa / (dryAir_JpkgK * virtual_K);
  return answer({
    density_kgpm3,
    virtual_K,
    steps: [
      `Virtual temperature: ${show(air_C + 273.15, 5)} K / (1 - ${show(vapour_Pa / air_Pa, 4)} x 0.37802) = ${show(virtual_K, 5)} K.`,
      `Density: ${show(air_Pa)} / (287.05287 x ${show(virtual_K, 5)}) = ${show(density_kgpm3, 5)} kg/m3.`,
    ],
  });
}

/**
 * Density altitude: the height at which the standard atmosphere has the density of this air.
 * @param air_Pa pressure at the place in Pa
 * @param air_C air temperature in C, -80 to 80
 * @param vapour_Pa vapour pressure in Pa; moist air is lighter, so humidity raises the density altitude
 * @returns height in m and ft, or a refusal when it lies outside -2000 to 11 000 m
 * Source: ISO 2533, inverse of the density law.
 */
export function densityAltitude(
  air_Pa: number,
  air_C: number,
  vapour_Pa = 0,
): Result<{ altitude_m: number; altitude_ft: number; density_kgpm3: number } & Worked> {
  const density = airDensity(air_Pa, air_C, vapour_Pa);
  if (!density.ok) return density;
  const seaLevelDensity = seaLevel_Pa / (dryAir_JpkgK * seaLevel_K);
  const ratio = density.density_kgpm3 / seaLevelDensity;
  const altitude_m = (seaLevel_K / lapse_Kpm) * (1 - ratio ** (1 / (exponent - 1)));
  const outside = outsideLayer("density altitude", altitude_m);
  if (outside) return outside;
  const altitude_ft = altitude_m / metresPerFoot;
  return answer({
    altitude_m,
    altitude_ft,
    density_kgpm3: density.density_kgpm3,
    steps: [
      ...density.steps,
      `Density altitude: 44330.8 m x (1 - (${show(density.density_kgpm3, 5)} / 1.225)^0.234969) = ${show(altitude_m, 4)} m (${show(altitude_ft, 4)} ft).`,
    ],
  });
}

/**
 * Pressure and density altitude by the pilot's rule of thumb. The true figures are those of `pressureAltitude` and
 * `densityAltitude`; this one differs from them by a few hundred feet on a hot day and is only for comparing notes.
 * @param elevation_ft elevation in ft, -1000 to 15 000
 * @param setting_hPa altimeter setting in hPa, 850 to 1100
 * @param air_C air temperature in C, -60 to 60
 * Source: PA = elevation + 30 (1013 - QNH); DA = PA + 120 (OAT - standard temperature), standard temperature 15 C less
 *   2 C per 1000 ft, rounded to whole degrees; training pages aerotheory.com.au and pilotpracticeexams.com.
 */
export function altitudeByRuleOfThumb(
  elevation_ft: number,
  setting_hPa: number,
  air_C: number,
): Result<{ pressureAltitude_ft: number; densityAltitude_ft: number } & Worked> {
  const bad = refuseUnusable({ elevation: elevation_ft, "altimeter setting": setting_hPa, "air temperature": air_C });
  if (bad) return bad;
  if (elevation_ft < -1000 || elevation_ft > 15_000) {
    return refuse(`An elevation of ${show(elevation_ft)} ft is outside -1000 to 15000 ft.`);
  }
  if (setting_hPa < 850 || setting_hPa > 1100) {
    return refuse(`An altimeter setting of ${show(setting_hPa)} hPa is outside 850 to 1100 hPa.`);
  }
  if (air_C < -60 || air_C > 60) return refuse(`An air temperature of ${show(air_C)} C is outside -60 to 60 C.`);
  const pressureAltitude_ft = elevation_ft + 30 * (1013 - setting_hPa);
  const standard_C = Math.round(15 - (2 * pressureAltitude_ft) / 1000);
  const densityAltitude_ft = pressureAltitude_ft + 120 * (air_C - standard_C);
  return answer({
    pressureAltitude_ft,
    densityAltitude_ft,
    steps: [
      `Pressure altitude, rule of thumb: ${show(elevation_ft)} + 30 x (1013 - ${show(setting_hPa)}) = ${show(pressureAltitude_ft)} ft.`,
      `Standard temperature there, rounded: ${standard_C} C.`,
      `Density altitude, rule of thumb: ${show(pressureAltitude_ft)} + 120 x (${show(air_C)} - ${standard_C}) = ${show(densityAltitude_ft)} ft.`,
    ],
  });
}
