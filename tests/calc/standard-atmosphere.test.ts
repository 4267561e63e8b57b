import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  airDensity,
  altitudeByRuleOfThumb,
  densityAltitude,
  pressureAltitude,
  standardAir,
  stationPressure,
} from "../../server/calc/standard-atmosphere.ts";
import { figures } from "./check-values/check.ts";

const heights = fc.double({ min: -1999, max: 10_999, noNaN: true });

describe("standard atmosphere", () => {
  test("pressure altitude undoes the pressure law, and density altitude the density law", () => {
    fc.assert(
      fc.property(heights, (height_m) => {
        const air = figures(standardAir(height_m));
        expect(figures(pressureAltitude(air.pressure_Pa)).altitude_m).toBeCloseTo(height_m, 5);
        expect(figures(densityAltitude(air.pressure_Pa, air.temperature_K - 273.15)).altitude_m).toBeCloseTo(
          height_m,
          5,
        );
      }),
    );
  });

  test("humidity raises the density altitude and so does heat", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 40, noNaN: true }),
        fc.double({ min: 10, max: 4000, noNaN: true }),
        (air_C, vapour_Pa) => {
          const dry = figures(densityAltitude(95_000, air_C)).altitude_m;
          expect(figures(densityAltitude(95_000, air_C, vapour_Pa)).altitude_m).toBeGreaterThan(dry);
          expect(figures(densityAltitude(95_000, air_C + 1)).altitude_m).toBeGreaterThan(dry);
        },
      ),
    );
  });

  test("the setting of standard air is sea-level pressure everywhere", () => {
    fc.assert(
      fc.property(fc.double({ min: -500, max: 5000, noNaN: true }), (elevation_m) => {
        const station = figures(stationPressure(101_325, elevation_m)).air_Pa;
        expect(station).toBeCloseTo(figures(standardAir(elevation_m)).pressure_Pa, 6);
      }),
    );
  });

  test("the rule of thumb stands apart from the true figure", () => {
    const station = figures(stationPressure(101_100, 2400 * 0.3048)).air_Pa;
    const truth = figures(densityAltitude(station, 33)).altitude_ft;
    const thumb = figures(altitudeByRuleOfThumb(2400, 1011, 33)).densityAltitude_ft;
    expect(thumb).toBe(5220);
    expect(truth).toBeCloseTo(5045, -2);
    expect(thumb - truth).toBeGreaterThan(100);
  });

  test.each([
    ["above the tropopause", standardAir(11_001)],
    ["far below the sea", standardAir(-2001)],
    ["pressure in hectopascals", pressureAltitude(1013)],
    ["setting in hectopascals", stationPressure(1013, 100)],
    ["elevation out of range", stationPressure(101_325, 6000)],
    ["vapour above the total", airDensity(100_000, 20, 100_000)],
    ["too hot", airDensity(100_000, 81)],
    ["rule of thumb, setting in pascals", altitudeByRuleOfThumb(1000, 101_300, 20)],
  ])("refuses: %s", (_name, result) => {
    expect(result).toMatchObject({ ok: false, refused: expect.stringMatching(/\.$/) });
  });
});
