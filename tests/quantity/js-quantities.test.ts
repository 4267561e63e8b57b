import Qty from "js-quantities";
import { describe, expect, test } from "vitest";
import { convertNumber } from "../../server/quantity/compare.ts";
import { unit } from "./known.ts";

/**
 * A second outside opinion: the library js-quantities 1.8 (MIT), where it has the unit. Its factors
 * are rounded to six or seven digits (psi 6894.76, lbf 4.448222), so the tolerance is 1e-6. Left out:
 * kilogram-force and imperial measures, which it lacks, and its inch of water, which is the one of
 * water at 4 C (249.082 Pa), another unit than the conventional 249.08891 Pa meant here.
 */
const TOLERANCE = 1e-6;

/** Our spelling and theirs. */
const PAIRS: ReadonlyArray<readonly [ours: string, theirs: string]> = [
  ["um", "um"],
  ["mm", "mm"],
  ["cm", "cm"],
  ["dm", "dm"],
  ["m", "m"],
  ["km", "km"],
  ["in", "in"],
  ["thou", "mil"],
  ["ft", "ft"],
  ["yd", "yd"],
  ["nmi", "nmi"],
  ["mile", "mi"],
  ["mm2", "mm2"],
  ["cm2", "cm2"],
  ["in2", "in2"],
  ["ft2", "ft2"],
  ["L", "l"],
  ["mL", "ml"],
  ["cm3", "cm3"],
  ["m3", "m3"],
  ["in3", "in3"],
  ["ft3", "ft3"],
  ["gal", "gal"],
  ["qt", "qt"],
  ["pt", "pt"],
  ["floz", "floz"],
  ["kg", "kg"],
  ["g", "g"],
  ["mg", "mg"],
  ["lb", "lb"],
  ["oz", "oz"],
  ["t", "tonne"],
  ["N", "N"],
  ["kN", "kN"],
  ["lbf", "lbf"],
  ["N.m", "N*m"],
  ["lbf.ft", "lbf*ft"],
  ["lbf.in", "lbf*in"],
  ["Pa", "Pa"],
  ["kPa", "kPa"],
  ["hPa", "hPa"],
  ["MPa", "MPa"],
  ["mbar", "mbar"],
  ["bar", "bar"],
  ["psi", "psi"],
  ["inHg", "inHg"],
  ["mmHg", "mmHg"],
  ["torr", "torr"],
  ["atm", "atm"],
  ["km/h", "km/h"],
  ["kt", "kt"],
  ["mph", "mph"],
  ["m/s", "m/s"],
  ["s", "s"],
  ["min", "min"],
  ["h", "h"],
  ["days", "day"],
  ["weeks", "week"],
  ["W", "W"],
  ["kW", "kW"],
  ["hp", "hp"],
  ["J", "J"],
  ["kJ", "kJ"],
  ["kW.h", "kW*h"],
  ["BTU", "btu"],
  ["%", "percent"],
  ["ppm", "ppm"],
  ["V", "V"],
  ["A", "A"],
  ["mA", "mA"],
  ["ohm", "ohm"],
  ["kohm", "kohm"],
  ["uF", "uF"],
  ["L/h", "l/h"],
  ["gal/h", "gal/h"],
  ["qt/h", "qt/h"],
  ["kg/h", "kg/h"],
  ["lb/h", "lb/h"],
  ["g/kW.h", "g/kW*h"],
  ["lb/hp.h", "lb/hp*h"],
  ["kg/m3", "kg/m3"],
  ["g/cm3", "g/cm3"],
  ["lb/gal", "lb/gal"],
  ["g.mm", "g*mm"],
  ["oz.in", "oz*in"],
  ["m/s2", "m/s2"],
  ["cSt", "cSt"],
  ["N/mm", "N/mm"],
];

describe("factors agree with js-quantities", () => {
  test.each(PAIRS)("%s", (ours, theirs) => {
    const factor = unit(ours).factorNumber;
    expect(Math.abs(factor / Qty(`1 ${theirs}`).baseScalar - 1)).toBeLessThanOrEqual(TOLERANCE);
  });
});

describe("temperature scales agree with js-quantities", () => {
  test.each([-40, 0, 15, 100, 232.2])("%d C", (value) => {
    const theirs = Qty(`${value} tempC`);
    expect(convertNumber(value, unit("C"), unit("F"))).toBeCloseTo(theirs.to("tempF").scalar, 9);
    expect(convertNumber(value, unit("C"), unit("K"))).toBeCloseTo(theirs.to("tempK").scalar, 9);
  });

  test("a step of 9 F is a step of 5 C", () => {
    expect(convertNumber(9, unit("dF"), unit("dC"))).toBeCloseTo(Qty("9 degF").to("degC").scalar, 9);
  });
});
