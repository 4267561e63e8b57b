import { describe, expect, test } from "vitest";
import { compareMeasures, convertNumber } from "../../server/quantity/compare.ts";
import { UNIT_ROWS } from "../../server/quantity/unit-table.ts";
import { allUnits, findUnit, nearestUnits, unitsOfDimension } from "../../server/quantity/units.ts";
import { m, unit } from "./known.ts";

describe("dimensions", () => {
  test.each([
    ["mm", "length"],
    ["in3", "volume"],
    ["psi", "pressure"],
    ["N/mm2", "pressure"],
    ["N.m", "torque"],
    ["kgf.mm", "torque"],
    ["kW.h", "energy"],
    ["W.h", "energy"],
    ["C", "temperature"],
    ["dC", "temperature-difference"],
    ["rpm", "speed"],
    ["1/min", "speed"],
    ["L/h", "volume/time"],
    ["impgal/h", "volume/time"],
    ["kg/h", "mass/time"],
    ["g/kW.h", "mass/energy"],
    ["lb/hp.h", "mass/energy"],
    ["g.mm", "unbalance"],
    ["oz.in", "unbalance"],
    ["ozf.in", "torque"],
    ["um/m.K", "thermal-expansion"],
    ["C/min", "temperature-difference/time"],
    ["GBP", "money:GBP"],
    ["GBP/h", "money:GBP/time"],
    ["EUR/kg", "money:EUR/mass"],
    ["cycles", "count:cycles"],
    ["cycles/h", "count:cycles/time"],
    ["months", "calendar"],
    ["%", "ratio"],
    ["um/m", "ratio"],
    ["km/h", "velocity"],
    ["m/s2", "acceleration"],
    ["uW/cm2", "irradiance"],
  ])("%s is %s", (spelling, dimension) => {
    expect(findUnit(spelling)?.dimension).toBe(dimension);
  });

  test.each([
    ["torque and energy", "N.m", "J"],
    ["torque and unbalance", "ozf.in", "oz.in"],
    ["a temperature and a step of temperature", "C", "dC"],
    ["two currencies", "GBP", "EUR"],
    ["cycles and landings", "cycles", "landings"],
    ["months and days", "months", "days"],
    ["mass and force", "kg", "kgf"],
    ["two hardness scales", "HRC", "HBW"],
    ["rotation and velocity", "rpm", "m/s"],
  ])("%s are not compared", (_, left, right) => {
    expect(() => compareMeasures(m("1", left), m("1", right))).toThrow(RangeError);
    expect(() => convertNumber(1, unit(left), unit(right))).toThrow(RangeError);
  });
});

describe("spellings", () => {
  // Common practice, no source: how fitters and old manuals write these units.
  test.each([
    ["Nm", "N.m"],
    ["ft.lb", "lbf.ft"],
    ["ft-lb", "lbf.ft"],
    ["lb-ft", "lbf.ft"],
    ["in.lb", "lbf.in"],
    ["in-lbs", "lbf.in"],
    ["mkp", "kgf.m"],
    ["mil", "thou"],
    ["µm", "um"],
    ["cc", "cm3"],
    ["l", "L"],
    ["lb/in2", "psi"],
    ["kg/cm2", "kgf/cm2"],
    ["1/min", "rpm"],
    ["hours", "h"],
    ["year", "years"],
    ["°C", "C"],
    ["kWh", "kW.h"],
    ["bhp", "hp"],
    ["l/h", "L/h"],
    ["g/kWh", "g/kW.h"],
  ])("%s is a spelling of %s, and is kept as typed", (spelling, preferred) => {
    const [typed, usual] = [findUnit(spelling), findUnit(preferred)];
    expect(typed?.spelling).toBe(spelling);
    expect(typed?.preferred).toBe(preferred);
    expect(typed?.dimension).toBe(usual?.dimension);
    expect(typed?.factor.toFraction()).toBe(usual?.factor.toFraction());
  });

  test("no spelling stands in two rows of the table", () => {
    const spellings = UNIT_ROWS.flatMap((row) => row[1].split(" "));
    expect(spellings.filter((spelling, index) => spellings.indexOf(spelling) !== index)).toEqual([]);
  });

  test("every unit that completion offers is known, and is its own preferred spelling", () => {
    expect(allUnits().map((spelling) => findUnit(spelling)?.preferred)).toEqual(allUnits());
  });

  test.each([
    "",
    "/",
    ".",
    "1",
    "2",
    "mm/",
    "/mm",
    "mm..m",
    "a/b/c",
    "g/kW/h",
    "furlong",
    "mm4",
    "N.m.",
    "1.mm",
    "toString",
    "__proto__",
    "gbp",
    "GBPS",
    "2mm",
  ])("%j means no unit", (spelling) => {
    expect(findUnit(spelling)).toBeUndefined();
  });

  test.each(["KPA", "MPH", "HRS", "CHT"])("%s is not taken for money", (spelling) => {
    expect(findUnit(spelling)).toBeUndefined();
  });

  test("one spelling gives one object", () => {
    expect(findUnit("g/kW.h")).toBe(findUnit("g/kW.h"));
  });

  test("inside a compound a scale is a step: 20 C/min is 36 F/min", () => {
    // NIST SP 811 table B.8: a step of 1 F is 5/9 of a kelvin.
    expect(convertNumber(20, unit("C/min"), unit("F/min"))).toBeCloseTo(36, 12);
  });
});

test("a compound is exact if its parts are: mercury is agreed, a pound per square inch is defined", () => {
  expect(findUnit("inHg/min")).toMatchObject({ exact: false, dimension: "pressure/time" });
  expect(findUnit("kg/m.s2")).toMatchObject({ exact: true, dimension: "pressure", source: "SI" });
  expect(findUnit("psi/min")).toMatchObject({ exact: true, dimension: "pressure/time", source: "SP811" });
});

describe("nearest units", () => {
  test.each([
    ["nm", "Nm"],
    ["KPA", "kPa"],
    ["rmp", "rpm"],
    ["g/kw.h", "g/kW.h"],
    ["g/kW/h", "g/kW.h"],
    ["lbf.tf", "lbf.ft"],
    ["HRS", "hrs"],
    ["MPH", "mph"],
    ["litters", "liters"],
    ["c", "C"],
    ["ltr/h", "L/h"],
  ])("%s: %s is offered first", (spelling, nearest) => {
    expect(nearestUnits(spelling)[0]).toBe(nearest);
  });

  test("with a dimension, only units of it, and its usual ones where none is near", () => {
    expect(nearestUnits("KPA", "pressure")[0]).toBe("kPa");
    expect(nearestUnits("zzz", "torque")).toEqual(unitsOfDimension("torque").slice(0, 5));
    expect(nearestUnits("mm", "torque").map((spelling) => findUnit(spelling)?.dimension)).toEqual(
      Array(5).fill("torque"),
    );
  });

  test("a word like no unit gets no offer", () => {
    expect(nearestUnits("strawberries")).toEqual([]);
  });
});

test("completion of a dimension begins with the usual unit", () => {
  expect(unitsOfDimension("torque").slice(0, 3)).toEqual(["N.m", "N.cm", "lbf.ft"]);
  expect(unitsOfDimension("length")[0]).toBe("mm");
  expect(unitsOfDimension("temperature")).toEqual(["C", "F", "K"]);
  expect(unitsOfDimension("mass/energy")).toEqual(["g/kW.h", "lb/hp.h"]);
  expect(unitsOfDimension("no-such-dimension")).toEqual([]);
});
