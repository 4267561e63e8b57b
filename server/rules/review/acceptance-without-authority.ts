import { formatDate } from "../../quantity/civil-date.ts";
import { mayAct, rolesFor } from "../../totals/authority.ts";
import { JOB } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly by: string;
  readonly code: string;
  readonly on: string;
  readonly roles: string;
}

const shop = (by: string): string =>
  `${JOB}entry E1 2026-02-17 strip job J26-014\n  consumable "Jointing compound" batch JC-11 expires 2026-01-31\nentry E2 2026-02-18 review job J26-014\n  accept part/shelf-life-expired E1 by ${by} 2026-02-18 "Extended by maker's letter 22"\n`;

export default rule<"entry", Found>({
  id: "review/acceptance-without-authority",
  severity: "error",
  on: ["entry"],
  reads: ["accepts"],
  page: {
    what: "A finding was accepted by someone who may not accept on that day. The acceptance does not hold, and the finding stays.",
    why: "To accept is to answer for it. Where the shop has no `authority accept` line an inspector or a certifier may.",
    remedy: "Have it accepted by someone who may, or put the finding right.",
    faulty: [{ text: shop("ATH") }],
    sound: [{ text: shop("RPE") }],
  },
  check(block, ask, report) {
    for (const line of block.accepts) {
      const person = ask.person(line.by);
      if (!person || person.unread.includes("role") || mayAct(ask, line.by, "accept", line.on)) continue;
      report(
        { at: line.at, role: "by" },
        { by: line.by, code: line.code, on: formatDate(line.on), roles: rolesFor(ask.shop(), "accept").join(" or ") },
        { related: [{ ref: person.ref, spot: { at: 0 }, says: "The person and their roles" }] },
      );
    }
  },
  say: ({ by, code, on, roles }) =>
    `${by} accepted ${code} on ${on} and holds no role on that day that may (in this shop: ${roles}). It does not hold: have it accepted by someone who may, or put the finding right.`,
});
