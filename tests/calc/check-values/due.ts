import { dueState } from "../../../server/calc/due.ts";
import { idleState, storageLevel } from "../../../server/calc/storage-clock.ts";
import type { CivilDate } from "../../../server/quantity/civil-date.ts";
import { addMonths } from "../../../server/quantity/civil-months.ts";
import { figures, type PublishedCheck, type UncheckedComputation } from "./check.ts";

const months = (date: number, count: number): number => addMonths(date as CivilDate, count);
const rule =
  "14 CFR 91.409(b): excess is included in the next 100 hours; dommagazine.com, timing the 100-hour inspection";
const hundred = { every: { hours_h: 100 }, tolerance: { hours_h: 10 }, anchor: "plan" } as const;
const start = { date: 0, hours_h: 0 };

export const checks: PublishedCheck[] = [
  {
    computation: "due",
    group: 8,
    what: "hours left after an inspection that was flown 2 h over",
    source: "jetcareers.com thread 130558: 102 h flown leaves 98 h",
    kind: "read",
    expected: 98,
    tolerance: 0,
    got: () =>
      figures(dueState(hundred, start, [{ date: 50, hours_h: 102 }], { date: 50, hours_h: 102 }, months)).governing
        ?.left ?? Number.NaN,
  },
  {
    computation: "due",
    group: 8,
    what: "next due point after an inspection done 8 h late, h",
    source: rule,
    kind: "read",
    expected: 200,
    tolerance: 0,
    got: () =>
      figures(dueState(hundred, start, [{ date: 50, hours_h: 108 }], { date: 60, hours_h: 120 }, months)).governing
        ?.dueAt ?? Number.NaN,
  },
  {
    computation: "due",
    group: 8,
    what: "110 h is inside the ten hours allowed (1 = overdue, inside)",
    source: rule,
    kind: "read",
    expected: 1,
    tolerance: 0,
    got: () =>
      figures(dueState(hundred, start, [], { date: 60, hours_h: 110 }, months)).verdict === "overdue" ? 1 : 0,
  },
  {
    computation: "due",
    group: 8,
    what: "110.1 h is beyond the ten hours allowed (1 = beyond)",
    source: rule,
    kind: "read",
    expected: 1,
    tolerance: 0,
    got: () =>
      figures(dueState(hundred, start, [], { date: 60, hours_h: 110.1 }, months)).verdict === "beyond-tolerance"
        ? 1
        : 0,
  },
  {
    computation: "due",
    group: 8,
    what: "next due point after an inspection done 10 h early, h: within the preceding 100 h",
    source: rule,
    kind: "read",
    expected: 190,
    tolerance: 0,
    got: () =>
      figures(dueState(hundred, start, [{ date: 50, hours_h: 90 }], { date: 60, hours_h: 95 }, months)).governing
        ?.dueAt ?? Number.NaN,
  },
  ...(
    [
      [60, 1],
      [61, 2],
      [365, 2],
      [366, 3],
    ] as const
  ).map(
    ([days, level]): PublishedCheck => ({
      computation: "storage-clock",
      group: 8,
      what: `level of preservation for ${days} days`,
      source: "US Navy text, navyaviation.tpub.com/14022 p. 122",
      kind: "read",
      expected: level,
      tolerance: 0,
      got: () => {
        const levels = [
          { name: "1", until_days: 60 },
          { name: "2", until_days: 365 },
          { name: "3", until_days: 2922 },
        ];
        return Number(figures(storageLevel(days, levels)).level.name);
      },
    }),
  ),
  {
    computation: "storage-clock",
    group: 8,
    what: "days past at 31 days idle where more than 30 need preservation",
    source: "engine maker's letter quoted at aviationconsumer.com and piperflyer.com",
    kind: "read",
    expected: -1,
    tolerance: 0,
    got: () => figures(idleState(1000, 1031, 30)).left_days,
  },
];

export const unchecked: UncheckedComputation[] = [
  {
    computation: "forecast",
    group: 8,
    why: "mean use and spread of moving windows; no published example of an engine's use was found",
  },
];
