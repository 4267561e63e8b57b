import { dewPoint, saturationPressure, vapourFromHumidity, vapourFromWetBulb } from "../../../server/calc/humidity.ts";
import { figures, type PublishedCheck } from "./check.ts";

const handbook =
  "CRC Handbook of Chemistry and Physics, 77th edition, p. 6-13, as quoted in the tests of firelab/met_utils";
const ashrae = "ASHRAE Fundamentals 2017 ch. 1 table 3, as quoted in the tests of PsychroLib";
const library = "psychrolib 1.1.1";

/** The Magnus formula is stated to lie within 0.4 % of the tables from 0 to 50 C. */
const magnusShare = 0.004;

const table: readonly (readonly [celsius: number, kilopascal: number])[] = [
  [0, 0.61129],
  [5, 0.8726],
  [10, 1.2281],
  [15, 1.7056],
  [20, 2.3388],
  [25, 3.169],
  [30, 4.2455],
  [35, 5.6267],
  [40, 7.3814],
  [45, 9.5898],
  [50, 12.344],
];

const wetBulbs: readonly (readonly [dry: number, wet: number, pressure: number, humidity: number])[] = [
  [25, 18, 101_325, 50.6807],
  [30, 20, 101_325, 39.6808],
  [15, 12, 95_000, 71.4527],
  [35, 24, 100_000, 40.4558],
  [10, 8, 90_000, 77.913],
];

export const checks: PublishedCheck[] = [
  ...table.map(
    ([celsius, kilopascal]): PublishedCheck => ({
      computation: "humidity",
      group: 4,
      what: `saturation pressure at ${celsius} C, kPa`,
      source: handbook,
      kind: "read",
      expected: kilopascal,
      tolerance: kilopascal * magnusShare,
      got: () => figures(saturationPressure(celsius)).saturation_Pa / 1000,
    }),
  ),
  ...(
    [
      [5, 872.6],
      [25, 3169.7],
      [50, 12_351.3],
    ] as const
  ).map(
    ([celsius, pascal]): PublishedCheck => ({
      computation: "humidity",
      group: 4,
      what: `saturation pressure at ${celsius} C, Pa`,
      source: ashrae,
      kind: "read",
      expected: pascal,
      tolerance: pascal * magnusShare,
      got: () => figures(saturationPressure(celsius)).saturation_Pa,
    }),
  ),
  ...wetBulbs.map(
    ([dry, wet, pressure, humidity]): PublishedCheck => ({
      computation: "humidity",
      group: 4,
      what: `relative humidity from ${dry} C dry, ${wet} C wet at ${pressure} Pa, percent`,
      source: library,
      kind: "oracle-run",
      expected: humidity,
      // The library takes the thermodynamic wet bulb, the guide a ventilated one: they agree to about half a percent of humidity.
      tolerance: 0.6,
      got: () => figures(vapourFromWetBulb(dry, wet, pressure)).humidity_percent,
    }),
  ),
  {
    computation: "humidity",
    group: 4,
    what: "relative humidity from 68 F dry, 62 F wet, percent",
    source: "US Army TM 5-3610-285-14 p. 710, worked example with its table",
    kind: "read",
    expected: 71,
    tolerance: 1,
    got: () => figures(vapourFromWetBulb(20, (62 - 32) / 1.8, 101_325)).humidity_percent,
  },
  ...(
    [
      [25, 50, 13.864],
      [10, 90, 8.4372],
      [35, 30, 14.8436],
    ] as const
  ).map(
    ([celsius, humidity, dew]): PublishedCheck => ({
      computation: "humidity",
      group: 4,
      what: `dew point of ${celsius} C, ${humidity} %, C`,
      source: library,
      kind: "oracle-run",
      expected: dew,
      tolerance: 0.05,
      got: () => figures(dewPoint(figures(vapourFromHumidity(celsius, humidity)).vapour_Pa)).dewPoint_C,
    }),
  ),
];
