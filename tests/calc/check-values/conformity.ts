import { combinedUncertainty, formulaUncertainty } from "../../../server/calc/combined-uncertainty.ts";
import { conformanceProbability } from "../../../server/calc/conformance-probability.ts";
import type { Decision } from "../../../server/calc/guard-band.ts";
import { guardBand } from "../../../server/calc/guard-band.ts";
import { normalBelow } from "../../../server/calc/normal-distribution.ts";
import { sizeAtReference } from "../../../server/calc/reference-temperature.ts";
import { uncertaintyRatio } from "../../../server/calc/uncertainty-ratio.ts";
import type { PublishedCheck } from "./check.ts";
import { figures } from "./check.ts";

const group = 2;
const scipy = "SciPy 1.17.1, norm.cdf";
const table = "table of the standard normal distribution, drfurtado.github.io/sms/appendix-statistical-tables.html";
const tail = "table of the standard normal distribution, math.com/tables/stat/distributions/z-dist.htm";
const guard =
  "page on ISO 14253-1 with upper limit 20.05 mm, U 0.015 mm, reading 20.040 mm (misty-dune copy at 35.153.202.174)";
const ratioTable = "codingace.net, test uncertainty ratio, example data table";
const npl = "NPL, How do I correct lengths to 20 C (FAQ - Length): 500.035 mm at 23.7 C";

/** A decision as a figure, so that it can stand in the table: 1 conforming, 0 not proven, -1 not conforming. */
const decisionFigure: Readonly<Record<Decision, number>> = { conforming: 1, "not proven": 0, "not conforming": -1 };

function check(
  computation: string,
  what: string,
  source: string,
  kind: PublishedCheck["kind"],
  expected: number,
  tolerance: number,
  got: () => number,
): PublishedCheck {
  return { computation, group, what, source, kind, expected, tolerance, got };
}

const decided = (reading: number) => () =>
  decisionFigure[figures(guardBand(reading, { upper: 20.05 }, 0.015, "guarded")).decision];
const probability = (y: number, u: number, lower: number | undefined, upper: number) => () =>
  figures(conformanceProbability(y, u, { lower, upper })).probability;
const ratio = (half: number, uncertainty: number) => () => figures(uncertaintyRatio(-half, half, uncertainty)).ratio;
const rods = () =>
  figures(formulaUncertainty("+", { value: 12.3, expandedUncertainty: 0.2 }, { value: 8.7, expandedUncertainty: 0.3 }));

export const checks: PublishedCheck[] = [
  check(
    "guard-band",
    "greatest reading that proves conformity, mm",
    guard,
    "read",
    20.035,
    0,
    () => figures(guardBand(20, { upper: 20.05 }, 0.015, "guarded")).acceptance.upper ?? Number.NaN,
  ),
  check("guard-band", "reading 20.040 is not proven (0)", guard, "read", 0, 0, decided(20.04)),
  check(
    "guard-band",
    "reading 20.065, at the limit and U, is not proven (0)",
    "boundary worked out from the rule that was read",
    "computed",
    0,
    0,
    decided(20.065),
  ),
  check("normal-distribution", "below z = 1.00", table, "read", 0.8413, 0.00005, () => normalBelow(1)),
  check("normal-distribution", "below z = 0.67", table, "read", 0.7486, 0.00005, () => normalBelow(0.67)),
  check("normal-distribution", "below z = 1.40", table, "read", 0.9192, 0.00005, () => normalBelow(1.4)),
  check("normal-distribution", "below z = -2.50", tail, "read", 0.00621, 0.000005, () => normalBelow(-2.5)),
  check("normal-distribution", "below z = -3.50", tail, "read", 0.00023, 0.000005, () => normalBelow(-3.5)),
  check("normal-distribution", "below z = 1.96", scipy, "oracle-run", 0.9750021048517795, 1e-15, () =>
    normalBelow(1.96),
  ),
  check("normal-distribution", "below z = -2.9999 (series)", scipy, "oracle-run", 0.001350341282954925, 1e-15, () =>
    normalBelow(-2.9999),
  ),
  check("normal-distribution", "below z = -3 (fraction)", scipy, "oracle-run", 0.0013498980316300933, 1e-17, () =>
    normalBelow(-3),
  ),
  check("normal-distribution", "below z = -8", scipy, "oracle-run", 6.22096057427174e-16, 1e-28, () => normalBelow(-8)),
  check(
    "conformance-probability",
    "13.6, u 1.8, limits 12.5..16.3 (inputs of JCGM 106 clause 7.4)",
    scipy,
    "oracle-run",
    0.6626297864953079,
    1e-14,
    probability(13.6, 1.8, 12.5, 16.3),
  ),
  check(
    "conformance-probability",
    "-5.47, u 0.05, upper limit -5.40",
    scipy,
    "oracle-run",
    0.9192433407662273,
    1e-13,
    probability(-5.47, 0.05, undefined, -5.4),
  ),
  check(
    "conformance-probability",
    "98.0205 mm, u 0.0015 mm, limits 98.000..98.022",
    scipy,
    "oracle-run",
    0.8413447460696983,
    1e-10,
    probability(98.0205, 0.0015, 98, 98.022),
  ),
  check(
    "conformance-probability",
    "13.6, u 1.8, limits 12.5..16.3",
    "JCGM 106:2012 clause 7.4, recalled",
    "memory",
    0.66,
    0.005,
    probability(13.6, 1.8, 12.5, 16.3),
  ),
  check(
    "uncertainty-ratio",
    "0.20 bar either way, U 0.0538 bar",
    "atlasofengineering.com, test uncertainty ratio",
    "read",
    3.72,
    0.005,
    ratio(0.2, 0.0538),
  ),
  check(
    "uncertainty-ratio",
    "9.995..10.005 V, U 0.0012 V",
    "isobudgets.com, calculate test uncertainty ratio",
    "read",
    4.2,
    0.05,
    () => figures(uncertaintyRatio(9.995, 10.005, 0.0012)).ratio,
  ),
  check("uncertainty-ratio", "0.100 V either way, U 0.0250 V", ratioTable, "read", 4, 0, ratio(0.1, 0.025)),
  check("uncertainty-ratio", "0.200 psi either way, U 0.0400 psi", ratioTable, "read", 5, 0, ratio(0.2, 0.04)),
  check("uncertainty-ratio", "0.050 mm either way, U 0.0200 mm", ratioTable, "read", 2.5, 0, ratio(0.05, 0.02)),
  check(
    "combined-uncertainty",
    "two rods 12.3 and 8.7 cm, uncertainty of the sum, cm",
    "uncertainty-propagation-calculator.vercel.app, addition",
    "read",
    0.4,
    0.05,
    () => rods().expanded,
  ),
  check(
    "combined-uncertainty",
    "two rods 12.3 and 8.7 cm, sum, cm",
    "uncertainty-propagation-calculator.vercel.app, addition",
    "read",
    21,
    1e-12,
    () => rods().value,
  ),
  check(
    "combined-uncertainty",
    "viscosity reference: 1.44 x root of 0.19 and 0.22/2 squared, %",
    "ASTM quality practice, A4.5 worked example (ilovetranslation.com copy)",
    "read",
    0.32,
    0.005,
    () =>
      figures(
        combinedUncertainty(
          [
            { name: "site", expandedUncertainty: 0.19, coverageFactor: 1, sensitivity: 1 },
            { name: "reference", expandedUncertainty: 0.22, coverageFactor: 2, sensitivity: 1 },
          ],
          1.44,
        ),
      ).expanded,
  ),
  check(
    "reference-temperature",
    "steel rod of 500.035 mm at 23.7 C, 11.7 um/(m K), size at 20 C, mm",
    npl,
    "read",
    500.013,
    0.0005,
    () =>
      figures(
        sizeAtReference({
          reading_mm: 500.035,
          partTemperature_C: 23.7,
          partExpansion_um_per_m_K: 11.7,
          instrumentTemperature_C: 20,
          instrumentExpansion_um_per_m_K: 0,
        }),
      ).size_mm,
  ),
  check(
    "reference-temperature",
    "gauge block of 100 mm, 2 K warm, 11.5 um/(m K), correction, um",
    "cal75 metrology page",
    "read",
    -2.3,
    0.001,
    () =>
      1000 *
      figures(
        sizeAtReference({
          reading_mm: 100,
          partTemperature_C: 22,
          partExpansion_um_per_m_K: 11.5,
          instrumentTemperature_C: 20,
          instrumentExpansion_um_per_m_K: 0,
        }),
      ).correction_mm,
  ),
];
