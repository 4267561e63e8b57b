import { scopeOf, shortRef } from "../../facts/refs.ts";
import { formatDate } from "../../quantity/civil-date.ts";
import { mayBeUnread } from "../../totals/later-steps.ts";
import { refusals } from "../../totals/openings.ts";
import { JOB } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly by: string;
  readonly role: string;
  readonly on: string;
  readonly of: string;
  readonly reason: string;
}

const SHOP = `${JOB}entry E1 2026-02-27 build "Nuts" job J26-014\n  sign fitter ATH 2026-02-27\nentry E2 2026-02-28 build job J26-014\n  refuse inspector RPE 2026-02-28 E1 "Nut 3/7 not witnessed"\n`;

export default rule<"entry", Found>({
  id: "sign/refused-and-not-answered",
  severity: "error",
  on: ["entry"],
  reads: ["refuses"],
  page: {
    what: "Someone who was asked to sign refused, and nothing says what was done about it.",
    why: "A refusal is the most valuable line in a record: someone saw something. Another person's signature is no answer to it.",
    remedy:
      "Do what the refusal asks, and record it with an `answer` line that names the block. The refuser's own later signature on it answers as well.",
    faulty: [{ text: SHOP }],
    sound: [{ text: `${SHOP}entry E3 2026-03-02 build job J26-014\n  answer E1 "Nut 3/7 torqued again before RPE"\n` }],
  },
  check(block, ask, report) {
    const scope = scopeOf(block);
    const open = ask.total(refusals, scope).filter((one) => one.ref === block.ref && one.answered === "");
    if (open.length === 0 || mayBeUnread(scope, "", ["answer"], ask)) return;
    for (const one of open) {
      report(
        { at: one.at, role: "ref" },
        { by: one.by, role: one.role, on: formatDate(one.on), of: shortRef(one.of), reason: one.reason },
        { related: [{ ref: one.of, spot: { at: 0 }, says: "What was not signed" }] },
      );
    }
  },
  say: ({ by, role, on, of, reason }) =>
    `${by} refused to sign ${of} as ${role} on ${on} ("${reason}"), and nothing says what was done about it. Put it right and record it with an answer line for ${of}.`,
});
