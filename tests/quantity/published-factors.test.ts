import { describe, expect, test } from "vitest";
import { convertExact, convertNumber, exactIn } from "../../server/quantity/compare.ts";
import { exact } from "../../server/quantity/decimal.ts";
import { m, unit } from "./known.ts";

/** Printed factors. A rounded factor must be met within half a unit of its last printed digit. */

/** One of `from` in `to`, exactly, as a text that tells two fractions apart. */
function one(from: string, to: string): string {
  return convertExact(exact("1"), unit(from), unit(to)).toFraction();
}

describe("exact factors, NIST SP 811 (2008) appendix B, printed there in bold", () => {
  test.each([
    ["in", "m", "0.0254"],
    ["ft", "m", "0.3048"],
    ["thou", "mm", "0.0254"],
    ["mil", "mm", "0.0254"],
    ["lb", "kg", "0.45359237"],
    ["lbf", "N", "4.4482216152605"],
    ["kgf", "N", "9.80665"],
    ["kgf.m", "N.m", "9.80665"],
    ["kgf/cm2", "Pa", "98066.5"],
    ["bar", "Pa", "100000"],
    ["atm", "Pa", "101325"],
    ["impgal", "L", "4.54609"],
  ])("1 %s = exactly %s %s", (from, to, printed) => {
    expect(one(from, to)).toBe(exact(printed).toFraction());
    expect(unit(from).exact).toBe(true);
  });

  test("torr is an atmosphere over 760, and is not the mercury column", () => {
    expect(one("torr", "Pa")).toBe(exact("101325").div(760).toFraction());
    expect(one("torr", "Pa")).not.toBe(one("mmHg", "Pa"));
    expect(unit("mmHg").exact).toBe(false);
  });

  test("US gallon of 231 cubic inches (NIST Handbook 44, appendix C)", () => {
    expect(one("gal", "in3")).toBe("231");
    expect(one("gal", "L")).toBe(exact("3.785411784").toFraction());
    expect(one("gal", "qt")).toBe("4");
    expect(one("gal", "pt")).toBe("8");
    expect(one("gal", "floz")).toBe("128");
  });

  test("imperial quart and pint are a quarter and an eighth of the gallon (GNU units brquart, brpint)", () => {
    expect(one("impqt", "L")).toBe(exact("1.1365225").toFraction());
    expect(one("imppt", "L")).toBe(exact("0.56826125").toFraction());
  });
});

describe("rounded factors, NIST SP 811 (2008) table B.8", () => {
  test.each([
    ["lbf.ft", "N.m", "1.355818"],
    ["lbf.in", "N.m", "0.1129848"],
    ["psi", "Pa", "6894.757"],
    ["inHg", "Pa", "3386.389"],
    ["mmHg", "Pa", "133.3224"],
    ["gal", "L", "3.785412"],
    ["qt", "L", "0.9463529"],
    ["pt", "L", "0.4731765"],
    ["floz", "mL", "29.57353"],
    ["in3", "cm3", "16.38706"],
    ["hp", "W", "745.6999"],
  ])("1 %s in %s prints as %s", (from, to, printed) => {
    const places = printed.split(".")[1]?.length ?? 0;
    expect(Math.abs(convertNumber(1, unit(from), unit(to)) - Number(printed))).toBeLessThanOrEqual(
      0.5 * 10 ** -places * (1 + 1e-9),
    );
  });

  test("ounce-force inch of torque: 7.061552e-3 N.m", () => {
    expect(Math.abs(convertNumber(1, unit("ozf.in"), unit("N.m")) - 7.061552e-3)).toBeLessThanOrEqual(0.5e-9);
  });

  test("metric horsepower: 75 kgf.m/s, printed 735.4988 W (digits of SP 811 from memory; GNU units metrichorsepower agrees)", () => {
    expect(one("PS", "W")).toBe(exact("735.49875").toFraction());
  });
});

describe("full digits, run with GNU units 2.22, Pint 0.25 and ucum-lhc 7.1", () => {
  test.each([
    ["lbf.ft", "N.m", 1.3558179483314],
    ["lbf.in", "N.m", 0.1129848290276],
    ["psi", "Pa", 6894.757293168],
    ["inHg", "Pa", 3386.388640341],
    ["mmHg", "Pa", 133.322387415],
    ["hp", "W", 745.69987158227],
    ["oz.in", "g.mm", 720.077887375],
    ["lb/hp.h", "g/kW.h", 608.2773878],
    ["in3", "cm3", 16.387064],
  ])("1 %s in %s", (from, to, full) => {
    const digits = String(full).replace(".", "").replace(/^0+/, "").length;
    expect(Math.abs(convertNumber(1, unit(from), unit(to)) / full - 1)).toBeLessThanOrEqual(5 * 10 ** -digits);
  });
});

describe("temperature, NIST SP 811 (2008) tables B.8 and B.9", () => {
  test.each([
    ["15", "C", "F", "59"],
    ["-40", "C", "F", "-40"],
    ["0", "C", "K", "273.15"],
    ["-459.67", "F", "K", "0"],
    ["212", "F", "C", "100"],
  ])("%s %s in %s is %s", (value, from, to, expected) => {
    expect(exactIn(m(value, from), unit(to)).toFraction()).toBe(exact(expected).toFraction());
  });

  test("100 F is 37.7778 C", () => {
    expect(convertNumber(100, unit("F"), unit("C"))).toBeCloseTo(37.7778, 4);
  });
});
