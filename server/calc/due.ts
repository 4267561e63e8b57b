/**
 * When a repeated task, or the life of a part, is due: by hours, calendar and cycles, whichever comes first.
 */
import { settle, show } from "./figures.ts";
import { answer, type Result, refuse, type Worked } from "./result.ts";

/** Amounts of use or time. Months and days are both calendar; a task has one or the other. */
export interface DueAmounts {
  readonly hours_h?: number;
  readonly months?: number;
  readonly days?: number;
  readonly cycles?: number;
}

export interface DueTask {
  /** The repeated interval; left out for a task that is done once. */
  readonly every?: DueAmounts;
  /** The first interval, where it differs from the repeated one, and the only one of a task done once. */
  readonly first?: DueAmounts;
  /** How far past due the task may still be done. It never moves the next due point. */
  readonly tolerance?: { readonly hours_h?: number; readonly days?: number; readonly cycles?: number };
  /** How long before due it is called due soon. */
  readonly soon?: { readonly hours_h?: number; readonly days?: number; readonly cycles?: number };
  /**
   * Where the next interval begins. `done`: where the task was last done. `plan`: where it was due, so that lateness is
   * taken off the next interval; when it was done early, where it was done, so that no interval is ever longer than stated.
   */
  readonly anchor: "done" | "plan";
}

/** The state of the item that the task follows (engine, or part that moves between engines) on one day. */
export interface UsePoint {
  /** Days since 1970-01-01. */
  readonly date: number;
  /** Hours of the item; left out where nobody counts them. */
  readonly hours_h?: number;
  readonly cycles?: number;
}

export type DueMeasure = "hours" | "calendar" | "cycles";
export type DueVerdict = "ahead" | "due-soon" | "overdue" | "beyond-tolerance" | "never-done" | "done";

export interface MeasureDue {
  measure: DueMeasure;
  /** Hours, days since 1970-01-01, or cycles at which it is due. */
  dueAt: number;
  /** What is left in hours, days or cycles; negative when past. */
  left: number;
  verdict: "ahead" | "due-soon" | "overdue" | "beyond-tolerance";
}

export interface DueState extends Worked {
  verdict: DueVerdict;
  /** The measure that decides; undefined for `done` and `never-done`. */
  governing: MeasureDue | undefined;
  measures: MeasureDue[];
  /** True when the task has never been done. */
  neverDone: boolean;
}

/** Adds calendar months to a date (days since 1970-01-01), ending on the last day of a month that is too short. */
export type AddMonths = (date: number, months: number) => number;

const order: readonly MeasureDue["verdict"][] = ["ahead", "due-soon", "overdue", "beyond-tolerance"];

function refuseAmounts(name: string, amounts: DueAmounts | undefined) {
  if (!amounts) return undefined;
  for (const [unit, value] of Object.entries(amounts) as [string, number | undefined][]) {
    if (value === undefined) continue;
    if (!Number.isFinite(value) || value <= 0)
      return refuse(`The ${name} interval in ${unit.replace("_h", "")} must be greater than zero, not ${show(value)}.`);
    if (unit !== "hours_h" && !Number.isInteger(value))
      return refuse(`The ${name} interval in ${unit} is not a whole number: ${show(value)}.`);
  }
  if (amounts.months !== undefined && amounts.days !== undefined) {
    return refuse(`The ${name} interval is given in months and in days; one of them is meant.`);
  }
  return undefined;
}

/**
 * Due points of hours or cycles after each time that the task was done.
 * @returns the next due point
 */
function nextCount(
  start: number,
  first: number,
  every: number | undefined,
  done: readonly number[],
  anchor: DueTask["anchor"],
): number | undefined {
  let due: number | undefined = start + first;
  for (const at of done) {
    if (every === undefined || due === undefined) return undefined;
    due = settle((anchor === "done" ? at : Math.min(due, at)) + every);
  }
  return settle(due);
}

/** The same for dates. Months are always counted from one origin, so a series on the 31st does not slide to the 28th. */
function nextDate(
  start: number,
  first: { months?: number; days?: number },
  every: { months?: number; days?: number } | undefined,
  done: readonly number[],
  anchor: DueTask["anchor"],
  addMonths: AddMonths,
): number | undefined {
  let origin = start;
  let months = first.months ?? 0;
  let days = first.days ?? 0;
  const dueDate = () => (months === 0 ? origin : addMonths(origin, months)) + days;
  for (const at of done) {
    if (!every) return undefined;
    if (anchor === "done" || at < dueDate()) {
      origin = at;
      months = 0;
      days = 0;
    }
    months += every.months ?? 0;
    days += every.days ?? 0;
  }
  return dueDate();
}

function judge(
  measure: DueMeasure,
  dueAt: number,
  now: number,
  soon: number,
  tolerance: number | undefined,
): MeasureDue {
  const left = settle(dueAt - now);
  let verdict: MeasureDue["verdict"] = "ahead";
  if (left < 0) verdict = tolerance !== undefined && -left > tolerance ? "beyond-tolerance" : "overdue";
  else if (left <= soon) verdict = "due-soon";
  return { measure, dueAt, left, verdict };
}

/**
 * State of a task on a day.
 *
 * A task that is exactly at its due point is due soon, not overdue. A measure of the task that the item's records do not
 * count (cycles nobody wrote down) is refused rather than left out, because it might be the one that comes first.
 * @param task intervals, tolerance, anchor
 * @param start where the clock begins: the item new, overhauled or installed; undefined when nobody knows
 * @param done every time the task was done, in order
 * @param now the item today, or on the day asked about
 * @param addMonths calendar arithmetic
 * @returns `never-done` when there is neither a start nor a time done
 * Source: whichever comes first, and excess included in the next interval: the pattern of 14 CFR 91.409(b); common
 *   practice elsewhere.
 */
export function dueState(
  task: DueTask,
  start: UsePoint | undefined,
  done: readonly UsePoint[],
  now: UsePoint,
  addMonths: AddMonths,
): Result<DueState> {
  const bad = refuseAmounts("repeated", task.every) ?? refuseAmounts("first", task.first);
  if (bad) return bad;
  const opening = task.first ?? task.every;
  if (!opening) return refuse("The task has no interval.");
  for (const [index, point] of done.entries()) {
    const before = index > 0 ? done[index - 1] : start;
    if (before && point.date < before.date)
      return refuse("The times at which the task was done are not in order of date.");
    if (before?.hours_h !== undefined && point.hours_h !== undefined && point.hours_h < before.hours_h) {
      return refuse(
        `The hours run back from ${show(before.hours_h)} to ${show(point.hours_h)} h between two times done.`,
      );
    }
  }
  const neverDone = done.length === 0;
  if (!start && neverDone) {
    return answer({
      verdict: "never-done" as const,
      governing: undefined,
      measures: [],
      neverDone,
      steps: ["Never done, and no start to count from."],
    });
  }
  if (!task.every && !neverDone) {
    return answer({
      verdict: "done" as const,
      governing: undefined,
      measures: [],
      neverDone,
      steps: ["Done once, as asked."],
    });
  }
  // Without a known start the first time done serves as the start, and the repeated interval follows it.
  const known = start !== undefined;
  const begin = start ?? done[0];
  const later = known ? done : done.slice(1);
  const firstOf = known ? opening : (task.every ?? opening);
  const measures: MeasureDue[] = [];
  const missing = (what: string) => refuse(`The task counts ${what}, but the records of the item do not.`);

  for (const unit of ["hours_h", "cycles"] as const) {
    const first = firstOf[unit];
    const every = task.every?.[unit];
    if (first === undefined && every === undefined) continue;
    const name = unit === "hours_h" ? "hours" : "cycles";
    const today = now[unit];
    if (today === undefined) return missing(name);
    // Counting begins behind the last point for which nobody wrote the count down; the interval after it is known again.
    const points = [begin[unit], ...later.map((point) => point[unit])];
    const blank = points.lastIndexOf(undefined);
    const counted = points.slice(blank + 1).filter((value) => value !== undefined);
    if (counted.length === 0) return missing(name);
    const opens = blank === -1 ? first : every;
    let dueAt: number | undefined;
    if (opens !== undefined) {
      dueAt = nextCount(counted[0], opens, every, counted.slice(1), task.anchor);
    } else if (every !== undefined && counted.length > 1) {
      // A measure that only the repeated interval names begins to count when the first interval has been done.
      dueAt = nextCount(counted[1], every, every, counted.slice(2), task.anchor);
    }
    if (dueAt === undefined) continue;
    measures.push(judge(name, dueAt, today, task.soon?.[unit] ?? 0, task.tolerance?.[unit]));
  }

  const calendarFirst = firstOf.months !== undefined || firstOf.days !== undefined ? firstOf : undefined;
  const calendarEvery =
    task.every && (task.every.months !== undefined || task.every.days !== undefined) ? task.every : undefined;
  const dates = later.map((point) => point.date);
  let dueDate: number | undefined;
  if (calendarFirst) dueDate = nextDate(begin.date, calendarFirst, calendarEvery, dates, task.anchor, addMonths);
  else if (calendarEvery && dates.length > 0) {
    dueDate = nextDate(dates[0], calendarEvery, calendarEvery, dates.slice(1), task.anchor, addMonths);
  }
  if (dueDate !== undefined)
    measures.push(judge("calendar", dueDate, now.date, task.soon?.days ?? 0, task.tolerance?.days));
  if (measures.length === 0) return refuse("No interval of the task can be counted from the records.");

  const intervalOf = (measure: DueMeasure): number => {
    const amounts = task.every ?? opening;
    if (measure === "hours") return amounts.hours_h ?? opening.hours_h ?? 1;
    if (measure === "cycles") return amounts.cycles ?? opening.cycles ?? 1;
    return amounts.days ?? opening.days ?? 30 * (amounts.months ?? opening.months ?? 1);
  };
  const governing = measures.reduce((worst, each) => {
    const rank = order.indexOf(each.verdict) - order.indexOf(worst.verdict);
    if (rank !== 0) return rank > 0 ? each : worst;
    // Within one verdict the measure with the smaller share of its interval left decides.
    return each.left / intervalOf(each.measure) < worst.left / intervalOf(worst.measure) ? each : worst;
  });
  const unitWord: Record<DueMeasure, string> = { hours: "h", calendar: "days", cycles: "cycles" };
  return answer({
    verdict: governing.verdict,
    governing,
    measures,
    neverDone,
    steps: measures.map((each) => {
      const left =
        each.left < 0
          ? `${show(-each.left)} ${unitWord[each.measure]} past`
          : `${show(each.left)} ${unitWord[each.measure]} left`;
      const at = each.measure === "calendar" ? "" : ` at ${show(each.dueAt, 9)} ${unitWord[each.measure]}`;
      return `By ${each.measure}: due${at}, ${left} (${each.verdict.replace("-", " ")}).`;
    }),
  });
}

/**
 * What is left of the life of a part. The use is that of the part itself, also in the engines it was in before.
 * @param limit life limit in hours, cycles, days or months since new
 * @param made the part new (or its life begun): its own hours and cycles there are usually zero
 * @param now the part today
 * @param addMonths calendar arithmetic
 * @param soon when it is called due soon
 * Source: a life limit has no tolerance (common practice).
 */
export function lifeState(
  limit: DueAmounts,
  made: UsePoint,
  now: UsePoint,
  addMonths: AddMonths,
  soon?: DueTask["soon"],
): Result<DueState> {
  return dueState(
    { first: limit, tolerance: { hours_h: 0, days: 0, cycles: 0 }, soon, anchor: "plan" },
    made,
    [],
    now,
    addMonths,
  );
}
