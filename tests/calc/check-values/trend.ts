import { deviationFromBase, drift, step } from "../../../server/calc/trend.ts";
import { figures, type PublishedCheck } from "./check.ts";

const sen = "Sen 1968, as held in the tests of the R package deming";
const scipy = "SciPy 1.17.1 stats.theilslopes";
const base = { computation: "trend", group: 9 } as const;

const example = { t: [1, 2, 3, 4, 10, 12, 18], y: [9, 15, 19, 20, 45, 55, 78] };

const sets: readonly {
  name: string;
  x: readonly number[];
  y: readonly number[];
  confidence: number;
  slope: number;
  from: number;
  until: number;
}[] = [
  {
    name: "compression over hours",
    x: [0, 25, 50, 75, 110, 150, 190],
    y: [76, 76, 75, 75, 74, 73, 71],
    confidence: 0.95,
    slope: -0.024,
    from: -0.034782608695652174,
    until: -0.016666666666666666,
  },
  {
    name: "compression over hours",
    x: [0, 25, 50, 75, 110, 150, 190],
    y: [76, 76, 75, 75, 74, 73, 71],
    confidence: 0.9,
    slope: -0.024,
    from: -0.030303030303030304,
    until: -0.01818181818181818,
  },
  {
    name: "ten rising readings",
    x: [0, 1, 2, 3, 4, 5, 6, 7, 8, 9],
    y: [22, 24, 21, 26, 25, 28, 27, 30, 29, 33],
    confidence: 0.95,
    slope: 1,
    from: 0.75,
    until: 1.6,
  },
  {
    name: "one wild reading",
    x: [1, 2, 4, 7, 11, 16, 22],
    y: [3.1, 3, 3.4, 3.9, 9, 5.2, 6.1],
    confidence: 0.95,
    slope: 0.15,
    from: 0.09999999999999994,
    until: 0.5900000000000001,
  },
  {
    name: "ties on both axes",
    x: [0, 0, 0, 0, 10, 20, 20, 20, 20, 20, 20, 20, 30, 30],
    y: [80, 77, 79, 76, 77, 78, 76, 75, 78, 76, 79, 76, 79, 75],
    confidence: 0.9,
    slope: -0.05,
    from: -0.1,
    until: 0.05,
  },
  {
    name: "many ties",
    x: [0, 10, 20, 30, 40, 50, 60, 70],
    y: [5, 5, 5, 6, 6, 6, 7, 7],
    confidence: 0.95,
    slope: 1 / 30,
    from: 0,
    until: 0.05,
  },
];

const up = [21, 23, 22, 20, 22, 24, 21, 30, 32, 29, 31, 33, 30];
const down = [76, 75, 76, 77, 75, 76, 74, 70, 71, 70, 69, 71, 70, 70];

export const checks: PublishedCheck[] = [
  {
    ...base,
    what: "slope of Sen's example",
    source: sen,
    kind: "read",
    expected: 4,
    tolerance: 0,
    got: () => figures(drift(example.t, example.y, 0.93)).slope,
  },
  {
    ...base,
    what: "intercept of Sen's example",
    source: sen,
    kind: "read",
    expected: 6,
    tolerance: 0,
    got: () => figures(drift(example.t, example.y, 0.93)).intercept,
  },
  {
    ...base,
    what: "lower end of the 93 % interval of Sen's example",
    source: sen,
    kind: "read",
    expected: 26 / 7,
    tolerance: 1e-12,
    got: () => figures(drift(example.t, example.y, 0.93)).interval?.from ?? Number.NaN,
  },
  {
    ...base,
    what: "upper end of the 93 % interval of Sen's example",
    source: sen,
    kind: "read",
    expected: 35 / 8,
    tolerance: 1e-12,
    got: () => figures(drift(example.t, example.y, 0.93)).interval?.until ?? Number.NaN,
  },
  ...sets.flatMap((set): PublishedCheck[] => {
    const run = () => figures(drift(set.x, set.y, set.confidence));
    const what = `${set.name}, ${set.confidence}`;
    return [
      {
        ...base,
        what: `slope of ${what}`,
        source: scipy,
        kind: "oracle-run",
        expected: set.slope,
        tolerance: 1e-12,
        got: () => run().slope,
      },
      {
        ...base,
        what: `lower end of ${what}`,
        source: scipy,
        kind: "oracle-run",
        expected: set.from,
        tolerance: 1e-12,
        got: () => run().interval?.from ?? Number.NaN,
      },
      {
        ...base,
        what: `upper end of ${what}`,
        source: scipy,
        kind: "oracle-run",
        expected: set.until,
        tolerance: 1e-12,
        got: () => run().interval?.until ?? Number.NaN,
      },
    ];
  }),
  ...(
    [
      ["up", up, 42],
      ["down", down, 49],
    ] as const
  ).flatMap(([name, values, statistic]): PublishedCheck[] => [
    {
      ...base,
      what: `rank statistic of a series that steps ${name}`,
      source: "SciPy 1.17.1 stats.mannwhitneyu at every split, twice U less its mean",
      kind: "oracle-run",
      expected: statistic,
      tolerance: 0,
      got: () => figures(step(values)).statistic,
    },
    {
      ...base,
      what: `readings before the step of a series that steps ${name}`,
      source: "SciPy 1.17.1 stats.mannwhitneyu at every split",
      kind: "oracle-run",
      expected: 7,
      tolerance: 0,
      got: () => figures(step(values)).after,
    },
  ]),
  {
    ...base,
    what: "scatter of a base of 8, 5, 5, 3 ppm aluminium, as distance over scatters",
    source: "SciPy 1.17.1 stats.median_abs_deviation(scale='normal')",
    kind: "oracle-run",
    expected: 1.482602218505602,
    tolerance: 1e-12,
    got: () => {
      const found = figures(deviationFromBase([8, 5, 5, 3], 9));
      return found.difference / (found.scatters ?? Number.NaN);
    },
  },
];
