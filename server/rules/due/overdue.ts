/** A task that is past its due point as of today. */

import { formatDate } from "../../quantity/civil-date.ts";
import { type DueItem, dueText, leftText } from "../../totals/due-item.ts";
import { dueItems } from "../../totals/due-items.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly item: string;
  readonly due: string;
  readonly by: string;
  readonly interval: string;
  readonly tolerance: string;
  readonly last: string;
}

/** When it was last done, or from where the first interval counts. */
function lastText(item: DueItem): string {
  if (item.last) return `last done ${formatDate(item.last.date)}`;
  return item.since
    ? `not done since ${item.since.what === "overhaul" ? "the overhaul of" : "new on"} ${formatDate(item.since.date)}`
    : "never done";
}

export default rule({
  id: "due/overdue",
  severity: "error",
  on: ["engine"],
  page: {
    what: "A recurring task of the engine is past due as of today, by hours, calendar or cycles. Past due within the task's tolerance it is a warning.",
    why: "Work that comes too late is work that was needed; an overdue task also makes the release of the engine untrue.",
    remedy:
      "Do the task and write a `done` line, with date and hours; it clears the finding. The next interval is counted from where it was due when the tolerance was used, so that tolerance never adds up.",
    faulty: [
      {
        text: `task strainer-clean Curlew-9 every 25 h or 6 months first 5 h tolerance 5 h
task oil-change Curlew-9 every 50 h
engine C9-0412 Curlew-9
  hours tsn 1200.0 h on 2026-01-01
  hours tsn 1260.0 h on 2026-04-01
  done oil-change on 2026-01-01
  done strainer-clean on 2026-04-01
`,
      },
    ],
    sound: [
      {
        text: `task strainer-clean Curlew-9 every 25 h or 6 months first 5 h tolerance 5 h
task oil-change Curlew-9 every 50 h
engine C9-0412 Curlew-9
  hours tsn 1200.0 h on 2026-01-01
  hours tsn 1250.0 h on 2026-04-01
  done oil-change on 2026-01-01
  done strainer-clean on 2026-04-01
`,
      },
    ],
  },
  check(engine, ask, report) {
    if (engine.unread.includes("done") || engine.unread.includes("hours")) return;
    for (const item of ask.total(dueItems, engine.name)) {
      const governing = item.governing;
      if (!governing || item.verdict !== "overdue" || item.kind !== "task") continue;
      report(
        { at: 0, role: "name" },
        {
          item: `Task ${item.name}`,
          due: dueText(governing),
          by: leftText(governing),
          interval: item.interval,
          tolerance: item.tolerance,
          last: lastText(item),
        },
        {
          place: item.name,
          // A tolerance that covers it is there to be used; a reviewer must still see it.
          ...(item.tolerance === "" ? {} : { severity: "warning" as const }),
          related: [
            { ref: item.ref, spot: { at: item.at }, says: `every ${item.interval}` },
            ...(item.last ? [{ ref: item.last.ref, spot: { at: item.last.at }, says: lastText(item) }] : []),
          ],
        },
      );
    }
  },
  say: (d: Data) =>
    `${d.item} was due ${d.due} and is ${d.by} overdue${d.tolerance === "" ? "" : ` (within its tolerance of ${d.tolerance})`}: ${d.last}, interval ${d.interval}. Work that comes too late was needed: do it, and record it with date and hours.`,
});
