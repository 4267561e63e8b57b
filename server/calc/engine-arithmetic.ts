/**
 * Plain engine arithmetic: displacement, compression ratio, mean piston speed, mean effective pressure, specific
 * consumption.
 */
import { show } from "./figures.ts";
import { answer, type Result, refuse, refuseNotPositive, type Worked } from "./result.ts";

/** Grams per kilowatt hour in one pound per horsepower hour: 453.59237 g over 0.74569987158227 kW. */
const gramsPerkWhInPoundPerHorsepowerHour = 453.59237 / 0.74569987158227;

/**
 * Displacement from bore, stroke and number of cylinders.
 * @param bore_mm bore in mm
 * @param stroke_mm stroke in mm
 * @param cylinders whole number of cylinders, 1 or more
 * @returns volume of one cylinder and of the engine in cm3
 * Source: volume of a cylinder.
 */
export function displacement(
  bore_mm: number,
  stroke_mm: number,
  cylinders: number,
): Result<{ cylinder_cm3: number; total_cm3: number } & Worked> {
  const bad = refuseNotPositive({ bore: bore_mm, stroke: stroke_mm, "number of cylinders": cylinders });
  if (bad) return bad;
  if (!Number.isInteger(cylinders)) return refuse(`The number of cylinders is not a whole number: ${show(cylinders)}.`);
  const cylinder_cm3 = ((Math.PI / 4) * bore_mm * bore_mm * stroke_mm) / 1000;
  const total_cm3 = cylinder_cm3 * cylinders;
  return answer({
    cylinder_cm3,
    total_cm3,
    steps: [
      `One cylinder: pi / 4 x ${show(bore_mm)}^2 x ${show(stroke_mm)} mm3 = ${show(cylinder_cm3)} cm3.`,
      `Engine: ${cylinders} x ${show(cylinder_cm3)} = ${show(total_cm3)} cm3.`,
    ],
  });
}

/**
 * Compression ratio from measured volumes.
 * @param swept_cm3 volume swept by the piston, cm3
 * @param clearance_cm3 volume left above the piston at top dead centre (poured, with head, gasket and piston), cm3
 * Source: (swept + clearance) / clearance.
 */
export function compressionRatio(swept_cm3: number, clearance_cm3: number): Result<{ ratio: number } & Worked> {
  const bad = refuseNotPositive({ "swept volume": swept_cm3, "clearance volume": clearance_cm3 });
  if (bad) return bad;
  const ratio = (swept_cm3 + clearance_cm3) / clearance_cm3;
  return answer({
    ratio,
    steps: [`Ratio: (${show(swept_cm3)} + ${show(clearance_cm3)}) / ${show(clearance_cm3)} = ${show(ratio, 4)} to 1.`],
  });
}

/**
 * Mean piston speed.
 * @param stroke_mm stroke in mm
 * @param speed_rpm crankshaft speed in rpm
 * @returns speed in m/s and ft/min
 * Source: two strokes a revolution.
 */
export function meanPistonSpeed(
  stroke_mm: number,
  speed_rpm: number,
): Result<{ speed_mps: number; speed_ftpmin: number } & Worked> {
  const bad = refuseNotPositive({ stroke: stroke_mm, speed: speed_rpm });
  if (bad) return bad;
  const speed_mps = (stroke_mm * speed_rpm) / 30_000;
  return answer({
    speed_mps,
    speed_ftpmin: (speed_mps * 60) / 0.3048,
    steps: [
      `Mean piston speed: 2 x ${show(stroke_mm)} mm x ${show(speed_rpm)} rpm / 60000 = ${show(speed_mps, 4)} m/s.`,
    ],
  });
}

/**
 * Brake mean effective pressure.
 * @param torque_Nm torque at the crankshaft in N.m
 * @param displacement_cm3 displacement of the engine in cm3
 * @param cycle "four-stroke" (the default) or "two-stroke"
 * @returns pressure in kPa
 * Source: work of a cycle over displacement; 4 pi T / V for four strokes, 2 pi T / V for two.
 */
export function meanEffectivePressure(
  torque_Nm: number,
  displacement_cm3: number,
  cycle: "four-stroke" | "two-stroke" = "four-stroke",
): Result<{ pressure_kPa: number } & Worked> {
  const bad = refuseNotPositive({ torque: torque_Nm, displacement: displacement_cm3 });
  if (bad) return bad;
  const turns = cycle === "four-stroke" ? 4 : 2;
  const pressure_kPa = (turns * Math.PI * torque_Nm * 1000) / displacement_cm3;
  return answer({
    pressure_kPa,
    steps: [
      `Mean effective pressure, ${cycle}: ${turns} pi x ${show(torque_Nm)} N.m / ${show(displacement_cm3)} cm3 = ${show(pressure_kPa, 4)} kPa.`,
    ],
  });
}

/**
 * Brake specific fuel consumption.
 * @param fuel_kgph fuel flow in kg/h
 * @param power_kW brake power in kW, as measured (a corrected power gives a figure that nobody burnt)
 * @returns consumption in g/kWh and lb/(hp h)
 * Source: fuel flow over power; 1 lb/(hp h) = 608.277 g/kWh.
 */
export function specificConsumption(
  fuel_kgph: number,
  power_kW: number,
): Result<{ specific_gpkWh: number; specific_lbphph: number } & Worked> {
  const bad = refuseNotPositive({ "fuel flow": fuel_kgph, power: power_kW });
  if (bad) return bad;
  const specific_gpkWh = (fuel_kgph * 1000) / power_kW;
  const specific_lbphph = specific_gpkWh / gramsPerkWhInPoundPerHorsepowerHour;
  return answer({
    specific_gpkWh,
    specific_lbphph,
    steps: [
      `Specific consumption: ${show(fuel_kgph, 4)} kg/h / ${show(power_kW, 4)} kW = ${show(specific_gpkWh, 4)} g/kWh (${show(specific_lbphph, 3)} lb/(hp.h)).`,
    ],
  });
}
