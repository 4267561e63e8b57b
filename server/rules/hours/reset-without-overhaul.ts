/** Time since overhaul that starts again although no overhaul is recorded. */
import { engineHours, whereStated } from "../../totals/engine-hours.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly tso: string;
  readonly earlier: string;
  readonly when: string;
}

export default rule({
  id: "hours/reset-without-overhaul",
  severity: "error",
  on: ["engine", "entry", "run", "dispatch"],
  reads: ["hours", "atCounter"],
  page: {
    what: "Time since overhaul is stated lower than before, and no `overhauled` line stands between the two.",
    why: "Only a full overhaul starts the count again. A top overhaul does not: crankcase, crank and bearings keep the hours that they have.",
    remedy:
      "Write the `overhauled` line if there was one, with its date and who did it; otherwise go on counting from the earlier figure.",
    faulty: [
      {
        text: `engine C9-0412 Curlew-9
  hours tsn 1184.3 h tso 402.1 h on 2026-02-16
  hours tsn 1186.0 h tso 1.7 h on 2026-04-20
`,
      },
    ],
    sound: [
      {
        text: `engine C9-0412 Curlew-9
  hours tsn 1184.3 h tso 402.1 h on 2026-02-16
  hours tsn 1186.0 h tso 403.8 h on 2026-04-20
`,
      },
    ],
  },
  check(block, ask, report) {
    if (block.unread.includes("overhauled")) return;
    const engine =
      block.kind === "engine" ? block.name : block.engine !== "" ? block.engine : (ask.job(block.job)?.engine ?? "");
    if (engine === "" || ask.engine(engine)?.unread.includes("overhauled")) return;
    const ledger = ask.total(engineHours, engine);
    let last:
      | {
          readonly amount: number;
          readonly text: string;
          readonly ref: string;
          readonly at: number;
          readonly when: string;
        }
      | undefined;
    for (const entry of ledger.entries) {
      if (entry.kind === "overhauled") last = undefined;
      const nth = entry.stated.findIndex((one) => one.counter === "tso");
      const tso = entry.stated[nth];
      if (!tso) continue;
      if (last && tso.amount < last.amount && entry.ref === block.ref) {
        report(
          { at: entry.at, role: entry.at === 0 ? "hours" : "value", nth: entry.at === 0 ? 0 : nth },
          { tso: tso.text, earlier: last.text, when: last.when },
          { place: "tso", related: [{ ref: last.ref, spot: { at: last.at }, says: `tso ${last.text}` }] },
        );
      }
      last = { amount: tso.amount, text: tso.text, ref: entry.ref, at: entry.at, when: whereStated(entry) };
    }
  },
  say: (d: Data) =>
    `Time since overhaul is ${d.tso} and was ${d.earlier} on ${d.when}, with no overhauled line between. A top overhaul does not start the count again: write the overhauled line if there was one, else correct the figure.`,
});
