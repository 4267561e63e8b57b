/** A task, a bulletin or a life that is due within the notice of the shop. */

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
  if (item.kind === "deferral" && item.since) return `put off on ${formatDate(item.since.date)}`;
  if (item.kind === "life" && item.since) return `fitted ${formatDate(item.since.date)}`;
  if (item.kind === "bulletin") return "not embodied";
  return item.since
    ? `not done since ${item.since.what === "overhaul" ? "the overhaul of" : "new on"} ${formatDate(item.since.date)}`
    : "never done";
}

const WORDS = { task: "Task", bulletin: "Bulletin", life: "The life of", deferral: "Deferred defect" } as const;
const nameOf = (item: DueItem): string => `${WORDS[item.kind]} ${item.name}`;

export default rule({
  id: "due/due-soon",
  severity: "information",
  on: ["engine"],
  page: {
    what: "A recurring task, a bulletin, a part's life or a deferred defect is due within the shop's notice: 10 h or 30 days, unless the shop says otherwise with `notice`.",
    why: "Work that is known in time can be done while the engine is open anyway.",
    remedy: "Plan it. The finding goes when the item is done, and becomes due/overdue when it is not.",
    faulty: [
      {
        text: `task strainer-clean Curlew-9 every 25 h or 6 months first 5 h tolerance 5 h
task oil-change Curlew-9 every 50 h
engine C9-0412 Curlew-9
  hours tsn 1200.0 h on 2026-01-01
  hours tsn 1245.0 h on 2026-04-01
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
  hours tsn 1239.5 h on 2026-04-01
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
      if (!governing || item.verdict !== "due-soon") continue;
      report(
        { at: 0, role: "name" },
        {
          item: nameOf(item),
          due: dueText(governing),
          by: leftText(governing),
          interval: item.kind === "task" || item.kind === "life" ? item.interval : "",
          tolerance: item.tolerance,
          last: lastText(item),
        },
        {
          place: item.name,
          related: [
            {
              ref: item.ref,
              spot: { at: item.at },
              says: item.kind === "task" ? `every ${item.interval}` : `${WORDS[item.kind]} ${item.name}`,
            },
            ...(item.last ? [{ ref: item.last.ref, spot: { at: item.last.at }, says: lastText(item) }] : []),
          ],
        },
      );
    }
  },
  say: (d: Data) =>
    `${d.item} is due ${d.due}: ${d.by} left${d.interval === "" ? "" : `, interval ${d.interval}`}, ${d.last}. Plan it while there is time.`,
});
