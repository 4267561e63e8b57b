/**
 * The day on which hours will run out, from the engine's own use, with the spread of that use.
 */
import { settle, show } from "./figures.ts";
import { answer, type Result, refuse, refuseUnusable, type Worked } from "./result.ts";

export interface HoursReading {
  /** Days since 1970-01-01. */
  readonly date: number;
  readonly hours_h: number;
}

export interface HoursForecast extends Worked {
  /** Mean use over the record looked at, hours a day. */
  mean_hpday: number;
  /** Slow and busy use: the tenth and ninetieth hundredth of the windows looked at. */
  slow_hpday: number;
  busy_hpday: number;
  /** Expected day, days since 1970-01-01. */
  expected: number;
  /** Day at busy use, and at slow use; undefined when slow use is none at all. */
  earliest: number;
  latest: number | undefined;
}

/** Hours on a day, on the straight line between readings. */
function hoursOn(readings: readonly HoursReading[], date: number): number {
  let low = 0;
  let high = readings.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >>> 1;
    if (readings[middle].date <= date) low = middle;
    else high = middle;
  }
  const a = readings[low];
  const b = readings[high];
  if (b.date === a.date) return b.hours_h;
  return a.hours_h + ((date - a.date) / (b.date - a.date)) * (b.hours_h - a.hours_h);
}

/**
 * Forecast of the day on which a number of hours is reached.
 *
 * The spread is that of the engine's own record: use in windows as long as the time that is forecast (but at most half
 * of the record and at least a week). An engine flown only in summer so gets a wide spread, as it should.
 * @param readings hours against date, in order; three or more over at least 30 days
 * @param due_h hours at which something is due, above the last reading
 * @param options.lookBack_days only the last so many days of the record are used; 730 when left out
 * @returns a refusal for too short a record, hours that run back, or no use at all
 * Source: mean rate and the spread of moving windows (common practice, no source).
 */
export function forecastHours(
  readings: readonly HoursReading[],
  due_h: number,
  options: { lookBack_days?: number } = {},
): Result<HoursForecast> {
  const bad = refuseUnusable({ "hours at which it is due": due_h });
  if (bad) return bad;
  for (let index = 1; index < readings.length; index++) {
    if (readings[index].date < readings[index - 1].date)
      return refuse("The readings of hours are not in order of date.");
    if (readings[index].hours_h < readings[index - 1].hours_h) {
      return refuse(
        `The hours run back from ${show(readings[index - 1].hours_h, 9)} to ${show(readings[index].hours_h, 9)} h.`,
      );
    }
  }
  if (readings.length < 3)
    return refuse(`A forecast needs at least three readings of the hours; there are ${readings.length}.`);
  const last = readings[readings.length - 1];
  const from = last.date - (options.lookBack_days ?? 730);
  const begin = Math.max(readings[0].date, from);
  const span_days = last.date - begin;
  if (span_days < 30)
    return refuse(`A forecast needs a record of at least 30 days; this one covers ${show(span_days)}.`);
  const mean_hpday = (last.hours_h - hoursOn(readings, begin)) / span_days;
  if (mean_hpday <= 0)
    return refuse(`The engine did not run in the ${show(span_days)} days looked at, so no day can be forecast.`);
  const left_h = due_h - last.hours_h;
  if (left_h <= 0)
    return refuse(`${show(due_h, 9)} h are already reached; the last reading is ${show(last.hours_h, 9)} h.`);
  const ahead_days = left_h / mean_hpday;
  const window_days = Math.min(span_days / 2, Math.max(7, ahead_days));
  const rates: number[] = [];
  const windows = 50;
  for (let index = 0; index <= windows; index++) {
    const start = begin + ((span_days - window_days) * index) / windows;
    rates.push((hoursOn(readings, start + window_days) - hoursOn(readings, start)) / window_days);
  }
  rates.sort((a, b) => a - b);
  const slow_hpday = Math.min(mean_hpday, rates[Math.round(windows * 0.1)]);
  const busy_hpday = Math.max(mean_hpday, rates[Math.round(windows * 0.9)]);
  // Settled first, so that a rounding of binary arithmetic cannot name the day before.
  const dayOf = (days: number) => Math.floor(settle(last.date + days));
  const expected = dayOf(ahead_days);
  const latest = slow_hpday > 0 ? dayOf(left_h / slow_hpday) : undefined;
  return answer({
    mean_hpday,
    slow_hpday,
    busy_hpday,
    expected,
    earliest: dayOf(left_h / busy_hpday),
    latest,
    steps: [
      `Use over ${show(span_days)} days: ${show(mean_hpday, 3)} h a day; ${show(slow_hpday, 3)} in slow and ${show(busy_hpday, 3)} in busy stretches of ${show(window_days, 3)} days.`,
      `${show(left_h, 5)} h left: ${show(ahead_days, 3)} days at mean use, ${show(left_h / busy_hpday, 3)} at busy use, ${latest === undefined ? "no end" : show(left_h / slow_hpday, 3)} at slow use.`,
    ],
  });
}
