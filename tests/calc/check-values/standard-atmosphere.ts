import {
  airDensity,
  altitudeByRuleOfThumb,
  densityAltitude,
  pressureAltitude,
  standardAir,
  stationPressure,
} from "../../../server/calc/standard-atmosphere.ts";
import { figures, type PublishedCheck } from "./check.ts";

const mission = "1976 standard atmosphere, tests of the public MSS mslib and a public client's test data";
const digits = "public repository test data with the 1976 constants";
const thumb = "aerotheory.com.au 8.4p and pilotpracticeexams.com altitude calculator";
const metpy = "MetPy test suite, Smithsonian formula with a 0.3 hPa term";

const pressures: readonly (readonly [metres: number, pascal: number])[] = [
  [0, 101_325],
  [500, 95_460.8],
  [1000, 89_874.6],
  [1500, 84_556.0],
  [2000, 79_495.2],
  [2500, 74_682.5],
  [3000, 70_108.5],
  [3500, 65_764.1],
  [4000, 61_640.2],
  [4500, 57_728.3],
  [5000, 54_019.9],
  [6000, 47_181.0],
  [7000, 41_060.7],
  [8000, 35_599.8],
  [9000, 30_742.5],
  [10_000, 26_436.3],
  [11_000, 22_632.1],
];
const temperatures = [284.9, 281.65, 278.4, 275.15, 271.9, 268.65];
const densities: readonly (readonly [kilometres: number, density: number])[] = [
  [0, 1.225],
  [1, 1.1116],
  [2, 1.0065],
  [3, 0.9091],
  [4, 0.8191],
  [5, 0.7361],
  [11, 0.3639],
];

const base = { computation: "standard-atmosphere", group: 4 } as const;

export const checks: PublishedCheck[] = [
  ...pressures.map(
    ([metres, pascal]): PublishedCheck => ({
      ...base,
      what: `pressure at ${metres} m, Pa`,
      source: mission,
      kind: "read",
      expected: pascal,
      tolerance: metres <= 3000 ? 0.05 : 0.1,
      got: () => figures(standardAir(metres)).pressure_Pa,
    }),
  ),
  ...temperatures.map(
    (kelvin, index): PublishedCheck => ({
      ...base,
      what: `temperature at ${500 * (index + 1)} m, K`,
      source: mission,
      kind: "read",
      expected: kelvin,
      tolerance: 0.005,
      got: () => figures(standardAir(500 * (index + 1))).temperature_K,
    }),
  ),
  ...densities.map(
    ([kilometres, density]): PublishedCheck => ({
      ...base,
      what: `density at ${kilometres} km, kg/m3`,
      source: "table in a public repository",
      kind: "read",
      expected: density,
      tolerance: 0.00005,
      got: () => figures(standardAir(kilometres * 1000)).density_kgpm3,
    }),
  ),
  ...(
    [
      [500, 95_460.8383],
      [1000, 89_874.5684],
      [2000, 79_495.2117],
      [3000, 70_108.5396],
    ] as const
  ).map(
    ([metres, pascal]): PublishedCheck => ({
      ...base,
      what: `pressure at ${metres} m, all digits, Pa`,
      source: digits,
      kind: "read",
      expected: pascal,
      tolerance: 0.02,
      got: () => figures(standardAir(metres)).pressure_Pa,
    }),
  ),
  {
    ...base,
    what: "pressure at 36 089 ft, Pa",
    source: "av8n.com/physics/altimetry.htm",
    kind: "read",
    expected: 22_632.1,
    // Half a foot of the rounded height is worth 0.54 Pa there.
    tolerance: 0.6,
    got: () => figures(standardAir(36_089 * 0.3048)).pressure_Pa,
  },
  ...(
    [
      [84_556.0, 1500],
      [70_108.5, 3000],
      [47_181.0, 6000],
    ] as const
  ).map(
    ([pascal, metres]): PublishedCheck => ({
      ...base,
      what: `pressure altitude of ${pascal} Pa, m`,
      source: mission,
      kind: "read",
      expected: metres,
      tolerance: 0.02,
      got: () => figures(pressureAltitude(pascal)).altitude_m,
    }),
  ),
  ...(
    [
      [89_874.6, 281.65, 1000],
      [70_108.5, 268.65, 3000],
    ] as const
  ).map(
    ([pascal, kelvin, metres]): PublishedCheck => ({
      ...base,
      what: `density altitude of standard air, ${pascal} Pa and ${kelvin} K, m`,
      source: mission,
      kind: "read",
      expected: metres,
      tolerance: 0.5,
      got: () => figures(densityAltitude(pascal, kelvin - 273.15)).altitude_m,
    }),
  ),
  ...(
    [
      [29.8 * 33.86388640341, 500, 950.96498],
      [1013, 500, 954.639265],
      [1000, 2000, 784.262996],
      [1005, 1500, 838.651657],
    ] as const
  ).map(
    ([setting, metres, station]): PublishedCheck => ({
      ...base,
      what: `station pressure from ${setting} hPa at ${metres} m, hPa`,
      source: metpy,
      kind: "read",
      expected: station,
      // That formula adds 0.3 hPa of instrument correction, which this one does not.
      tolerance: 0.5,
      got: () => figures(stationPressure(setting * 100, metres)).air_Pa / 100,
    }),
  ),
  ...(
    [
      [1500, 1003, 1800, 20, 2880],
      [1800, 1027, 1380, 20, 2340],
      [3500, 1020, 3290, 10, 3530],
      [2400, 1011, 2460, 33, 5220],
    ] as const
  ).flatMap(([elevation, setting, pressureAltitude_ft, celsius, densityAltitude_ft]): PublishedCheck[] => [
    {
      ...base,
      what: `pressure altitude by rule of thumb, ${elevation} ft and ${setting} hPa, ft`,
      source: thumb,
      kind: "read",
      expected: pressureAltitude_ft,
      tolerance: 0,
      got: () => figures(altitudeByRuleOfThumb(elevation, setting, celsius)).pressureAltitude_ft,
    },
    {
      ...base,
      what: `density altitude by rule of thumb, ${elevation} ft, ${setting} hPa, ${celsius} C, ft`,
      source: thumb,
      kind: "read",
      expected: densityAltitude_ft,
      tolerance: 0,
      got: () => figures(altitudeByRuleOfThumb(elevation, setting, celsius)).densityAltitude_ft,
    },
  ]),
  ...(
    [
      [25, 1901.52988, 101_325, 1.175558],
      [35, 4502.25556, 95_000, 1.054786],
      [5, 261.745996, 102_000, 1.276304],
    ] as const
  ).map(
    ([celsius, vapour, pressure, density]): PublishedCheck => ({
      ...base,
      what: `density of moist air, ${celsius} C, ${vapour} Pa of vapour in ${pressure} Pa, kg/m3`,
      source: "psychrolib 1.1.1",
      kind: "oracle-run",
      expected: density,
      tolerance: 0.0002,
      got: () => figures(airDensity(pressure, celsius, vapour)).density_kgpm3,
    }),
  ),
];
