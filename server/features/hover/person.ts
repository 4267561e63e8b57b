/** A person: which roles and licences serve on the day, what was signed. */

import type { CivilDate } from "../../quantity/civil-date.ts";
import { formatDate } from "../../quantity/civil-date.ts";
import { few, type Row, said } from "../../report/wording.ts";
import { coversDay } from "../../totals/authority.ts";
import { isWorkBlock } from "../under-cursor.ts";
import type { About, Subject } from "./context.ts";

/** The day that a line is about: its block's, else as of which the shop is judged. */
export function dayOf(subject: Subject): CivilDate {
  const { block } = subject.under;
  return (isWorkBlock(block) ? block.date : undefined) ?? subject.ask.asOf();
}

const span = (from: CivilDate, until: CivilDate | undefined): string =>
  `from ${formatDate(from)}${until === undefined ? "" : ` until ${formatDate(until)}`}`;

export const aboutPerson: About = ({ key }, subject) => {
  const { ask } = subject;
  const person = ask.person(key);
  if (!person) return undefined;
  const day = dayOf(subject);
  const held = person.roles.map(
    (role): Row => [
      role.role,
      `${span(role.from, role.until)}${role.types.length > 0 ? ` for ${role.types.join(", ")}` : ""}${coversDay(role, day) ? "" : `; not on ${formatDate(day)}`}`,
    ],
  );
  const licences = person.licences.map(
    (licence): Row => [
      licence.number,
      `${span(licence.from, licence.until)}${coversDay(licence, day) ? "" : `; does not cover ${formatDate(day)}`}`,
    ],
  );
  const signed = ask.jobs().flatMap((job): Row[] => {
    const own = ask.facts(job.name, "signs").filter(({ fact }) => fact.person === key);
    const roles = [...new Set(own.map(({ fact }) => fact.role))];
    return own.length === 0
      ? []
      : [
          [
            job.name,
            `${own.length} as ${few(roles)}, last ${formatDate(Math.max(...own.map(({ fact }) => fact.on)) as CivilDate)}`,
          ],
        ];
  });
  return {
    title: `${person.name} ${person.title}`,
    sections: [
      { heading: "Roles", rows: held.length === 0 ? [["", "none"]] : held },
      { heading: "Licences", rows: licences },
      {
        heading: "",
        rows: said([
          "key for seals",
          person.keys.some((one) => coversDay(one, day))
            ? "yes"
            : person.keys.length > 0
              ? `none on ${formatDate(day)}`
              : "",
        ]),
      },
      { heading: "Signatures", rows: signed },
    ],
  };
};

export const aboutRole: About = ({ key }, subject) => {
  const day = dayOf(subject);
  const people = subject.ask.people().filter((person) => person.roles.some((held) => held.role === key));
  const rows = people.map((person): Row => {
    const held = person.roles.filter((one) => one.role === key);
    const now = held.some((one) => coversDay(one, day));
    return [person.name, `${person.title}${now ? "" : `, not on ${formatDate(day)}`}`];
  });
  return {
    title: `Role ${key}, who holds it`,
    sections: [{ heading: "", rows: rows.length === 0 ? [["", "nobody"]] : rows }],
  };
};
