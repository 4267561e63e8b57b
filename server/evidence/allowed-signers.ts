/**
 * The people of a shop as an allowed-signers file, so that anyone can check signatures with stock OpenSSH and nothing of ours.
 *
 * Source: ssh-keygen(1), section ALLOWED SIGNERS.
 */

import type { PersonBlock } from "../facts/types.ts";
import { type CivilDate, formatDate } from "../quantity/civil-date.ts";
import { type PublicKey, printPublicKey, readPublicKey } from "./public-key.ts";
import { Refused } from "./refused.ts";
import { NAMESPACE } from "./ssh-signature.ts";

export interface AllowedSigners {
  /** The file, a line for each key, LF at each end. */
  readonly text: string;
  /** Keys that could not be read, and why. */
  readonly refused: readonly { readonly person: string; readonly message: string }[];
}

const compact = (date: CivilDate): string => formatDate(date).replaceAll("-", "");

/**
 * One line. Days are those of the machine that verifies, as in a record; a day given with `until` counts whole, so the key ends with its last second.
 * @param person a name of the language, which holds none of the characters that mean something in such a file
 */
export function allowedSignersLine(
  person: string,
  key: PublicKey,
  from: CivilDate,
  until: CivilDate | undefined,
): string {
  const options = [
    `namespaces="${NAMESPACE}"`,
    `valid-after="${compact(from)}000000"`,
    ...(until === undefined ? [] : [`valid-before="${compact(until)}235959"`]),
  ];
  return `${person} ${options.join(",")} ${printPublicKey(key)}`;
}

/** A principal in such a file is a pattern list: only names without its special characters can stand there. */
const PLAIN_NAME = /^[\p{L}\p{M}\d._-]+$/u;

/** All keys of all people, in the order given. */
export function allowedSigners(people: readonly PersonBlock[]): AllowedSigners {
  const lines: string[] = [];
  const refused: { person: string; message: string }[] = [];
  for (const person of people) {
    for (const { key, from, until } of person.keys) {
      if (!PLAIN_NAME.test(person.name)) {
        refused.push({ person: person.name, message: "the name cannot stand in an allowed-signers file" });
        continue;
      }
      try {
        lines.push(allowedSignersLine(person.name, readPublicKey(key), from, until));
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        refused.push({ person: person.name, message: error.message });
      }
    }
  }
  return { text: lines.map((line) => `${line}\n`).join(""), refused };
}
