/** A task that is past its due point by more than its tolerance. */

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
  id: "due/beyond-tolerance",
  severity: "error",
  on: ["engine"],
  page: {
    what: "A recurring task is past due by more than the tolerance that it allows.",
    why: "The tolerance is the last limit that whoever set the interval stands behind; beyond it nobody does.",
    remedy: "Stop, do the task, and record it. An extension beyond the tolerance is not the shop's to give.",
    faulty: [
      {
        text: `task strainer-clean Curlew-9 every 25 h or 6 months first 5 h tolerance 5 h
task oil-change Curlew-9 every 50 h
engine C9-0412 Curlew-9
  hours tsn 1200.0 h on 2026-01-01
  hours tsn 1231.0 h on 2026-04-01
  done oil-change on 2026-04-01
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
  hours tsn 1230.0 h on 2026-04-01
  done oil-change on 2026-04-01
  done strainer-clean on 2026-01-01
`,
      },
    ],
  },
  check(engine, ask, report) {
    if (engine.unread.includes("done") || engine.unread.includes("hours")) return;
    for (const item of ask.total(dueItems, engine.name)) {
      const governing = item.governing;
      if (!governing || item.verdict !== "beyond-tolerance" || item.kind !== "task") continue;
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
          related: [
            { ref: item.ref, spot: { at: item.at }, says: `every ${item.interval}` },
            ...(item.last ? [{ ref: item.last.ref, spot: { at: item.last.at }, says: lastText(item) }] : []),
          ],
        },
      );
    }
  },
  say: (d: Data) =>
    `${d.item} was due ${d.due} and is ${d.by} past it, beyond its tolerance of ${d.tolerance}: ${d.last}, interval ${d.interval}. Nobody stands behind that interval any more: do it before the engine runs again.`,
});
