/** An engine of which nobody states the hours. */
import { engineHours } from "../../totals/engine-hours.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly engine: string;
}

export default rule({
  id: "hours/missing",
  severity: "warning",
  on: ["engine"],
  page: {
    what: "No `hours` line with a date states the running hours of this engine, in its own block or in an entry.",
    why: "Tasks by hours, lives of parts and time since overhaul cannot be counted without a figure to start from.",
    remedy:
      "Write `hours tsn ... h tso ... h on DATE` from the log book that came with the engine. If the book is lost, state what is known and say so in a note.",
    faulty: [{ text: `engine C9-0412 Curlew-9\n  owner "Fenland Flying Museum"\n` }],
    sound: [{ text: `engine C9-0412 Curlew-9\n  hours tsn 1184.3 h tso 402.1 h on 2026-02-16\n` }],
  },
  check(engine, ask, report) {
    if (engine.headerBroken || engine.unread.includes("hours")) return;
    const { entries } = ask.total(engineHours, engine.name);
    if (entries.some((entry) => entry.kind === "stated" && entry.stated.length > 0)) return;
    report({ at: 0, role: "name" }, { engine: engine.name });
  },
  say: (d: Data) =>
    `No dated hours line says how long ${d.engine} has run, so tasks, lives and time since overhaul cannot be counted. Write hours tsn and tso with their date, from the log book.`,
  repair: () => [
    {
      title: "Lay out the hours line",
      grade: "review",
      edits: [{ kind: "insert-after", at: 0, text: "hours tsn 0.0 h on " }],
    },
  ],
});
