import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { vapourFromHumidity } from "../../server/calc/humidity.ts";
import {
  correctByMakerFormula,
  correctionRules,
  correctPower,
  type MakerFormula,
} from "../../server/calc/power-correction.ts";
import { figures } from "./check-values/check.ts";

const reference = { air_Pa: 99_000, vapour_Pa: 0, air_C: 25 };

describe("power correction", () => {
  test("none leaves the power alone, whatever the air", () => {
    expect(figures(correctPower("none", 123.4, { air_Pa: Number.NaN, vapour_Pa: 0, air_C: 0 })).power_kW).toBe(123.4);
  });

  test("the published hot day lies just outside ISO 1585: 1.0711 is refused and named", () => {
    const air_C = (85 - 32) / 1.8;
    const { vapour_Pa } = figures(vapourFromHumidity(air_C, 85));
    const result = correctPower("iso-1585", 400, { air_Pa: 28.85 * 3386.388640341, vapour_Pa, air_C });
    expect(result).toMatchObject({ ok: false, refused: expect.stringContaining("1.07") });
    expect(result).toMatchObject({ refused: expect.stringContaining("no corrected power") });
  });

  test("(92 kPa, 35 C) is out of range", () => {
    expect(correctPower("iso-1585", 100, { air_Pa: 92_000, vapour_Pa: 0, air_C: 35 }).ok).toBe(false);
  });

  test("thinner or hotter air never lowers the factor, and the power follows the factor", () => {
    fc.assert(
      fc.property(
        fc.constantFrom("iso-1585", "sae-j1349-1990", "sae-j607"),
        fc.double({ min: 96_000, max: 101_000, noNaN: true }),
        fc.double({ min: 16, max: 33, noNaN: true }),
        (rule, air_Pa, air_C) => {
          const here = correctPower(rule, 100, { air_Pa, vapour_Pa: 500, air_C });
          const thinner = correctPower(rule, 100, { air_Pa: air_Pa - 200, vapour_Pa: 500, air_C });
          const hotter = correctPower(rule, 100, { air_Pa, vapour_Pa: 500, air_C: air_C + 1 });
          fc.pre(here.ok && thinner.ok && hotter.ok);
          expect(figures(here).power_kW).toBeCloseTo(100 * figures(here).factor, 9);
          expect(figures(thinner).factor).toBeGreaterThan(figures(here).factor);
          expect(figures(hotter).factor).toBeGreaterThan(figures(here).factor);
        },
      ),
    );
  });

  test("every rule has a page and says its edition in the working", () => {
    for (const { rule, edition } of correctionRules) {
      const result = figures(correctPower(rule, 100, reference));
      expect(result.edition).toBe(edition);
      expect(result.steps.at(-1)).toContain(rule === "none" ? "as measured" : edition);
    }
  });

  test.each([
    ["pressure in hectopascals", correctPower("iso-1585", 100, { ...reference, air_Pa: 990 })],
    ["no power", correctPower("none", 0, reference)],
    ["J1349 in the cold", correctPower("sae-j1349-1990", 100, { ...reference, air_C: 14 })],
    ["vapour of steam", correctPower("sae-j607", 100, { ...reference, vapour_Pa: 40_000 })],
    ["no temperature", correctPower("sae-j607", 100, { ...reference, air_C: Number.NaN })],
  ])("refuses: %s", (_name, result) => {
    expect(result).toMatchObject({ ok: false, refused: expect.stringMatching(/\.$/) });
  });
});

describe("a maker's formula", () => {
  const likeIso: MakerFormula = {
    source: "sheet 12",
    dry_Pa: 99_000,
    air_C: 25,
    pressurePower: 1.2,
    temperaturePower: 0.6,
    loss: 0,
    factorFrom: 0.93,
    factorUntil: 1.07,
  };

  test("with the figures of ISO 1585 or J1349 it gives their factors, but for the 0.15 K of their rounded kelvin", () => {
    const air = { air_Pa: 98_000, vapour_Pa: 1200, air_C: 29 };
    const iso = figures(correctPower("iso-1585", 100, air)).factor;
    expect(figures(correctByMakerFormula(likeIso, 100, air)).factor).toBeCloseTo(iso, 4);
    const lossy = { ...likeIso, pressurePower: 1, temperaturePower: 0.5, loss: 0.18 };
    const sae = figures(correctPower("sae-j1349-1990", 100, air)).factor;
    expect(figures(correctByMakerFormula(lossy, 100, air)).factor).toBeCloseTo(sae, 4);
  });

  test("refuses outside the maker's range and figures that cannot be", () => {
    expect(correctByMakerFormula(likeIso, 100, { air_Pa: 85_000, vapour_Pa: 0, air_C: 25 })).toMatchObject({
      ok: false,
      refused: expect.stringContaining("sheet 12"),
    });
    expect(correctByMakerFormula({ ...likeIso, loss: 1 }, 100, reference).ok).toBe(false);
    expect(correctByMakerFormula(likeIso, 100, { ...reference, vapour_Pa: 99_000 }).ok).toBe(false);
    expect(correctByMakerFormula(likeIso, 100, { ...reference, air_C: -300 }).ok).toBe(false);
  });
});
