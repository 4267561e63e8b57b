import {
  circularOrificeRule,
  type LeakVerdict,
  leakTest,
  orificeCheck,
  retestCounts,
} from "../../../server/calc/compression-leak.ts";
import { figures, type PublishedCheck, type UncheckedComputation } from "./check.ts";

const circular = "AC 43.13-1B para 8-14, landseaskyspace.com/ac4313/8-15.html";
const guideline = "a maker's guideline as quoted at avbrief.com/the-differential-pressure-test";
const base = { computation: "compression-leak", group: 6 } as const;

/** Only for checks: verdicts as numbers, so that they can be compared. */
const rank: Record<LeakVerdict, number> = { "no-limit": -1, good: 0, watch: 1, retest: 2, investigate: 3 };

const limits = {
  source: guideline,
  goodFrom_psi: 70,
  retestBelow_psi: 65,
  least_psi: 60,
  retestSpread_psi: 10,
  greatestSpread_psi: 15,
};

const verdict = (reading_psi: number): number =>
  rank[figures(leakTest(80, [{ cylinder: 1, reading_psi }], limits)).cylinders[0].verdict];

const spread = (low: number, high: number): number =>
  rank[
    figures(
      leakTest(
        80,
        [
          { cylinder: 1, reading_psi: low },
          { cylinder: 2, reading_psi: high },
        ],
        limits,
      ),
    ).spreadVerdict
  ];

export const checks: PublishedCheck[] = [
  {
    ...base,
    what: "leakage of 60 out of 80 psi, percent",
    source: circular,
    kind: "read",
    expected: 25,
    tolerance: 0,
    got: () => figures(leakTest(80, [{ cylinder: 1, reading_psi: 60 }])).cylinders[0].leak_percent,
  },
  {
    ...base,
    what: "60 out of 80 psi is not more than 25 percent loss (0 = good)",
    source: circular,
    kind: "read",
    expected: 0,
    tolerance: 0,
    got: () =>
      rank[
        figures(leakTest(80, [{ cylinder: 1, reading_psi: 60 }], { source: circular, greatestLeak_percent: 25 }))
          .cylinders[0].verdict
      ],
  },
  {
    ...base,
    what: "59 out of 80 psi is more than 25 percent loss (3 = investigate)",
    source: circular,
    kind: "read",
    expected: 3,
    tolerance: 0,
    got: () =>
      rank[
        figures(leakTest(80, [{ cylinder: 1, reading_psi: 59 }], { source: circular, greatestLeak_percent: 25 }))
          .cylinders[0].verdict
      ],
  },
  ...(
    [
      [4.999, 0.04],
      [5, 0.06],
      [5.125, 0.06],
    ] as const
  ).map(
    ([bore, orifice]): PublishedCheck => ({
      ...base,
      what: `orifice for a bore of ${bore} in, in`,
      source: bore === 5.125 ? "helihub.com safety article, November 2011" : circular,
      kind: "read",
      expected: orifice,
      tolerance: 0,
      got: () => figures(orificeCheck(0.04, bore, circularOrificeRule)).wanted_in,
    }),
  ),
  {
    ...base,
    what: "orifice of the single-size rule for a bore of 5.25 in, in",
    source: "makers' documents as quoted at avbrief.com/the-differential-pressure-test",
    kind: "read",
    expected: 0.04,
    tolerance: 0,
    got: () => figures(orificeCheck(0.04, 5.25, { kind: "single", orifice_in: 0.04, source: "maker" })).wanted_in,
  },
  ...(
    [
      [70, 0],
      [65, 1],
      [64, 2],
      [60, 2],
      [59, 3],
    ] as const
  ).map(
    ([reading, expected]): PublishedCheck => ({
      ...base,
      what: `verdict on ${reading}/80 (0 good, 1 watch, 2 retest, 3 investigate)`,
      source: guideline,
      kind: "read",
      expected,
      tolerance: 0,
      got: () => verdict(reading),
    }),
  ),
  ...(
    [
      [5, 0],
      [10, 2],
      [15, 2],
      [16, 3],
    ] as const
  ).map(
    ([difference, expected]): PublishedCheck => ({
      ...base,
      what: `verdict on a spread of ${difference} psi (0 good, 2 retest, 3 investigate)`,
      source: guideline,
      kind: "read",
      expected,
      tolerance: 0,
      got: () => spread(78 - difference, 78),
    }),
  ),
  {
    ...base,
    what: "a better retest after 2 minutes of running does not count, psi",
    source: `${circular} (at least 3 minutes)`,
    kind: "read",
    expected: 58,
    tolerance: 0,
    got: () => figures(retestCounts(58, 70, 2, 3)).counts_psi,
  },
];

export const unchecked: UncheckedComputation[] = [
  {
    computation: "compression-direct",
    group: 6,
    why: "difference and ratio; no worked example of a direct test was found",
  },
];
