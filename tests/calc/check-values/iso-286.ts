import { fitLimits, gradeTolerance, toleranceClassLimits } from "../../../server/calc/iso-286-fit.ts";
import type { PublishedCheck } from "./check.ts";
import { figures } from "./check.ts";

const group = 1;
const computation = "iso-286-fit";
const drawing = "Machine Drawing p. 259 (fliphtml5.com/lnym/mzww)";
const fitsTest = "public test suite of WaldekS710/isoFits";
const closeRunning = "Engineering fit, encyclopaedia copy at wap.danielthefox.com";
const corrigendum = "ISO 286-2:1988/Cor.1:2006, table 20 (copy at 1library.net)";
const germany = "bearing seller's housing tables (germany-bearing.com articles s67, s70, s74)";
const plain = "spherical plain bearing maker's housing table (zijingsoft.cn, Fits of radial spherical plain bearings)";
const catalogue = "bearing technical reference, table 6 (online.flippingbook.com/view/962121/282)";
const shafts = "bearing maker's shaft table 1 (scribd.com/document/663845152)";
const housings = "bearing maker's housing table 8 (pdfcoffee.com, tolerances and resultant fits)";
const bars = "round bar tolerance table (precisemetal.in/tolerence-table.php)";
const jis = "JIS B 0401 shaft table (docs.steelcam.org, technical information p. 28)";

type End = "upper" | "lower";

const deviation = (nominal_mm: number, toleranceClass: string, end: End) => () => {
  const limits = figures(toleranceClassLimits(nominal_mm, toleranceClass));
  return end === "upper" ? limits.upperDeviation_um : limits.lowerDeviation_um;
};

function one(nominal_mm: number, toleranceClass: string, end: End, expected: number, source: string): PublishedCheck {
  return {
    computation,
    group,
    what: `${nominal_mm} ${toleranceClass}, ${end} deviation, um`,
    source,
    kind: "read",
    expected,
    tolerance: 0,
    got: deviation(nominal_mm, toleranceClass, end),
  };
}

function fitOf(
  nominal_mm: number,
  name: string,
  end: "least" | "greatest",
  expected: number,
  source: string,
): PublishedCheck {
  return {
    computation,
    group,
    what: `${nominal_mm} ${name}, ${end} clearance, um`,
    source,
    kind: "read",
    expected,
    tolerance: 0,
    got: () => {
      const limits = figures(fitLimits(nominal_mm, name));
      return end === "least" ? limits.leastClearance_um : limits.greatestClearance_um;
    },
  };
}

export const checks: PublishedCheck[] = [
  fitOf(25, "H7/h6", "least", 0, "metricmech.com, 25 H7/h6"),
  fitOf(25, "H7/h6", "greatest", 34, "metricmech.com, 25 H7/h6"),
  fitOf(29, "H7/h8", "greatest", 54, fitsTest),
  fitOf(50, "H8/f7", "least", 25, closeRunning),
  fitOf(50, "H8/f7", "greatest", 89, closeRunning),
  one(25, "H7", "upper", 21, drawing),
  one(40, "h11", "lower", -160, drawing),
  one(10, "H10", "upper", 58, drawing),
  one(10, "h9", "lower", -36, drawing),
  one(25, "h9", "lower", -52, drawing),
  {
    computation,
    group,
    what: "29 h7, least size, mm",
    source: fitsTest,
    kind: "read",
    expected: 28.979,
    tolerance: 0,
    got: () => figures(toleranceClassLimits(29, "h7")).least_mm,
  },
  one(280, "f9", "lower", -186, corrigendum),
  one(8, "K6", "upper", 2, germany),
  one(25, "K6", "upper", 2, germany),
  one(200, "K6", "upper", 5, germany),
  one(25, "K7", "upper", 6, germany),
  one(100, "K7", "upper", 10, germany),
  one(25, "M6", "upper", -4, germany),
  one(130, "M6", "lower", -33, germany),
  one(25, "M7", "upper", 0, germany),
  one(65, "M7", "lower", -30, germany),
  one(25, "N6", "upper", -11, germany),
  one(300, "N6", "upper", -25, germany),
  one(25, "N7", "upper", -7, germany),
  one(300, "N7", "lower", -66, germany),
  one(25, "P6", "upper", -18, germany),
  one(200, "P6", "upper", -41, germany),
  one(8, "P7", "upper", -9, germany),
  one(25, "P7", "lower", -35, germany),
  one(100, "P7", "upper", -24, germany),
  one(300, "P7", "upper", -36, germany),
  one(25, "JS5", "upper", 4.5, germany),
  one(130, "JS6", "lower", -12.5, germany),
  one(25, "JS7", "upper", 10.5, germany),
  one(350, "K7", "upper", 17, plain),
  one(450, "M7", "lower", -63, plain),
  one(450, "N7", "upper", -17, plain),
  one(2, "N7", "upper", -4, catalogue),
  one(2, "M7", "lower", -12, catalogue),
  one(25, "K8", "upper", 10, catalogue),
  one(25, "M8", "upper", 4, catalogue),
  one(25, "N8", "lower", -36, catalogue),
  one(25, "R7", "upper", -20, catalogue),
  one(70, "R7", "upper", -32, catalogue),
  one(130, "R7", "lower", -88, catalogue),
  one(8, "f5", "lower", -19, shafts),
  one(150, "f6", "lower", -68, shafts),
  one(100, "g6", "lower", -34, shafts),
  one(25, "g5", "lower", -16, shafts),
  one(200, "H8", "upper", 72, housings),
  one(100, "H9", "upper", 87, housings),
  one(160, "H10", "upper", 160, housings),
  one(40, "h9", "lower", -62, bars),
  one(300, "h8", "lower", -81, bars),
  one(60, "r6", "upper", 60, jis),
  one(70, "s6", "upper", 78, jis),
  one(30, "p6", "upper", 35, jis),
  {
    computation,
    group,
    what: "tolerance of grade 7 over 120 to 180 mm, um",
    source: `${bars} (h7)`,
    kind: "read",
    expected: 40,
    tolerance: 0,
    got: () => figures(gradeTolerance(150, 7)).tolerance_um,
  },
];
