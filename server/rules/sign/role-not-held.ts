import { scopeOf } from "../../facts/refs.ts";
import { formatDate } from "../../quantity/civil-date.ts";
import { holdsRole } from "../../totals/authority.ts";
import { jobContext } from "../../totals/job-context.ts";
import { WORK } from "../limit-wording.ts";
import { JOB } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly person: string;
  readonly role: string;
  readonly on: string;
  readonly type: string;
  /** When and for what the role is held: `from 2024-01-08 until 2026-01-08`. */
  readonly held: readonly string[];
}

const ENTRY = "entry E1 2026-02-19 inspect job J26-014\n";

export default rule<(typeof WORK)[number], Found>({
  id: "sign/role-not-held",
  severity: "error",
  on: WORK,
  reads: ["signs"],
  page: {
    what: "Someone signed in a role that the shop's records do not give them on that day, or not for this type of engine.",
    why: "A signature is worth what stands behind it: training and authority for that work on that day. Without the role it answers for nothing.",
    remedy:
      "Have the work looked at and signed by someone who holds the role. Where the person does hold it, complete the `person` block.",
    faulty: [
      { text: `${JOB}${ENTRY}  sign inspector ATH 2026-02-19\n` },
      {
        text: `${JOB.replace("role inspector from 2024-01-08", "role inspector from 2024-01-08 for Tern-4")}${ENTRY}  sign inspector RPE 2026-02-19\n`,
      },
    ],
    sound: [{ text: `${JOB}${ENTRY}  sign inspector RPE 2026-02-19\n` }],
  },
  check(block, ask, report) {
    const { type } = ask.total(jobContext, scopeOf(block));
    for (const sign of block.signs) {
      const person = ask.person(sign.person);
      if (!person || person.unread.includes("role") || holdsRole(person, sign.role, sign.on, type)) continue;
      const own = person.roles.filter((held) => held.role === sign.role);
      const held = own.map(
        (one) =>
          `from ${formatDate(one.from)}${one.until === undefined ? "" : ` until ${formatDate(one.until)}`}${one.types.length === 0 ? "" : ` for ${one.types.join(", ")}`}`,
      );
      report(
        { at: sign.at, role: "role" },
        { person: sign.person, role: sign.role, on: formatDate(sign.on), type, held },
        {
          related: [
            {
              ref: person.ref,
              spot: { at: own[0]?.at ?? 0 },
              says: own.length === 0 ? "The person" : "The role as held",
            },
          ],
        },
      );
    }
  },
  say({ person, role, on, type, held }) {
    const but =
      held.length === 0 ? `the records give ${person} no such role` : `${person} holds it ${held.join(" and ")}`;
    return `${person} signed as ${role} on ${on}${type === "" ? "" : ` for a ${type}`}, but ${but}. Have it signed by someone who holds the role on that day.`;
  },
});
