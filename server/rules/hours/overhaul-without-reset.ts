/** Time since overhaul that went on counting over an overhaul. */
import { engineHours, showAmount, whereStated } from "../../totals/engine-hours.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly tso: string;
  readonly when: string;
  readonly most: string;
}

export default rule({
  id: "hours/overhaul-without-reset",
  severity: "error",
  on: ["engine", "entry", "run", "dispatch"],
  reads: ["hours", "atCounter"],
  page: {
    what: "After an `overhauled` line time since overhaul is stated higher than what can have run since.",
    why: "Time since overhaul starts again from nothing at an overhaul; counted on, it hides when the next one is due.",
    remedy:
      "State the time since that overhaul. If it was a top overhaul only, take the `overhauled` line away: a top overhaul does not start the count again.",
    faulty: [
      {
        text: `engine C9-0412 Curlew-9
  hours tsn 1184.3 h tso 402.1 h on 2026-02-16
  overhauled on 2026-04-01 "This shop"
  hours tsn 1186.0 h tso 403.8 h on 2026-04-20
`,
      },
    ],
    sound: [
      {
        text: `engine C9-0412 Curlew-9
  hours tsn 1184.3 h tso 402.1 h on 2026-02-16
  overhauled on 2026-04-01 "This shop"
  hours tsn 1186.0 h tso 1.7 h on 2026-04-20
`,
      },
    ],
  },
  check(block, ask, report) {
    const engine =
      block.kind === "engine" ? block.name : block.engine !== "" ? block.engine : (ask.job(block.job)?.engine ?? "");
    if (engine === "") return;
    const ledger = ask.total(engineHours, engine);
    let overhaul: (typeof ledger.entries)[number] | undefined;
    for (const entry of ledger.entries) {
      if (entry.kind === "overhauled") overhaul = entry;
      const nth = entry.stated.findIndex((one) => one.counter === "tso");
      const tso = entry.stated[nth];
      if (!overhaul || !tso || entry.ref !== block.ref) continue;
      const tsnThen = overhaul.after.tsn;
      const tsnNow = entry.after.tsn;
      const most = tsnThen !== undefined && tsnNow !== undefined ? tsnNow - tsnThen : undefined;
      // Without time since new only a figure that is not below the one before the overhaul is surely wrong.
      const before = overhaul.before.tso;
      const wrong =
        most !== undefined
          ? tso.amount - most > 2 * tso.rounding + 180
          : before !== undefined && before > 0 && tso.amount >= before;
      if (!wrong) continue;
      report(
        { at: entry.at, role: entry.at === 0 ? "hours" : "value", nth: entry.at === 0 ? 0 : nth },
        { tso: tso.text, when: whereStated(overhaul), most: most === undefined ? "" : showAmount(most, "time") },
        { place: "tso", related: [{ ref: overhaul.ref, spot: { at: overhaul.at }, says: "overhauled" }] },
      );
    }
  },
  say: (d: Data) =>
    `Time since overhaul is ${d.tso}, but the engine was overhauled (${d.when})${d.most === "" ? " and the count did not start again" : ` and has run ${d.most} since`}. State the time since that overhaul; if it was a top overhaul only, take the overhauled line away.`,
});
