import { spawnSync } from "node:child_process";
import { describe, expect, test } from "vitest";
import { convertNumber } from "../../server/quantity/compare.ts";
import type { Dimension } from "../../server/quantity/units.ts";
import { allUnits } from "../../server/quantity/units.ts";
import { unit } from "./known.ts";

/**
 * Every factor against GNU units (Debian package `units`, definitions of 2.22 or later, which cite
 * NIST SP 811 and NIST Handbook 44). One process answers the whole batch, two lines a question.
 */

/** How a dimension's base unit is spelled for GNU units. */
const BASE: Readonly<Record<Dimension, string>> = {
  length: "m",
  area: "m^2",
  volume: "m^3",
  mass: "kg",
  force: "N",
  torque: "N m",
  pressure: "Pa",
  "temperature-difference": "K",
  speed: "revolution/minute",
  velocity: "m/s",
  time: "s",
  power: "W",
  energy: "J",
  angle: "degree",
  ratio: "1",
  current: "A",
  voltage: "V",
  resistance: "ohm",
  capacitance: "F",
  "kinematic-viscosity": "m^2/s",
  illuminance: "lux",
  "volume/time": "m^3/s",
  "mass/time": "kg/s",
  "mass/energy": "kg/J",
  unbalance: "kg m",
  density: "kg/m^3",
  "thermal-expansion": "1/K",
  "temperature-difference/time": "K/s",
  acceleration: "m/s^2",
  "force/length": "N/m",
  irradiance: "W/m^2",
  charge: "C",
};

/** Parts that GNU units spells otherwise; everything else is spelled alike there. */
const SPELLING: Readonly<Record<string, string>> = {
  um: "micrometer",
  uin: "microinch",
  thou: "mil",
  nmi: "nauticalmile",
  L: "liter",
  mL: "milliliter",
  cL: "centiliter",
  gal: "gallon",
  qt: "quart",
  pt: "pint",
  floz: "fluidounce",
  impgal: "brgallon",
  impqt: "brquart",
  imppt: "brpint",
  impfloz: "brfluidounce",
  t: "tonne",
  oz: "ounce",
  ozf: "ounce force",
  kgf: "kilogram force",
  gf: "gram force",
  mbar: "millibar",
  cmHg: "cm Hg",
  dC: "degC",
  dF: "degF",
  C: "degC",
  F: "degF",
  h: "hour",
  min: "minute",
  ms: "millisecond",
  days: "day",
  weeks: "week",
  kt: "knot",
  PS: "metrichorsepower",
  BTU: "btu",
  deg: "degree",
  uW: "microwatt",
  mW: "milliwatt",
  uA: "microampere",
  kA: "kiloampere",
  uF: "microfarad",
  nF: "nanofarad",
  pF: "picofarad",
  mohm: "milliohm",
  kohm: "kiloohm",
  Mohm: "megaohm",
  cSt: "centistokes",
  lx: "lux",
  "%": "percent",
  rpm: "revolution/minute",
};

/** No factor of nature or law: one of a kind is one, so there is nothing to compare. */
function hasNoOutsideFactor(dimension: Dimension): boolean {
  return /^(count|hardness|money):|^(calendar|temperature)$/.test(dimension);
}

function gnuSpelling(unit: string): string {
  if (unit in SPELLING) return SPELLING[unit] ?? "";
  const side = (text: string): string =>
    text
      .split(".")
      .map(
        (part) =>
          SPELLING[part] ??
          SPELLING[part.replace(/[23]$/, "")]?.concat(`^${part.at(-1)}`) ??
          part.replace(/([23])$/, "^$1"),
      )
      .map((part) => `(${part})`)
      .join(" ");
  const [above = "", below] = unit.split("/");
  return below === undefined ? side(above) : `(${side(above)})/(${side(below)})`;
}

/** Answers of GNU units, one per question; a question that it does not understand gives `NaN`. */
function askGnuUnits(questions: ReadonlyArray<readonly [from: string, to: string]>): number[] | undefined {
  const input = questions.map(([from, to]) => `${from}\n${to}\n`).join("");
  const run = spawnSync("units", ["-t", "-o", "%.15g"], {
    input,
    encoding: "utf8",
    env: { PATH: process.env["PATH"], LC_ALL: "C" },
  });
  if (run.error !== undefined) return undefined;
  return run.stdout.trimEnd().split("\n").map(Number);
}

const isHere = spawnSync("units", ["--version"]).error === undefined;

test("GNU units is installed where the result counts", () => {
  const missing = "GNU units is not installed: factors were NOT compared with it (Debian: apt-get install units)";
  if (!isHere) console.warn(missing);
  expect(isHere || process.env["CI"] !== "true" ? "" : missing).toBe("");
});

describe.skipIf(!isHere)("against GNU units", () => {
  const units = allUnits().filter((spelling) => !hasNoOutsideFactor(unit(spelling).dimension));
  const compared = units.filter((spelling) => !spelling.startsWith("drops"));
  const questions = compared.map((spelling) => {
    const dimension = unit(spelling).dimension;
    return [
      gnuSpelling(spelling),
      BASE[dimension] ?? (spelling === "rpm/s" ? "revolution/minute s" : `no base for ${dimension}`),
    ] as const;
  });
  const answers = askGnuUnits(questions) ?? [];

  test("every question got one answer", () => {
    expect(answers).toHaveLength(compared.length);
    expect(compared.length).toBeGreaterThan(120);
  });

  test.each(compared.map((spelling, index) => ({ spelling, asked: questions[index]?.join(" in ") ?? "", index })))(
    "$spelling ($asked)",
    ({ spelling, index }) => {
      const gnu = answers[index] ?? Number.NaN;
      const ours = unit(spelling).factorNumber;
      expect(Math.abs(ours / gnu - 1), `ours ${ours}, GNU units ${gnu}`).toBeLessThanOrEqual(1e-12);
    },
  );

  test("temperature scales", () => {
    const names = { C: "tempC", F: "tempF", K: "tempK" } as const;
    const scales = ["C", "F", "K"] as const;
    const cases = scales.flatMap((from) =>
      scales.flatMap((to) => [-40, 0, 15, 59, 100, 212, 451.25].map((value) => ({ from, to, value }))),
    );
    const gnu = askGnuUnits(cases.map(({ from, to, value }) => [`${names[from]}(${value + 300})`, names[to]]));
    cases.forEach(({ from, to, value }, index) => {
      expect(convertNumber(value + 300, unit(from), unit(to))).toBeCloseTo(gnu?.[index] ?? Number.NaN, 9);
    });
  });

  test("oz.in of unbalance is mass at an arm, not force", () => {
    expect(
      askGnuUnits([
        ["ounce inch", "gram mm"],
        ["ounce inch", "N m"],
      ])?.[0],
    ).toBeCloseTo(720.077887375, 9);
    expect(unit("oz.in").dimension).toBe("unbalance");
    expect(unit("ozf.in").dimension).toBe("torque");
  });
});
