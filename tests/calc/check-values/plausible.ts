import { median, modifiedZ } from "../../../server/calc/plausibility.ts";
import type { PublishedCheck } from "./check.ts";
import { figures } from "./check.ts";

const group = 11;
const computation = "plausibility";
const table = "codingace.net, modified z score, example data table";
const eight = [10, 12, 12, 13, 12, 11, 14, 300];
const bores = [98.01, 98.012, 98.015, 98.016, 98.021, 98.024];

function score(value: number, expected: number): PublishedCheck {
  return {
    computation,
    group,
    what: `modified z of ${value} among eight readings`,
    source: table,
    kind: "read",
    expected,
    tolerance: 0.00005,
    got: () => figures(modifiedZ(value, eight)).score,
  };
}

export const checks: PublishedCheck[] = [
  score(300, 194.256),
  score(10, -1.349),
  score(13, 0.6745),
  score(14, 1.349),
  {
    computation,
    group,
    what: "median of eight readings",
    source: table,
    kind: "read",
    expected: 12,
    tolerance: 0,
    got: () => figures(median(eight)).median,
  },
  {
    computation,
    group,
    what: "spread (MAD) of eight readings",
    source: table,
    kind: "read",
    expected: 1,
    tolerance: 0,
    got: () => figures(modifiedZ(12, eight)).spread,
  },
  {
    computation,
    group,
    what: "modified z of 10 with median 5 and MAD 2",
    source: "bit1024.com, modified z score (prints 1.69)",
    kind: "read",
    expected: 1.69,
    tolerance: 0.005,
    got: () => figures(modifiedZ(10, [1, 3, 5, 7, 9])).score,
  },
  {
    computation,
    group,
    what: "spread (MAD) of six bores, mm",
    source: "SciPy 1.17.1, median_abs_deviation",
    kind: "oracle-run",
    expected: 0.0045,
    tolerance: 1e-12,
    got: () => figures(modifiedZ(98.01, bores)).spread,
  },
];
