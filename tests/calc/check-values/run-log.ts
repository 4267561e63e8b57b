import { civilDay, clockSeconds, dateTimeSeconds } from "../../../server/calc/csv-cells.ts";
import { fuelFlow, fuelFromChannel } from "../../../server/calc/fuel-flow.ts";
import { oilConsumption, oilLimitFromPower } from "../../../server/calc/oil-consumption.ts";
import { timeInBands } from "../../../server/calc/run-bands.ts";
import { readRunLog } from "../../../server/calc/run-log-csv.ts";
import { channelPeak, excursions } from "../../../server/calc/run-peaks.ts";
import { fastestRates } from "../../../server/calc/run-rates.ts";
import { cylinderSpread } from "../../../server/calc/run-spread.ts";
import { startDelays } from "../../../server/calc/run-start.ts";
import type { RunTable } from "../../../server/calc/run-tables.ts";
import { settling } from "../../../server/calc/settling.ts";
import { figures, type PublishedCheck, type UncheckedComputation } from "./check.ts";

const numpy = "NumPy 2.4.6 (Python 3.11.7)";
const python = "Python 3.11.7 datetime";

function table(time_s: readonly number[], ...columns: readonly (readonly number[])[]): RunTable {
  return { time_s: Float64Array.from(time_s), columns: columns.map((column) => Float64Array.from(column)) };
}

const climb = table([0, 60, 120, 180, 240, 300], [0, 800, 950, 1500, 900, 0]);
const heads = table(
  [0, 60, 120, 180],
  [150, 155, 160, 158],
  [152, 158, 161, 157],
  [149, 150, 158, 159],
  [160, 171, 166, 160],
);
const peaks = table([0, 10, 20, 30, 40, 50, 60, 70, 80], [10, 12, 30, 31, 30, 12, 8, 40, 9]);
const cooling = table([0, 20, 40, 60], [150, 146.5, 141, 137]);
const warmUp = table(
  Array.from({ length: 120 }, (_unused, index) => 10 * index),
  Array.from({ length: 120 }, (_unused, index) => 20 + 60 * (1 - Math.exp((-10 * index) / 200))),
);
const fuel = table([0, 600, 1200, 1800, 3600], [30, 32, 40, 38, 36]);
const oilPressure = table([0, 1, 11, 14], [0, 700, 800, 800], [0, 0, 12, 48]);

const run = (computation: string) => ({ computation, group: 5 }) as const;

export const checks: PublishedCheck[] = [
  {
    ...run("run-bands"),
    what: "seconds from 700 to 900 rpm of a run of six samples",
    source: `${numpy}, interp on a grid of 0.1 ms`,
    kind: "oracle-run",
    expected: 60.8334797,
    tolerance: 0.001,
    got: () => figures(timeInBands(climb, 0, [{ from: 700, until: 900 }])).inside_s[0],
  },
  {
    ...run("run-bands"),
    what: "seconds from 1000 to 1400 rpm of a run of six samples",
    source: `${numpy}, interp on a grid of 0.1 ms`,
    kind: "oracle-run",
    expected: 83.6364721,
    tolerance: 0.001,
    got: () => figures(timeInBands(climb, 0, [{ from: 1000, until: 1400 }])).inside_s[0],
  },
  {
    ...run("run-peaks"),
    what: "seconds within 15 of a peak of 40, and nothing else near it",
    source: `${numpy}, interp on a grid of 10 us, part above 25`,
    kind: "oracle-run",
    expected: 35.0817456,
    tolerance: 0.001,
    got: () => figures(channelPeak(peaks, 0, 15)).nearHighest_s,
  },
  {
    ...run("run-peaks"),
    what: "seconds above a limit of 25",
    source: `${numpy}, interp on a grid of 10 us`,
    kind: "oracle-run",
    expected: 35.0817456,
    tolerance: 0.001,
    got: () => figures(excursions(peaks, 0, { max: 25 })).outside_s,
  },
  {
    ...run("run-peaks"),
    what: "seconds within 2 of a peak of 40",
    source: `${numpy}, interp on a grid of 10 us, part from 38`,
    kind: "oracle-run",
    expected: 1.2701698,
    tolerance: 0.001,
    got: () => figures(channelPeak(peaks, 0, 2)).nearHighest_s,
  },
  {
    ...run("run-rates"),
    what: "cooling of four samples in a minute, per minute",
    source: `${numpy}, polyfit of degree 1`,
    kind: "oracle-run",
    expected: -13.35,
    tolerance: 1e-9,
    got: () => figures(fastestRates(cooling, 0)).fastestCooling.perMin,
  },
  {
    ...run("run-spread"),
    what: "greatest spread of four cylinders over four samples",
    source: `${numpy}, ptp`,
    kind: "oracle-run",
    expected: 21,
    tolerance: 0,
    got: () => figures(cylinderSpread(heads, [0, 1, 2, 3])).greatest,
  },
  {
    ...run("run-spread"),
    what: "mean of the fourth cylinder",
    source: `${numpy}, mean`,
    kind: "oracle-run",
    expected: 164.25,
    tolerance: 1e-12,
    got: () => figures(cylinderSpread(heads, [0, 1, 2, 3])).mean[3],
  },
  {
    ...run("settling"),
    what: "first moment within 2 for 120 s of a warming curve, s",
    source: `${numpy}, ptp over every window`,
    kind: "oracle-run",
    expected: 530,
    tolerance: 0,
    got: () => figures(settling(warmUp, 0, 2, 120)).settled_s,
  },
  {
    ...run("run-start"),
    what: "delay from passing 500 rpm to passing 40 psi, s",
    source: `${numpy}, interp of both channels`,
    kind: "oracle-run",
    expected: 13.333333333333332 - 0.7142857142857143,
    tolerance: 1e-9,
    got: () => figures(startDelays(oilPressure, 0, 500, 1, 40, 30)).starts[0].delay_s,
  },
  {
    ...run("oil-consumption"),
    what: "limit of 0.006 lb/(hp h) at 160 hp, US qt/h",
    source: "pilotsofamerica.com topic 55520, quoting a maker's instruction",
    kind: "read",
    expected: 0.52,
    tolerance: 0.005,
    got: () => figures(oilLimitFromPower(160, 0.006, 7.4)).greatest_usqtph,
  },
  {
    ...run("oil-consumption"),
    what: "one US quart in one hour, L",
    source: "GNU units 2.22",
    kind: "oracle-run",
    expected: 0.946352946,
    tolerance: 5e-10,
    got: () => {
      const { rate_Lph, rate_usqtph } = figures(oilConsumption({ added_L: 1, drained_L: 0, hours_h: 1 }));
      return rate_Lph / rate_usqtph;
    },
  },
  {
    ...run("fuel-flow"),
    what: "litres of a flow channel of five samples over an hour",
    source: `${numpy}, trapezoid`,
    kind: "oracle-run",
    expected: 36.166666666666664,
    tolerance: 1e-9,
    got: () => figures(fuelFromChannel(fuel, 0)).volume_L,
  },
  {
    ...run("fuel-flow"),
    what: "litres in one US gallon",
    source: "NIST HB 44 App. C, 231 cubic inches",
    kind: "read",
    expected: 3.785411784,
    tolerance: 1e-12,
    got: () => {
      const { flow_Lph, flow_usgalph } = figures(fuelFlow(100, 1, 0.72));
      return flow_Lph / flow_usgalph;
    },
  },
  ...(
    [
      [2000, 2, 29, 11_016],
      [2026, 11, 25, 20_782],
      [1969, 12, 31, -1],
      [2100, 3, 1, 47_541],
    ] as const
  ).map(
    ([year, month, day, days]): PublishedCheck => ({
      ...run("csv-cells"),
      what: `days from 1970-01-01 to ${year}-${month}-${day}`,
      source: python,
      kind: "oracle-run",
      expected: days,
      tolerance: 0,
      got: () => civilDay(year, month, day),
    }),
  ),
  {
    ...run("csv-cells"),
    what: "seconds of 2026-03-02T10:02:30Z since 1970",
    source: python,
    kind: "oracle-run",
    expected: 1_772_445_750,
    tolerance: 0,
    got: () => {
      const bytes = new TextEncoder().encode("2026-03-02T10:02:30Z");
      return dateTimeSeconds(bytes, 0, bytes.length);
    },
  },
  {
    ...run("csv-cells"),
    what: "seconds of the clock time 10:02:30",
    source: python,
    kind: "oracle-run",
    expected: 36_150,
    tolerance: 0,
    got: () => {
      const bytes = new TextEncoder().encode("10:02:30");
      return clockSeconds(bytes, 0, bytes.length);
    },
  },
  {
    ...run("run-log-csv"),
    what: "seconds between 2026-03-01 00:00 and 2026-03-02T10:02:30 in a log",
    source: python,
    kind: "oracle-run",
    expected: 122_550,
    tolerance: 0,
    got: () => {
      const text = "when,rpm\n2026-03-01 00:00,800\n2026-03-02T10:02:30,900\n";
      const log = figures(readRunLog(text, { time: { header: "when" }, channels: [{ header: "rpm" }] }));
      return log.table.time_s[1];
    },
  },
];

export const unchecked: UncheckedComputation[] = [
  {
    computation: "run-steps",
    group: 5,
    why: "the match of run-in steps is this project's own rule; held against a brute-force search in its test",
  },
  { computation: "magneto", group: 5, why: "drop and split are subtractions; limits come in from the manual" },
];
