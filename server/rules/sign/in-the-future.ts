import { daysBetween, formatDate } from "../../quantity/civil-date.ts";
import { WORK } from "../limit-wording.ts";
import { JOB } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly person: string;
  readonly on: string;
  readonly asOf: string;
  readonly days: number;
}

const TEXT = `${JOB}entry E1 2026-05-01 inspect job J26-014\n  sign fitter ATH 2026-05-02\n`;

export default rule<(typeof WORK)[number], Found>({
  id: "sign/in-the-future",
  severity: "error",
  on: WORK,
  reads: ["signs"],
  page: {
    what: "A signature is dated after the day as of which the records are looked at.",
    why: "A signature given in advance says that something was done which was not. Most often a digit of the date is wrong.",
    remedy: "Correct the date, or look at the records as of a later day.",
    faulty: [{ text: TEXT, asOf: "2026-05-01" }],
    sound: [{ text: TEXT, asOf: "2026-05-02" }],
  },
  check(block, ask, report) {
    const asOf = ask.asOf();
    for (const sign of block.signs) {
      if (sign.on > asOf)
        report(
          { at: sign.at, role: "on" },
          { person: sign.person, on: formatDate(sign.on), asOf: formatDate(asOf), days: daysBetween(asOf, sign.on) },
        );
    }
  },
  say: ({ person, on, asOf, days }) =>
    `The signature of ${person} is dated ${on}, ${days === 1 ? "a day" : `${days} days`} after ${asOf}, as of which the records are looked at. Nobody signs in advance: correct the date.`,
});
