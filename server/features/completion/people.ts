/** People and roles: those first who may, on that day. */
import type { Act } from "../../facts/types.ts";
import { formatDate } from "../../quantity/civil-date.ts";
import { rolesToSign } from "../../report/bench-sheet.ts";
import { few } from "../../report/wording.ts";
import { coversDay, holdsRole, licenceCovers, rolesFor } from "../../totals/authority.ts";
import type { Completion } from "../feature.ts";
import { leadWord } from "../under-cursor.ts";
import { offer, type Typing, typedRole } from "./context.ts";

/** Which roles serve for what the line does; empty where anybody may. */
function rolesAsked(typing: Typing): readonly string[] {
  const word = leadWord(typing.before);
  const shop = typing.ask.shop();
  const acts: Partial<Record<string, Act>> = {
    accept: "accept",
    concession: "concession",
    defer: "defer",
    release: "release",
    refuse: "refuse",
  };
  const act = acts[word];
  const named = typedRole(typing.before, "role");
  if (word === "sign" || (word === "refuse" && named !== "")) return [named];
  if (act) return rolesFor(shop, act);
  return word === "run" ? ["run-operator"] : [];
}

export function people(typing: Typing): Completion[] {
  const { ask, day, type } = typing;
  const roles = rolesAsked(typing);
  // Whoever is named on the line already (by, second) is not offered again.
  const named = new Set(typing.before.tokens.map((token) => token.text));
  return ask
    .people()
    .filter((person) => !named.has(person.name))
    .map((person, i) => {
      const holds = roles.length === 0 || roles.some((role) => holdsRole(person, role, day, type));
      const licensed = licenceCovers(person, day);
      const held = [...new Set(person.roles.filter((one) => coversDay(one, day)).map((one) => one.role))];
      const why = holds
        ? licensed
          ? ""
          : `; licence does not cover ${formatDate(day)}`
        : `; not ${few(roles, 2)} on ${formatDate(day)}`;
      return offer(
        typing,
        {
          label: person.name,
          kind: "name",
          detail: `${person.title}${why}`,
          documentation: held.length === 0 ? "" : `On that day: ${few(held)}.`,
        },
        holds && licensed ? 0 : 1,
        i,
      );
    });
}

export function roles(typing: Typing): Completion[] {
  const { ask, work } = typing;
  const wanted = work ? rolesToSign(work, ask) : [];
  const held = [...new Set(ask.people().flatMap((person) => person.roles.map((one) => one.role)))];
  return [...new Set([...wanted, ...held])].map((role, i) =>
    offer(
      typing,
      { label: role, kind: "name", detail: wanted.includes(role) ? "still wanted here" : "" },
      wanted.includes(role) ? 0 : 1,
      i,
    ),
  );
}
