/** The air of a run and its power lines, worked out step by step. Nothing is corrected unless the engine type names a rule. */
import { type BrakePower, brakePowerFromArm, brakePowerFromClub, brakePowerFromTorque } from "../calc/brake-power.ts";
import { meanEffectivePressure, meanPistonSpeed, specificConsumption } from "../calc/engine-arithmetic.ts";
import { fuelFlow } from "../calc/fuel-flow.ts";
import { vapourFromHumidity } from "../calc/humidity.ts";
import { correctByMakerFormula, correctPower } from "../calc/power-correction.ts";
import { type Refused, type Result, refuse } from "../calc/result.ts";
import { airDensity, densityAltitude, pressureAltitude } from "../calc/standard-atmosphere.ts";
import type { Ask } from "../checking/ask.ts";
import type { EngineTypeBlock, PowerLine, StandBlock, WorkBlock } from "../facts/types.ts";
import { convertNumber, type Measure } from "../quantity/compare.ts";
import { findUnit } from "../quantity/units.ts";
import { displacementOf } from "./engine-figures.ts";
import { typeOfJob } from "./run-context.ts";

/** A measure as a double in a unit; undefined where it is missing or of another dimension. */
function inUnit(measure: Measure | undefined, spelling: string): number | undefined {
  const unit = findUnit(spelling);
  return measure && unit && measure.unit.dimension === unit.dimension
    ? convertNumber(measure.value, measure.unit, unit)
    : undefined;
}

export interface StandAir {
  readonly air_C: number;
  readonly air_Pa: number;
  readonly vapour_Pa: number;
  readonly density_kgpm3: number;
  readonly steps: readonly string[];
}

/**
 * Density, pressure altitude and density altitude of the air that a run states. Pressure is that at the stand, not one reduced to sea level.
 * @returns a refusal where temperature, pressure or humidity is missing: none of them is assumed
 */
export function standAir(run: Pick<WorkBlock, "air">): Result<StandAir> {
  const line = run.air.find((one) => one.temperature && one.pressure) ?? run.air[0];
  if (!line) return refuse("The run has no air line, so its air is not known.");
  const air_C = inUnit(line.temperature, "C");
  const air_Pa = inUnit(line.pressure, "Pa");
  const humidity_percent = inUnit(line.humidity, "%");
  const missing = [
    air_C === undefined && "temperature",
    air_Pa === undefined && "pressure",
    humidity_percent === undefined && "humidity",
  ].filter((one) => one !== false);
  if (air_C === undefined || air_Pa === undefined || humidity_percent === undefined)
    return refuse(`The air line of the run does not state ${missing.join(", ")}.`);
  const vapour = vapourFromHumidity(air_C, humidity_percent);
  if (!vapour.ok) return vapour;
  const density = airDensity(air_Pa, air_C, vapour.vapour_Pa);
  if (!density.ok) return density;
  const pressure = pressureAltitude(air_Pa);
  const altitude = densityAltitude(air_Pa, air_C, vapour.vapour_Pa);
  // The last two are for the reader: what they refuse does not stop a power from being worked out.
  const said = (one: Result<{ readonly steps: readonly string[] }>): readonly string[] =>
    one.ok ? one.steps : [one.refused];
  return {
    ok: true,
    air_C,
    air_Pa,
    vapour_Pa: vapour.vapour_Pa,
    density_kgpm3: density.density_kgpm3,
    steps: [...new Set([...vapour.steps, ...density.steps, ...said(pressure), ...said(altitude)])],
  };
}

function measured(line: PowerLine, stand: StandBlock | undefined, air: Result<StandAir>): Result<BrakePower> {
  const speed_rpm = inUnit(line.speed, "rpm");
  if (speed_rpm === undefined) return refuse("The speed is not one of rotation.");
  if (line.club !== "") {
    const club = stand?.clubs.find((one) => one.name === line.club);
    if (!club) return refuse(`The stand ${stand?.name ?? "of this run"} has no club ${line.club}.`);
    if (!air.ok) return refuse(`A club needs the density of the air: ${air.refused}`);
    const points = club.points.flatMap((point) => {
      const at_rpm = inUnit(point.speed, "rpm");
      const power_kW = inUnit(point.power, "kW");
      return at_rpm === undefined || power_kW === undefined ? [] : [{ speed_rpm: at_rpm, power_kW }];
    });
    const from_rpm = inUnit(club.speeds.low, "rpm");
    const until_rpm = inUnit(club.speeds.high, "rpm");
    return brakePowerFromClub(
      {
        density_kgpm3: inUnit(club.density, "kg/m3") ?? Number.NaN,
        points,
        ...(from_rpm === undefined ? {} : { validFrom_rpm: from_rpm }),
        ...(until_rpm === undefined ? {} : { validUntil_rpm: until_rpm }),
      },
      speed_rpm,
      air.density_kgpm3,
    );
  }
  const torque_Nm = inUnit(line.torque, "N.m");
  if (torque_Nm !== undefined) return brakePowerFromTorque(torque_Nm, speed_rpm);
  const arm_m = inUnit(line.arm, "m");
  const force_N = inUnit(line.force, "N");
  if (arm_m === undefined || force_N === undefined) return refuse("Arm and force are not both written.");
  return brakePowerFromArm(arm_m, force_N, speed_rpm);
}

/** Power corrected as the type says; a power of no rule stands as measured. */
function corrected(
  type: EngineTypeBlock | undefined,
  power_kW: number,
  air: Result<StandAir>,
): Result<{ readonly power_kW: number; readonly steps: readonly string[] }> {
  const rule = type?.correction?.rule ?? "none";
  if (rule === "none")
    return correctPower("none", power_kW, { air_Pa: Number.NaN, vapour_Pa: Number.NaN, air_C: Number.NaN });
  if (!air.ok) return refuse(`No corrected power: ${air.refused}`);
  const { maker } = type?.correction ?? {};
  if (rule !== "maker") return correctPower(rule, power_kW, air);
  const dry_Pa = inUnit(maker?.dry, "Pa");
  const air_C = inUnit(maker?.air, "C");
  if (!maker || dry_Pa === undefined || air_C === undefined) return refuse("The maker's formula is not written whole.");
  return correctByMakerFormula(
    {
      source: maker.source,
      dry_Pa,
      air_C,
      pressurePower: maker.pressurePower,
      temperaturePower: maker.temperaturePower,
      loss: maker.loss,
      factorFrom: maker.from,
      factorUntil: maker.until,
    },
    power_kW,
    air,
  );
}

/** Fuel per hour in kg: as written, or from a volume and the density that the line states. */
function fuel_kgph(line: PowerLine): Result<{ readonly flow_kgph: number; readonly steps: readonly string[] }> {
  const mass_kgph = inUnit(line.fuel, "kg/h");
  if (mass_kgph !== undefined) return { ok: true, flow_kgph: mass_kgph, steps: [] };
  const volume_Lph = inUnit(line.fuel, "L/h");
  const density_kgpL = inUnit(line.density, "kg/L");
  if (volume_Lph === undefined) return refuse("The fuel is neither a mass nor a volume in an hour.");
  if (density_kgpL === undefined)
    return refuse("The fuel is a volume and its density is not written, so no specific consumption follows.");
  return fuelFlow(volume_Lph, 1, density_kgpL);
}

export interface StandPower {
  /** Line of the run. */
  readonly at: number;
  readonly power: Result<BrakePower>;
  /** Undefined where there is no power. */
  readonly corrected: ReturnType<typeof corrected> | undefined;
  /** Whether the type names a rule of correction. */
  readonly isCorrected: boolean;
  /** Everything that follows, in order; refusals in their own words. */
  readonly steps: readonly string[];
  /** What was asked for by the line and is not stated, in the words of the refusals. */
  readonly refused: readonly string[];
}

/** One power line, worked out. */
export function standPower(ask: Ask, run: WorkBlock, line: PowerLine): StandPower {
  const type = typeOfJob(ask, run.job);
  const stand = run.stand === "" ? undefined : ask.stand(run.stand);
  const air = standAir(run);
  const power = measured(line, stand, air);
  const steps: string[] = [];
  const refused: string[] = [];
  const take = (one: { readonly ok: true; readonly steps: readonly string[] } | Refused): void => {
    if (one.ok) steps.push(...one.steps);
    else {
      steps.push(one.refused);
      refused.push(one.refused);
    }
  };
  take(power);
  const isCorrected = (type?.correction?.rule ?? "none") !== "none";
  if (!power.ok) return { at: line.at, power, corrected: undefined, isCorrected, steps, refused };
  const after = corrected(type, power.power_kW, air);
  take(after);
  const total_cm3 = displacementOf(type);
  if (total_cm3 !== undefined && power.torque_Nm > 0) take(meanEffectivePressure(power.torque_Nm, total_cm3));
  const stroke_mm = inUnit(type?.stroke, "mm");
  const speed_rpm = inUnit(line.speed, "rpm");
  if (stroke_mm !== undefined && speed_rpm !== undefined) take(meanPistonSpeed(stroke_mm, speed_rpm));
  if (line.fuel) {
    const flow = fuel_kgph(line);
    take(flow);
    if (flow.ok) take(specificConsumption(flow.flow_kgph, power.power_kW));
  }
  return { at: line.at, power, corrected: after, isCorrected, steps, refused };
}
