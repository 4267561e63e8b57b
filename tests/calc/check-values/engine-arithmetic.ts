import {
  compressionRatio,
  displacement,
  meanEffectivePressure,
  meanPistonSpeed,
  specificConsumption,
} from "../../../server/calc/engine-arithmetic.ts";
import { figures, type PublishedCheck } from "./check.ts";

const inch_mm = 25.4;
const cubicInch_cm3 = 16.387064;
const base = { computation: "engine-arithmetic", group: 4 } as const;

const speeds: readonly (readonly [stroke: number, rpm: number, printed: number, tolerance: number, source: string])[] =
  [
    [90, 3000, 9, 1e-9, "motor-car.net, mean piston speed, worked example"],
    [85, 5500, 15.58, 0.005, "kfz-tech.de, formulary, average piston speed"],
    [86, 6500, 18.63, 0.005, "machinecalcs.com piston speed, worked example"],
    [92, 6500, 19.93, 0.005, "calczero.com mean piston speed, default case"],
    [86, 9000, 25.8, 0.005, "calcbee.pages.dev piston speed, table"],
  ];

export const checks: PublishedCheck[] = [
  {
    ...base,
    what: "volume of one cylinder 5.5 x 5.4 in, in3",
    source: "FAA mathematics chapter, flight-mechanic.com, volume of a cylinder",
    kind: "read",
    expected: 128.29,
    tolerance: 0.01,
    got: () => figures(displacement(5.5 * inch_mm, 5.4 * inch_mm, 8)).cylinder_cm3 / cubicInch_cm3,
  },
  {
    ...base,
    what: "displacement of eight cylinders 5.5 x 5.4 in, in3",
    source: "same chapter, which multiplies the rounded volume of one cylinder",
    kind: "read",
    expected: 1026.32,
    // Eight times the half digit that the book lost before it multiplied.
    tolerance: 0.045,
    got: () => figures(displacement(5.5 * inch_mm, 5.4 * inch_mm, 8)).total_cm3 / cubicInch_cm3,
  },
  {
    ...base,
    what: "displacement 4 x 4 in x 6, in3",
    source: "wiseco.com calculators, with 0.7854 for a quarter of pi",
    kind: "read",
    expected: 301.5936,
    tolerance: 0.001,
    got: () => figures(displacement(4 * inch_mm, 4 * inch_mm, 6)).total_cm3 / cubicInch_cm3,
  },
  {
    ...base,
    what: "displacement 4 x 4 in x 6, cm3",
    source: "wiseco.com calculators, with 16.387",
    kind: "read",
    expected: 4942.2142,
    tolerance: 0.01,
    got: () => figures(displacement(4 * inch_mm, 4 * inch_mm, 6)).total_cm3,
  },
  {
    ...base,
    what: "displacement 86 x 86 mm x 4, cm3",
    source: "calcbee.pages.dev piston speed",
    kind: "read",
    expected: 1998.2,
    tolerance: 0.05,
    got: () => figures(displacement(86, 86, 4)).total_cm3,
  },
  {
    ...base,
    what: "compression ratio of 823.7 swept over 100 clearance",
    source: "wiseco.com calculators",
    kind: "read",
    expected: 9.237,
    tolerance: 1e-9,
    got: () => figures(compressionRatio(823.7, 100)).ratio,
  },
  ...speeds.map(
    ([stroke, rpm, printed, tolerance, source]): PublishedCheck => ({
      ...base,
      what: `mean piston speed of ${stroke} mm at ${rpm} rpm, m/s`,
      source,
      kind: "read",
      expected: printed,
      tolerance,
      got: () => figures(meanPistonSpeed(stroke, rpm)).speed_mps,
    }),
  ),
  {
    ...base,
    what: "mean piston speed of 92 mm at 6500 rpm, ft/min",
    source: "calczero.com mean piston speed, default case",
    kind: "read",
    expected: 3924,
    tolerance: 0.5,
    got: () => figures(meanPistonSpeed(92, 6500)).speed_ftpmin,
  },
  {
    ...base,
    what: "mean effective pressure of 250 N.m from 2000 cm3, kPa",
    source: "onlycalculators.com BMEP (its power figure is misprinted and not used)",
    kind: "read",
    expected: 1570.8,
    tolerance: 0.05,
    got: () => figures(meanEffectivePressure(250, 2000)).pressure_kPa,
  },
  {
    ...base,
    what: "g/kWh in one lb/(hp h)",
    source: "en.wikipedia.org, brake-specific fuel consumption",
    kind: "read",
    expected: 608.277,
    tolerance: 0.0005,
    got: () => {
      const { specific_gpkWh, specific_lbphph } = figures(specificConsumption(30, 100));
      return specific_gpkWh / specific_lbphph;
    },
  },
  {
    ...base,
    what: "g/kWh in one lb/(hp h), ten digits",
    source: "GNU units 2.22",
    kind: "oracle-run",
    expected: 608.2773878,
    tolerance: 0.00000005,
    got: () => {
      const { specific_gpkWh, specific_lbphph } = figures(specificConsumption(30, 100));
      return specific_gpkWh / specific_lbphph;
    },
  },
];
