import { formatDate, formatTime } from "../../quantity/civil-date.ts";
import { WORK } from "../limit-wording.ts";
import { JOB } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly person: string;
  readonly signed: string;
  readonly block: string;
  readonly done: string;
}

export default rule<(typeof WORK)[number], Found>({
  id: "sign/before-the-work",
  severity: "error",
  on: WORK,
  reads: ["signs"],
  page: {
    what: "A signature is dated before the work that it signs.",
    why: "Nobody can answer for what was not done yet. Either a date is wrong, or the sheet was signed in advance.",
    remedy: "Correct the date that is wrong; in a signed block by an entry that `amends` it.",
    faulty: [{ text: `${JOB}entry E1 2026-02-19 inspect job J26-014\n  sign fitter ATH 2026-02-18\n` }],
    sound: [{ text: `${JOB}entry E1 2026-02-19 inspect job J26-014\n  sign fitter ATH 2026-02-19\n` }],
  },
  check(block, _ask, report) {
    const { date, time } = block;
    if (date === undefined) return;
    for (const sign of block.signs) {
      const sameDay = sign.on === date && sign.time !== undefined && time !== undefined;
      if (sign.on > date || (sign.on === date && !(sameDay && (sign.time ?? 0) < (time ?? 0)))) continue;
      const at = (on: typeof date, when: number | undefined): string =>
        `${formatDate(on)}${sameDay && when !== undefined ? ` ${formatTime(when)}` : ""}`;
      report(
        { at: sign.at, role: sameDay ? "time" : "on" },
        { person: sign.person, signed: at(sign.on, sign.time), block: block.name, done: at(date, time) },
        {
          related: [
            { ref: block.ref, spot: { at: 0, role: sameDay ? "time" : "date" }, says: "When the work is dated" },
          ],
        },
      );
    }
  },
  say: ({ person, signed, block, done }) =>
    `${person} signed on ${signed}, before the work of ${block} on ${done}. Nobody can answer for work to come: correct the date that is wrong.`,
});
