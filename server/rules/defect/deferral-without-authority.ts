import { scopeOf } from "../../facts/refs.ts";
import { formatDate } from "../../quantity/civil-date.ts";
import { mayAct, rolesFor } from "../../totals/authority.ts";
import { jobContext } from "../../totals/job-context.ts";
import { JOB } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly of: string;
  readonly by: string;
  readonly on: string;
  readonly roles: string;
  readonly held: string;
}

const SHOP = `${JOB}entry E1 2026-02-19 inspect job J26-014\n  defect D1 baffle[4] "Cracked at the lower lug"\n`;
const line = (by: string): string => `  defer D1 until 2026-12-31 by ${by} 2026-02-20 "No load on the lug"\n`;

export default rule<"entry", Found>({
  id: "defect/deferral-without-authority",
  severity: "error",
  on: ["entry"],
  reads: ["defers"],
  page: {
    what: "A defect was deferred by someone who may not defer on that day.",
    why: "Letting an engine go with a defect is a decision that someone must be entitled to take, and answer for. Where the shop has no `authority defer` line a certifier may.",
    remedy: "Have it deferred by someone who may, or rectify it.",
    faulty: [{ text: `${SHOP}${line("ATH")}` }],
    sound: [{ text: `${SHOP}${line("CNO")}` }],
  },
  check(block, ask, report) {
    const { type } = ask.total(jobContext, scopeOf(block));
    for (const line of block.defers) {
      const person = ask.person(line.by);
      if (!person || person.unread.includes("role") || mayAct(ask, line.by, "defer", line.on, type)) continue;
      const held = [...new Set(person.roles.map((one) => one.role))];
      report(
        { at: line.at, role: "by" },
        {
          of: line.defect,
          by: line.by,
          on: formatDate(line.on),
          roles: rolesFor(ask.shop(), "defer").join(" or "),
          held: held.length === 0 ? `${line.by} has no role` : `${line.by} is ${held.join(", ")}`,
        },
        { related: [{ ref: person.ref, spot: { at: 0 }, says: "The person" }] },
      );
    }
  },
  say: ({ of, by, on, roles, held }) =>
    `${by} put off ${of} on ${on}, and may not: in this shop ${roles} may, and ${held}. Have it deferred by someone who may, or rectify it.`,
});
