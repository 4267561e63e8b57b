import { scopeOf } from "../../facts/refs.ts";
import { formatDate } from "../../quantity/civil-date.ts";
import { defectStates } from "../../totals/defect-states.ts";
import { dueItems } from "../../totals/due-items.ts";
import { engineOf } from "../../totals/parts.ts";
import { JOB } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly name: string;
  readonly place: string;
  readonly interval: string;
  readonly past: string;
  readonly asOf: string;
  readonly scope: string;
}

const SHOP = `${JOB}entry E1 2026-02-17 strip job J26-014\n  defect D9 rocker-cover[2] "Paint chipped"\n  defer D9 until 2026-04-30 or 50 h by CNO 2026-02-17 "Cosmetic"\n`;

export default rule<"entry", Found>({
  id: "defect/deferred-past-limit",
  severity: "error",
  on: ["entry"],
  reads: ["defers"],
  page: {
    what: "A deferred defect is past the day or the hours up to which it was put off, and it is not rectified.",
    why: "A deferral is leave up to a limit and no further. Past it the engine runs with an open defect that nobody allows. Hours count from the day of the deferral; whichever limit comes first decides.",
    remedy:
      "Rectify it, in a later job with its full name (`rectify J26-014/D9 ...`), or have it deferred again by someone who may.",
    faulty: [{ text: SHOP, asOf: "2026-05-01" }],
    sound: [{ text: SHOP, asOf: "2026-04-30" }],
  },
  check(block, ask, report) {
    const scope = scopeOf(block);
    const due = ask.total(dueItems, engineOf(block, ask));
    for (const line of block.defers) {
      const item = due.find((one) => one.kind === "deferral" && one.ref === block.ref && one.at === line.at);
      if (item?.verdict !== "overdue" || !item.governing) continue;
      // A later line about the defect took this one's place.
      const defect = ask
        .total(defectStates, scope)
        .find((one) => one.decided?.ref === block.ref && one.decided.at === line.at);
      if (!defect) continue;
      const { measure, left } = item.governing;
      const past =
        measure === "calendar"
          ? `${Math.round(-left)} ${Math.round(-left) === 1 ? "day" : "days"}`
          : `${(-left).toFixed(1)} h`;
      report(
        { at: line.at, role: measure === "calendar" ? "until" : "limit" },
        { name: defect.name, place: defect.place, interval: item.interval, past, asOf: formatDate(ask.asOf()), scope },
        { place: defect.place, related: [{ ref: defect.ref, spot: { at: defect.at }, says: "The defect" }] },
      );
    }
  },
  say: ({ name, place, interval, past, asOf, scope }) =>
    `Defect ${name} at ${place} was put off ${interval}, and as of ${asOf} that is past by ${past}. Nobody allows it any more: rectify it (${scope}/${name} in a later job), or have it deferred again.`,
});
