import { formatDate } from "../../quantity/civil-date.ts";
import { licenceCovers } from "../../totals/authority.ts";
import { WORK } from "../limit-wording.ts";
import { JOB } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly person: string;
  readonly on: string;
  readonly licences: readonly string[];
}

const SHOP = JOB.replace(
  'person RPE "Ruth Pell"\n',
  'person RPE "Ruth Pell"\n  licence "SEW-02" from 2024-02-18 until 2026-02-18\n',
);
const entry = (day: string): string => `entry E1 ${day} inspect job J26-014\n  sign inspector RPE ${day}\n`;

export default rule<(typeof WORK)[number], Found>({
  id: "sign/licence-out-of-date",
  severity: "error",
  on: WORK,
  reads: ["signs"],
  page: {
    what: "Someone signed on a day that none of their licence lines covers. The day named by `until` is still covered; a person without any licence line is not asked for one.",
    why: "A licence that has run out is no authority to sign, whatever the person knows. Renewing it later does not cover the days between.",
    remedy:
      "Have the work signed by someone whose licence covers the day. Where it was renewed in time, add the `licence` line.",
    faulty: [{ text: `${SHOP}${entry("2026-02-19")}` }],
    sound: [{ text: `${SHOP}${entry("2026-02-18")}` }],
  },
  check(block, ask, report) {
    for (const sign of block.signs) {
      const person = ask.person(sign.person);
      if (!person || person.unread.includes("licence") || licenceCovers(person, sign.on)) continue;
      const licences = person.licences.map(
        (one) =>
          `${one.number} from ${formatDate(one.from)}${one.until === undefined ? "" : ` until ${formatDate(one.until)}`}`,
      );
      report(
        { at: sign.at, role: "person" },
        { person: sign.person, on: formatDate(sign.on), licences },
        {
          related: person.licences.map((one) => ({
            ref: person.ref,
            spot: { at: one.at },
            says: "A licence of the person",
          })),
        },
      );
    }
  },
  say: ({ person, on, licences }) =>
    `${person} signed on ${on}, which no licence covers (${licences.join("; ")}), so the signature answers for nothing. Have it signed by someone whose licence covers the day.`,
});
