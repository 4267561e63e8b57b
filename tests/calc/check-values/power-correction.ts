import { vapourFromHumidity } from "../../../server/calc/humidity.ts";
import { type CorrectionRule, correctByMakerFormula, correctPower } from "../../../server/calc/power-correction.ts";
import { figures, type PublishedCheck } from "./check.ts";

const inHg_Pa = 3386.388640341;
const base = { computation: "power-correction", group: 4 } as const;

function factor(rule: CorrectionRule, fahrenheit: number, humidity: number, inHg: number): number {
  const air_C = (fahrenheit - 32) / 1.8;
  const vapour_Pa = humidity === 0 ? 0 : figures(vapourFromHumidity(air_C, humidity)).vapour_Pa;
  return figures(correctPower(rule, 400, { air_Pa: inHg * inHg_Pa, vapour_Pa, air_C })).factor;
}

const dyno = "dynomitedyno.com corrected horsepower, repeated at teamzr1.com";

export const checks: PublishedCheck[] = [
  {
    ...base,
    what: "J607 factor at 85 F, 85 %, 28.85 inHg",
    source: dyno,
    kind: "read",
    expected: 1.1005,
    tolerance: 0.001,
    got: () => factor("sae-j607", 85, 85, 28.85),
  },
  {
    ...base,
    what: "J607 factor at 55 F, 35 %, 30.10 inHg",
    source: dyno,
    kind: "read",
    expected: 0.994,
    tolerance: 0.001,
    got: () => factor("sae-j607", 55, 35, 30.1),
  },
  {
    ...base,
    what: "J607 corrected power of 400 hp on the first day, hp",
    source: dyno,
    kind: "read",
    expected: 440,
    tolerance: 0.5,
    got: () => 400 * factor("sae-j607", 85, 85, 28.85),
  },
  {
    ...base,
    what: "J607 factor at its reference, 60 F and 29.92 inHg dry",
    source: `${dyno} (reference conditions)`,
    kind: "read",
    expected: 1,
    tolerance: 1e-9,
    got: () => factor("sae-j607", 60, 0, 29.92),
  },
  {
    ...base,
    what: "J1349 factor at its reference, 77 F and 29.234 inHg dry",
    source: `${dyno} (reference conditions)`,
    kind: "read",
    expected: 1,
    tolerance: 0.0001,
    got: () => factor("sae-j1349-1990", 77, 0, 29.234),
  },
  {
    ...base,
    what: "ISO 1585 factor at its reference, 25 C and 990 mbar dry",
    source: "grokipedia.com page on directive 80/1269/EEC (reference conditions)",
    kind: "read",
    expected: 1,
    tolerance: 1e-12,
    got: () => figures(correctPower("iso-1585", 100, { air_Pa: 99_000, vapour_Pa: 0, air_C: 25 })).factor,
  },
  ...(
    [
      [95, 25, 1.0507],
      [101.325, 15, 0.9528],
      [97, 30, 1.0351],
    ] as const
  ).map(
    ([kPa, celsius, expected]): PublishedCheck => ({
      ...base,
      what: `ISO 1585 factor at ${kPa} kPa dry, ${celsius} C`,
      source: "formula as read, with T = t + 273",
      kind: "computed",
      expected,
      tolerance: 0.00006,
      got: () => figures(correctPower("iso-1585", 100, { air_Pa: kPa * 1000, vapour_Pa: 0, air_C: celsius })).factor,
    }),
  ),
  {
    ...base,
    what: "factor of a marine generator maker's formula at its reference, 77 F and 29.2 inHg dry",
    source: "easymanua.ls, generator manual 28EFKOZD p. 80, prints 1.175 and 0.175",
    kind: "read",
    expected: 1,
    tolerance: 1e-12,
    got: () =>
      figures(
        correctByMakerFormula(
          {
            source: "generator manual",
            dry_Pa: 29.2 * inHg_Pa,
            air_C: 25,
            pressurePower: 1,
            temperaturePower: 0.75,
            loss: 0.175,
            factorFrom: 0.8,
            factorUntil: 1.3,
          },
          20,
          { air_Pa: 29.2 * inHg_Pa, vapour_Pa: 0, air_C: 25 },
        ),
      ).factor,
  },
];
