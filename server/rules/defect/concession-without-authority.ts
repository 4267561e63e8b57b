import { scopeOf } from "../../facts/refs.ts";
import { formatDate } from "../../quantity/civil-date.ts";
import { mayAct, rolesFor } from "../../totals/authority.ts";
import { jobContext } from "../../totals/job-context.ts";
import { JOB } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly name: string;
  readonly of: string;
  readonly by: string;
  readonly on: string;
  readonly roles: string;
  readonly held: string;
}

const SHOP = `${JOB}entry E1 2026-02-19 inspect job J26-014\n  defect D1 baffle[4] "Cracked at the lower lug"\n`;
const line = (by: string): string => `  concession N1 of D1 by ${by} 2026-02-20 "Within the letter of the maker"\n`;

export default rule<"entry", Found>({
  id: "defect/concession-without-authority",
  severity: "error",
  on: ["entry"],
  reads: ["concessions"],
  page: {
    what: "A concession was given by someone who may not give one on that day.",
    why: "A concession lets a part stay that the limits would not. Only someone entitled to it can allow that, and answer for it; until then what it was meant to cover stays open. Where the shop has no `authority concession` line a certifier may.",
    remedy: "Have the concession given by someone who may, or put the thing right.",
    faulty: [{ text: `${SHOP}${line("ATH")}` }],
    sound: [{ text: `${SHOP}${line("CNO")}` }],
  },
  check(block, ask, report) {
    const { type } = ask.total(jobContext, scopeOf(block));
    for (const line of block.concessions) {
      const person = ask.person(line.by);
      if (!person || person.unread.includes("role") || mayAct(ask, line.by, "concession", line.on, type)) continue;
      const held = [...new Set(person.roles.map((one) => one.role))];
      report(
        { at: line.at, role: "by" },
        {
          name: line.name,
          of: line.of,
          by: line.by,
          on: formatDate(line.on),
          roles: rolesFor(ask.shop(), "concession").join(" or "),
          held: held.length === 0 ? `${line.by} has no role` : `${line.by} is ${held.join(", ")}`,
        },
        { related: [{ ref: person.ref, spot: { at: 0 }, says: "The person" }] },
      );
    }
  },
  say: ({ name, of, by, on, roles, held }) =>
    `Concession ${name} of ${of} was given by ${by} on ${on}, who may not: in this shop ${roles} may, and ${held}. It covers nothing until someone who may has given it.`,
});
