import { clearance, clearanceRange } from "../../../server/calc/clearance.ts";
import { linearFit } from "../../../server/calc/linear-fit.ts";
import { studentT } from "../../../server/calc/student-t.ts";
import { wearForecast, wearRate } from "../../../server/calc/wear.ts";
import type { PublishedCheck, UncheckedComputation } from "./check.ts";
import { figures } from "./check.ts";

const group = 1;
const tTable = "NIST/SEMATECH e-Handbook table of Student's t, copy at pdfcoffee.com (student-t-distribution-table)";
const norris =
  "NIST StRD, data set Norris, certified values (itl.nist.gov/div898/strd/lls), read in public test suites";
const pocket = "HP 48gII user's guide p. 18-54, example 1 (manualshive.com)";
const grades = "wizedu.com question 656176, worked regression of nine grades";
const scipy = "SciPy 1.17.1";
const bush = "Machine Drawing p. 259, bush between housing and shaft (fliphtml5.com/lnym/mzww)";

/** NIST's Norris data set as [y, x]: readings of two ozone monitors, in the public domain. */
const norrisData: readonly (readonly [number, number])[] = [
  [0.1, 0.2],
  [338.8, 337.4],
  [118.1, 118.2],
  [888.0, 884.6],
  [9.2, 10.1],
  [228.1, 226.5],
  [668.5, 666.3],
  [998.5, 996.3],
  [449.1, 448.6],
  [778.9, 777.0],
  [559.2, 558.2],
  [0.3, 0.4],
  [0.1, 0.6],
  [778.1, 775.5],
  [668.8, 666.9],
  [339.3, 338.0],
  [448.9, 447.5],
  [10.8, 11.6],
  [557.7, 556.0],
  [228.3, 228.1],
  [998.0, 995.8],
  [888.8, 887.6],
  [119.6, 120.2],
  [0.3, 0.3],
  [0.6, 0.3],
  [557.6, 556.8],
  [339.3, 339.1],
  [888.0, 887.2],
  [998.5, 999.0],
  [778.9, 779.0],
  [10.2, 11.1],
  [117.6, 118.3],
  [228.9, 229.2],
  [668.4, 669.1],
  [449.2, 448.9],
  [0.2, 0.5],
];

const norrisFit = () => figures(linearFit(norrisData.map(([y, x]) => ({ x, y }))));
const pocketFit = () =>
  figures(
    linearFit([
      { x: 2, y: 5.5 },
      { x: 2.5, y: 7.2 },
      { x: 3, y: 9.4 },
      { x: 3.5, y: 10 },
      { x: 4, y: 12.2 },
    ]),
  );
const gradesFit = () =>
  figures(
    linearFit(
      [
        [77, 82],
        [50, 66],
        [71, 78],
        [72, 34],
        [81, 47],
        [94, 85],
        [96, 99],
        [99, 99],
        [67, 68],
      ].map(([x, y]) => ({ x: x ?? 0, y: y ?? 0 })),
    ),
  );

/** Sizes of an invented bore at known hours: the oracle was run on the same numbers. */
export const inventedWear = [
  { hours_h: 0, size_mm: 98.011 },
  { hours_h: 402, size_mm: 98.019 },
  { hours_h: 811, size_mm: 98.03 },
  { hours_h: 1184, size_mm: 98.037 },
  { hours_h: 1602, size_mm: 98.048 },
];
const forecast = () => figures(wearForecast(inventedWear, 98.07));
const rate = () => figures(wearRate(inventedWear));
const t = (confidence: number, freedom: number) => () => figures(studentT(confidence, freedom)).t;
const housing = () =>
  figures(
    clearanceRange({ holeLeast_mm: 100, holeGreatest_mm: 100.035, shaftLeast_mm: 100.037, shaftGreatest_mm: 100.059 }),
  );

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

export const checks: PublishedCheck[] = [
  check(
    "clearance",
    "least clearance, housing 100.000..100.035, bush 100.037..100.059, mm",
    bush,
    "read",
    -0.059,
    0,
    () => housing().least_mm,
  ),
  check("clearance", "greatest clearance, same, mm", bush, "read", -0.002, 0, () => housing().greatest_mm),
  check(
    "clearance",
    "greatest clearance, bush 50.025 on shaft 49.950 (the page misprints 49.050), mm",
    bush,
    "read",
    0.075,
    0,
    () => figures(clearance(50.025, 49.95)).clearance_mm,
  ),
  check(
    "clearance",
    "least clearance, bush 50.000 on shaft 49.975 (the page misprints 49.075), mm",
    bush,
    "read",
    0.025,
    0,
    () => figures(clearance(50, 49.975)).clearance_mm,
  ),
  check("student-t", "95 %, 1 degree of freedom", tTable, "read", 12.706, 0.0005, t(0.95, 1)),
  check("student-t", "95 %, 2 degrees of freedom", tTable, "read", 4.303, 0.0005, t(0.95, 2)),
  check("student-t", "95 %, 4 degrees of freedom", tTable, "read", 2.776, 0.0005, t(0.95, 4)),
  check("student-t", "90 %, 10 degrees of freedom", tTable, "read", 1.812, 0.0005, t(0.9, 10)),
  check("student-t", "99 %, 20 degrees of freedom", tTable, "read", 2.845, 0.0005, t(0.99, 20)),
  check("student-t", "95 %, 7 degrees of freedom", grades, "read", 2.3646, 0.00005, t(0.95, 7)),
  check("student-t", "95 %, 3 degrees of freedom", scipy, "oracle-run", 3.1824463052837078, 1e-12, t(0.95, 3)),
  check("student-t", "99.9 %, 1 degree of freedom", scipy, "oracle-run", 636.6192487687897, 1e-9, t(0.999, 1)),
  check("student-t", "95 %, 1000 degrees of freedom", scipy, "oracle-run", 1.9623390808264083, 1e-11, t(0.95, 1000)),
  check("linear-fit", "slope, Norris", norris, "read", 1.00211681802045, 1e-13, () => norrisFit().slope),
  check("linear-fit", "intercept, Norris", norris, "read", -0.262323073774029, 1e-12, () => norrisFit().intercept),
  check(
    "linear-fit",
    "standard error of the slope, Norris",
    norris,
    "read",
    0.000429796848199937,
    1e-15,
    () => norrisFit().slopeError,
  ),
  check(
    "linear-fit",
    "standard error of the intercept, Norris",
    norris,
    "read",
    0.232818234301152,
    1e-12,
    () => norrisFit().interceptError,
  ),
  check("linear-fit", "slope of five points", pocket, "read", 3.24, 1e-12, () => pocketFit().slope),
  check("linear-fit", "intercept of five points", pocket, "read", -0.86, 1e-12, () => pocketFit().intercept),
  check(
    "linear-fit",
    "residual variance of five points",
    pocket,
    "read",
    0.1826,
    0.0001,
    () => pocketFit().residual ** 2,
  ),
  check("linear-fit", "residual of nine grades", grades, "read", 19.4715, 0.00005, () => gradesFit().residual),
  check(
    "wear",
    "wear rate, mm/h",
    `${scipy}, linregress`,
    "oracle-run",
    2.3094230450734944e-5,
    1e-15,
    () => rate().rate_mm_per_h,
  ),
  check(
    "wear",
    "low end of the wear rate, mm/h",
    `${scipy}, linregress and t.ppf`,
    "oracle-run",
    2.0827501400769346e-5,
    1e-14,
    () => rate().rateLow_mm_per_h,
  ),
  check(
    "wear",
    "high end of the wear rate, mm/h",
    `${scipy}, linregress and t.ppf`,
    "oracle-run",
    2.5360959500700543e-5,
    1e-14,
    () => rate().rateHigh_mm_per_h,
  ),
  check("wear", "hours left", `${scipy}, linregress`, "oracle-run", 973.1351897762661, 1e-6, () => forecast().left_h),
  check(
    "wear",
    "low end of the hours left",
    `${scipy}, brentq on the confidence band`,
    "oracle-run",
    805.8811487145013,
    1e-6,
    () => forecast().leftLow_h,
  ),
  check(
    "wear",
    "high end of the hours left",
    `${scipy}, brentq on the confidence band`,
    "oracle-run",
    1174.9279895414352,
    1e-6,
    () => forecast().leftHigh_h,
  ),
];

export const unchecked: UncheckedComputation[] = [
  {
    computation: "bore-geometry",
    group,
    why: "the two-point rule was read in a service manual, but no public text was found that prints a grid with its out-of-round and taper; held by hand-worked grids and by laws",
  },
];
