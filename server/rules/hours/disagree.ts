/** Two statements of an engine's hours that cannot both be right. */
import type { EngineHours, HoursEntry, MeterReading } from "../../totals/engine-hours.ts";
import { engineHours, hoursOn, showAmount, whereStated } from "../../totals/engine-hours.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly what: "same-day" | "overhaul" | "less-than-run" | "meter";
  readonly counter: string;
  readonly now: string;
  readonly other: string;
  readonly when: string;
}

interface Found extends Data {
  readonly at: number;
  readonly role: string;
  readonly nth: number;
  readonly otherRef: string;
  readonly otherAt: number;
}

/** What is wrong with the statements of one entry of the ledger, against the one before it of the same counter. */
function inEntry(entry: HoursEntry, last: ReadonlyMap<string, HoursEntry>, ledger: EngineHours): Found[] {
  const found: Found[] = [];
  for (const [nth, one] of entry.stated.entries()) {
    const role = entry.at === 0 ? "hours" : "value";
    const earlier = last.get(one.counter);
    const dimension = ledger.dimensions[one.counter] ?? "time";
    const at = { at: entry.at, role, nth, otherRef: earlier?.ref ?? entry.ref, otherAt: earlier?.at ?? entry.at };
    if (one.counter === "tso" && entry.after.tsn !== undefined && one.amount > entry.after.tsn) {
      found.push({
        what: "overhaul",
        counter: "tso",
        now: one.text,
        other: showAmount(entry.after.tsn, "time"),
        when: "",
        ...at,
      });
      continue;
    }
    const before = entry.before[one.counter];
    const was = earlier?.stated.find((two) => two.counter === one.counter);
    if (!earlier || !was || before === undefined || one.amount < was.amount) continue;
    const slack = one.rounding + was.rounding;
    const inService = entry.ref.startsWith("engine:") || earlier.ref.startsWith("engine:");
    if (earlier.date === entry.date && before === was.amount && one.amount - was.amount > slack && !inService) {
      found.push({
        what: "same-day",
        counter: one.counter,
        now: one.text,
        other: was.text,
        when: whereStated(earlier),
        ...at,
      });
    } else if (before - one.amount > slack) {
      found.push({
        what: "less-than-run",
        counter: one.counter,
        now: one.text,
        other: showAmount(before, dimension),
        when: whereStated(earlier),
        ...at,
      });
    }
  }
  return found;
}

/** A meter and time since new that did not gain the same between two days with no run on the stand between them. */
function meterGain(
  from: MeterReading,
  to: MeterReading,
  ledger: EngineHours,
): { readonly gain: number; readonly tsn: number } | undefined {
  if (
    ledger.dimensions.tsn !== "time" ||
    ledger.entries.some((entry) => entry.kind === "run" && entry.date >= from.date && entry.date <= to.date)
  )
    return undefined;
  const stated = (date: number) =>
    ledger.entries.some((entry) => entry.date === date && entry.stated.some((one) => one.counter === "tsn"));
  if (!stated(from.date) || !stated(to.date)) return undefined;
  const [then, now] = [hoursOn(ledger, "tsn", from.date), hoursOn(ledger, "tsn", to.date)];
  if (then === undefined || now === undefined) return undefined;
  const gain = to.amount - from.amount;
  // Four figures are rounded: two of the meter, two of time since new, taken as no finer than a tenth of an hour.
  const slack = from.rounding + to.rounding + 2 * 180;
  return gain >= 0 && Math.abs(gain - (now - then)) > slack ? { gain, tsn: now - then } : undefined;
}

export default rule({
  id: "hours/disagree",
  severity: "warning",
  on: ["engine", "entry", "run", "dispatch"],
  reads: ["hours", "meters", "atCounter"],
  page: {
    what: "Two statements do not go together: two figures for one day, more hours since overhaul than since new, fewer hours than the runs and the service recorded since the last figure add up to, or a meter that gained another time than the engine did.",
    why: "One of them is wrong, and every task and life is counted by it.",
    remedy:
      "Find the right figure in the log book and correct the other. Where the shop does not count running on the stand, say `stand-time excluded` in the shop block.",
    faulty: [
      {
        text: `engine C9-0412 Curlew-9
  hours tsn 402.1 h tso 1184.3 h on 2026-02-16
`,
      },
    ],
    sound: [
      {
        text: `engine C9-0412 Curlew-9
  hours tsn 1184.3 h tso 402.1 h on 2026-02-16
`,
      },
    ],
  },
  check(block, ask, report) {
    const engine =
      block.kind === "engine" ? block.name : block.engine !== "" ? block.engine : (ask.job(block.job)?.engine ?? "");
    if (engine === "") return;
    const ledger = ask.total(engineHours, engine);
    const last = new Map<string, HoursEntry>();
    for (const entry of ledger.entries) {
      if (entry.kind !== "stated") continue;
      if (entry.ref === block.ref) {
        for (const { at, role, nth, otherRef, otherAt, ...data } of inEntry(entry, last, ledger)) {
          report({ at, role, nth }, data, {
            place: data.counter,
            related:
              otherAt === at && otherRef === block.ref
                ? []
                : [{ ref: otherRef, spot: { at: otherAt }, says: "the earlier figure" }],
          });
        }
      }
      for (const one of entry.stated) last.set(one.counter, entry);
    }
    const meters = new Map<string, MeterReading>();
    for (const meter of ledger.meters) {
      const from = meters.get(meter.meter);
      const gain = from && meter.ref === block.ref ? meterGain(from, meter, ledger) : undefined;
      if (from && gain) {
        report(
          { at: meter.at, role: "value" },
          {
            what: "meter",
            counter: meter.meter,
            now: showAmount(gain.gain, "time"),
            other: showAmount(gain.tsn, "time"),
            when: whereStated(from),
          },
          {
            place: meter.meter,
            related: [{ ref: from.ref, spot: { at: from.at }, says: `${meter.meter} ${from.text}` }],
          },
        );
      }
      meters.set(meter.meter, meter);
    }
  },
  say: (d: Data) => {
    switch (d.what) {
      case "overhaul":
        return `Time since overhaul is ${d.now}, more than the ${d.other} since new. One of the two is wrong, or they are the wrong way round: look in the log book.`;
      case "same-day":
        return `${d.counter} is ${d.now} here and ${d.other} for the same day (${d.when}), with no run between. One of the two is wrong: look in the log book.`;
      case "less-than-run":
        return `${d.counter} is ${d.now}, but the figure of ${d.when} and what ran since add up to ${d.other}. Correct the figure, or say stand-time excluded in the shop block if the stand does not count.`;
      default:
        return `Meter ${d.counter} gained ${d.now} since ${d.when}, and time since new ${d.other}. One of the figures is wrong: read the meter again, and look in the log book.`;
    }
  },
});
