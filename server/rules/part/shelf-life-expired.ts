import { daysBetween, formatDate } from "../../quantity/civil-date.ts";
import { JOB } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly title: string;
  readonly batch: string;
  readonly expires: string;
  readonly used: string;
  readonly days: number;
}

const entry = (day: string): string =>
  `${JOB}entry E1 ${day} build job J26-014\n  consumable "Jointing compound" batch JC-11 expires 2026-02-28\n`;

export default rule<"entry", Found>({
  id: "part/shelf-life-expired",
  severity: "error",
  on: ["entry"],
  reads: ["consumables"],
  page: {
    what: "A consumable was used after its shelf life. The day that it expires still counts as good.",
    why: "Jointing compound, sealant, adhesive and rubber lose what they are used for before it shows. The joint made with them may let go in service.",
    remedy: "Do the work again with good material, or correct the date if it was misread from the tin.",
    faulty: [{ text: entry("2026-03-02") }],
    sound: [{ text: entry("2026-02-28") }],
  },
  check(block, _ask, report) {
    const { date } = block;
    if (date === undefined) return;
    for (const line of block.consumables) {
      if (line.expires === undefined || line.expires >= date) continue;
      report(
        { at: line.at, role: "expires" },
        {
          title: line.title,
          batch: line.batch,
          expires: formatDate(line.expires),
          used: formatDate(date),
          days: daysBetween(line.expires, date),
        },
      );
    }
  },
  say: ({ title, batch, expires, used, days }) =>
    `${title}${batch === "" ? "" : `, batch ${batch},`} was used on ${used}, ${days === 1 ? "a day" : `${days} days`} after its shelf life ended on ${expires}. Do the work again with good material.`,
});
