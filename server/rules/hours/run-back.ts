/** A counter or meter that reads less than it did earlier. */
import { engineHours, whereStated } from "../../totals/engine-hours.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly counter: string;
  readonly now: string;
  readonly earlier: string;
  readonly when: string;
  readonly isMeter: boolean;
}

export default rule({
  id: "hours/run-back",
  severity: "error",
  on: ["engine", "entry", "run", "dispatch"],
  reads: ["hours", "meters", "atCounter"],
  page: {
    what: "A counter of the engine is stated lower than it was stated on an earlier day. Time since overhaul has rules of its own.",
    why: "Lives of parts, tasks and the next overhaul are counted by these figures; hours that go backwards make all of them wrong.",
    remedy:
      "Look at the log book and correct the wrong figure; in a signed block, by an entry that `amends` it. A meter that was replaced gets a new name.",
    faulty: [
      {
        text: `engine C9-0412 Curlew-9
  hours tsn 1184.3 h on 2026-02-16
  hours tsn 1148.9 h on 2026-04-11
`,
      },
    ],
    sound: [
      {
        text: `engine C9-0412 Curlew-9
  hours tsn 1184.3 h on 2026-02-16
  hours tsn 1184.3 h on 2026-04-11
`,
      },
    ],
  },
  check(block, ask, report) {
    const engine =
      block.kind === "engine" ? block.name : block.engine !== "" ? block.engine : (ask.job(block.job)?.engine ?? "");
    if (engine === "") return;
    const ledger = ask.total(engineHours, engine);
    const last = new Map<
      string,
      {
        readonly amount: number;
        readonly text: string;
        readonly ref: string;
        readonly at: number;
        readonly when: string;
      }
    >();
    for (const entry of ledger.entries) {
      for (const [nth, one] of entry.stated.entries()) {
        if (one.counter === "tso") continue;
        const before = last.get(one.counter);
        const now = { amount: one.amount, text: one.text, ref: entry.ref, at: entry.at, when: whereStated(entry) };
        if (before && one.amount < before.amount && entry.ref === block.ref) {
          // The hours of an entry's header stand on its own line.
          const spot = entry.at === 0 ? { at: 0, role: "hours" } : { at: entry.at, role: "value", nth };
          report(
            spot,
            { counter: one.counter, now: one.text, earlier: before.text, when: before.when, isMeter: false },
            {
              place: one.counter,
              related: [{ ref: before.ref, spot: { at: before.at }, says: `${one.counter} ${before.text}` }],
            },
          );
        }
        if (!before || one.amount >= before.amount) last.set(one.counter, now);
      }
    }
    last.clear();
    for (const meter of ledger.meters) {
      const before = last.get(meter.meter);
      if (before && meter.amount < before.amount && meter.ref === block.ref) {
        report(
          { at: meter.at, role: "value" },
          { counter: meter.meter, now: meter.text, earlier: before.text, when: before.when, isMeter: true },
          {
            place: meter.meter,
            related: [{ ref: before.ref, spot: { at: before.at }, says: `${meter.meter} ${before.text}` }],
          },
        );
      }
      if (!before || meter.amount >= before.amount)
        last.set(meter.meter, {
          amount: meter.amount,
          text: meter.text,
          ref: meter.ref,
          at: meter.at,
          when: whereStated(meter),
        });
    }
  },
  say: (d: Data) =>
    `${d.isMeter ? "Meter " : ""}${d.counter} reads ${d.now}, less than the ${d.earlier} stated ${d.when.startsWith("2") ? `on ${d.when}` : d.when}: it runs back. Lives and tasks are counted by it: correct the wrong figure${d.isMeter ? ", or give a replaced meter a new name" : ""}.`,
});
