/** A task of which no line says that it was ever done. */
import { dueItems } from "../../totals/due-items.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly task: string;
  readonly interval: string;
  readonly engine: string;
}

export default rule({
  id: "due/never-done",
  severity: "warning",
  on: ["engine"],
  page: {
    what: "A recurring task of the engine's type has no `done` line, and nothing says from where its first interval would count: neither an overhaul, nor the engine new, nor so few hours that it cannot be due yet.",
    why: "Nobody can tell whether it is overdue; an item that was never counted is the one that is missed.",
    remedy:
      "Find out from the old papers when it was last done and write `done NAME on DATE at tsn HOURS`, or do it now.",
    faulty: [
      {
        text: `task strainer-clean Curlew-9 every 25 h or 6 months first 5 h tolerance 5 h
task oil-change Curlew-9 every 50 h
engine C9-0412 Curlew-9
  hours tsn 1200.0 h on 2026-01-01
  done strainer-clean on 2026-01-01
`,
      },
    ],
    sound: [
      {
        text: `task strainer-clean Curlew-9 every 25 h or 6 months first 5 h tolerance 5 h
task oil-change Curlew-9 every 50 h
engine C9-0412 Curlew-9
  hours tsn 1200.0 h on 2026-01-01
  done strainer-clean on 2026-01-01
  done oil-change on 2025-12-01 at tsn 1190.0 h
`,
      },
    ],
  },
  check(engine, ask, report) {
    if (engine.unread.includes("done")) return;
    for (const item of ask.total(dueItems, engine.name)) {
      if (item.kind !== "task" || item.verdict !== "never-done") continue;
      report(
        { at: 0, role: "name" },
        { task: item.name, interval: item.interval, engine: engine.name },
        { place: item.name, related: [{ ref: item.ref, spot: { at: item.at }, says: `every ${item.interval}` }] },
      );
    }
  },
  say: (d: Data) =>
    `No line says that ${d.task} (every ${d.interval}) was ever done on ${d.engine}, and nothing says from where to count. Find out when it was, or do it, and write done ${d.task} with its date and hours.`,
});
