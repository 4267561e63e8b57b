import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  dewPoint,
  dryAirPressure,
  saturationPressure,
  vapourFromHumidity,
  vapourFromWetBulb,
} from "../../server/calc/humidity.ts";
import { figures } from "./check-values/check.ts";

describe("humidity", () => {
  test("the dew point gives back the vapour pressure", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -40, max: 60, noNaN: true }),
        fc.double({ min: 5, max: 100, noNaN: true }),
        (air, humidity) => {
          const { vapour_Pa } = figures(vapourFromHumidity(air, humidity));
          const dew = dewPoint(vapour_Pa);
          fc.pre(dew.ok);
          if (!dew.ok) return;
          expect(dew.dewPoint_C).toBeLessThanOrEqual(air + 1e-9);
          expect(figures(saturationPressure(dew.dewPoint_C)).saturation_Pa / vapour_Pa).toBeCloseTo(1, 9);
        },
      ),
    );
  });

  test("a wet bulb equal to the dry one is saturated air, and a lower one is drier", () => {
    expect(figures(vapourFromWetBulb(20, 20, 101_325)).humidity_percent).toBeCloseTo(100, 9);
    fc.assert(
      fc.property(
        fc.double({ min: 10, max: 50, noNaN: true }),
        fc.double({ min: 0.1, max: 4, noNaN: true }),
        fc.double({ min: 0.1, max: 4, noNaN: true }),
        (dry, drop, more) => {
          const less = vapourFromWetBulb(dry, dry - drop, 100_000);
          const drier = vapourFromWetBulb(dry, dry - drop - more, 100_000);
          if (!less.ok || !drier.ok) return;
          expect(drier.humidity_percent).toBeLessThan(less.humidity_percent);
        },
      ),
    );
  });

  test.each([
    ["too hot", saturationPressure(61)],
    ["no number", saturationPressure(Number.NaN)],
    ["over 100 %", vapourFromHumidity(20, 101)],
    ["below 0 %", vapourFromHumidity(20, -1)],
    ["wet above dry", vapourFromWetBulb(20, 21, 101_325)],
    ["ice", vapourFromWetBulb(2, -1, 101_325)],
    ["drier than dry", vapourFromWetBulb(40, 1, 101_325)],
    ["hectopascals given as pascals", vapourFromWetBulb(20, 15, 1013)],
    ["vapour above the total", dryAirPressure(1000, 2000)],
    ["dew point of nothing", dewPoint(0)],
  ])("refuses: %s", (_name, result) => {
    expect(result).toMatchObject({ ok: false, refused: expect.stringMatching(/\.$/) });
  });

  test("shows the working", () => {
    expect(figures(vapourFromHumidity(20, 50)).steps).toEqual([
      "Saturation pressure at 20 C: 611.2 x exp(17.62 x 20 / (243.12 + 20)) = 2332.6 Pa (Magnus, WMO-No. 8).",
      "Vapour pressure: 50 % of 2332.6 Pa = 1166.3 Pa.",
    ]);
    expect(figures(dryAirPressure(101_325, 1166.3)).dry_Pa).toBeCloseTo(100_158.7, 6);
  });
});
