/**
 * Clocks of an engine that stands: idle without preservation, preserved in storage, and the checks in between.
 */
import { show } from "./figures.ts";
import { answer, type Result, refuse, refuseNotPositive, refuseUnusable, type Worked } from "./result.ts";

export interface IdleState extends Worked {
  idle_days: number;
  /** Days until the limit; negative when past. */
  left_days: number;
  verdict: "ahead" | "due-soon" | "overdue";
}

/**
 * How long an engine has stood since its last good run (long and hot enough to drive out water).
 * @param lastRun day of that run, days since 1970-01-01
 * @param now the day asked about
 * @param limit_days days after which it must be preserved or run, from its document; more than these days is overdue
 * @param soon_days days before the limit at which it is called due soon
 * Source: the limit comes in with the engine type; a maker's letter has 30 days without an hour at normal oil temperature.
 */
export function idleState(lastRun: number, now: number, limit_days: number, soon_days = 7): Result<IdleState> {
  const bad =
    refuseUnusable({ "day of the last run": lastRun, "day asked about": now }) ??
    refuseNotPositive({ "idle limit": limit_days });
  if (bad) return bad;
  if (now < lastRun) return refuse("The last run lies after the day asked about.");
  const idle_days = now - lastRun;
  const left_days = limit_days - idle_days;
  const verdict = left_days < 0 ? "overdue" : left_days <= soon_days ? "due-soon" : "ahead";
  return answer({
    idle_days,
    left_days,
    verdict,
    steps: [
      `Idle ${show(idle_days)} days of ${show(limit_days)}: ${left_days < 0 ? `${show(-left_days)} days past` : `${show(left_days)} days left`}.`,
    ],
  });
}

/** A level of preservation: what it is called and for how long it serves. */
export interface StorageLevel {
  readonly name: string;
  readonly until_days: number;
}

/**
 * The lowest level of preservation that serves for the planned time.
 * @param planned_days planned standing time, days
 * @param levels in rising order, from the document that the shop works to
 * Source: the levels come in as data; a US Navy text has I to 60 days, II to one year, III to eight years.
 */
export function storageLevel(
  planned_days: number,
  levels: readonly StorageLevel[],
): Result<{ level: StorageLevel } & Worked> {
  const bad = refuseNotPositive({ "planned standing time": planned_days });
  if (bad) return bad;
  const level = levels.find((each) => planned_days <= each.until_days);
  if (!level) {
    return refuse(
      `No level of preservation serves for ${show(planned_days)} days; the longest ends at ${show(levels.at(-1)?.until_days ?? 0)}.`,
    );
  }
  return answer({
    level,
    steps: [`${show(planned_days)} days: ${level.name}, good until ${show(level.until_days)} days.`],
  });
}

export interface StorageState extends Worked {
  stored_days: number;
  /** Day on which the preservation ends, and days left. */
  ends: number;
  left_days: number;
  /** Day on which the next check is due, and days left to it. */
  nextCheck: number;
  checkLeft_days: number;
  /** Stretches between checks that were longer than the interval: days of the check before and of the one that came late. */
  lateChecks: { from: number; until: number; days: number }[];
  verdict: "ahead" | "due-soon" | "overdue";
}

/**
 * State of a preserved engine in storage.
 * @param preservedOn day of preservation, days since 1970-01-01
 * @param goodFor_days how long the preservation serves, from its document
 * @param checkEvery_days interval of the checks (desiccant, humidity indicator), days
 * @param checks days on which it was checked, in any order; those before the preservation do not count
 * @param now the day asked about
 * @param soon_days days before an end at which it is called due soon
 * Source: intervals come in with the engine type; an army text asks for the indicator to be looked at every 30 days at least.
 */
export function storageState(
  preservedOn: number,
  goodFor_days: number,
  checkEvery_days: number,
  checks: readonly number[],
  now: number,
  soon_days = 7,
): Result<StorageState> {
  const bad =
    refuseUnusable({ "day of preservation": preservedOn, "day asked about": now }) ??
    refuseNotPositive({ "time that the preservation serves": goodFor_days, "interval of the checks": checkEvery_days });
  if (bad) return bad;
  if (now < preservedOn) return refuse("The preservation lies after the day asked about.");
  const counted = checks.filter((day) => day >= preservedOn && day <= now).sort((a, b) => a - b);
  const lateChecks: StorageState["lateChecks"] = [];
  let before = preservedOn;
  for (const day of counted) {
    if (day - before > checkEvery_days) lateChecks.push({ from: before, until: day, days: day - before });
    before = day;
  }
  const ends = preservedOn + goodFor_days;
  const nextCheck = before + checkEvery_days;
  const left_days = ends - now;
  const checkLeft_days = nextCheck - now;
  const nearest = Math.min(left_days, checkLeft_days);
  return answer({
    stored_days: now - preservedOn,
    ends,
    left_days,
    nextCheck,
    checkLeft_days,
    lateChecks,
    verdict: nearest < 0 ? "overdue" : nearest <= soon_days ? "due-soon" : "ahead",
    steps: [
      `Stored ${show(now - preservedOn)} days; the preservation serves ${show(goodFor_days)}: ${left_days < 0 ? `${show(-left_days)} past` : `${show(left_days)} left`}.`,
      `Last look ${show(now - before)} days ago, every ${show(checkEvery_days)}: ${checkLeft_days < 0 ? `${show(-checkLeft_days)} days late` : `${show(checkLeft_days)} days left`}.`,
    ],
  });
}
