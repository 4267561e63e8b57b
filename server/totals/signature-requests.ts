/**
 * The signature files that may stand behind the seals of a block: where each lies, what was signed, and with whose keys.
 *
 * What is signed is the sign line itself, so role, person, day and seal cannot be changed apart from each other, and the seal in it fixes the text above.
 */
import type { Ask, SignatureRequest } from "../checking/ask.ts";
import type { SignLine, WorkBlock } from "../facts/types.ts";
import { formatDate, formatTime } from "../quantity/civil-date.ts";
import { coversDay } from "./authority.ts";

/** Names that can be part of a path on every system; others have no place for a signature. */
const PATH_NAME = /^[\p{L}\d][\p{L}\p{M}\d._-]{0,99}$/u;

/** The sign line as it is signed: one blank between its words, without the line end. */
export function signatureStatement(sign: Pick<SignLine, "role" | "person" | "on" | "time" | "seal">): string {
  const time = sign.time === undefined ? "" : ` ${formatTime(sign.time)}`;
  return `sign ${sign.role} ${sign.person} ${formatDate(sign.on)}${time} seal ${sign.seal.toLowerCase()}`;
}

/**
 * Where the signature of a sign line lies, relative to the shop's folder: `seals/J26-014/E3.inspector.RPE.sig`; of work in service
 * `seals/engine/C9-0412/S1.fitter.ATH.sig`; of the second line of the same role and person `....2.sig`.
 * @returns undefined where a name cannot be part of a path
 */
export function signaturePath(block: WorkBlock, sign: SignLine): string | undefined {
  const before = block.signs.filter(
    (one) => one.role === sign.role && one.person === sign.person && one.at < sign.at,
  ).length;
  const scope = block.job !== "" ? [block.job] : ["engine", block.engine];
  if (![...scope, block.name, sign.role, sign.person].every((name) => PATH_NAME.test(name))) return undefined;
  return `seals/${scope.join("/")}/${block.name}.${sign.role}.${sign.person}${before === 0 ? "" : `.${before + 1}`}.sig`;
}

/** What to ask the host about one sealed sign line; undefined for a line without a seal of the first manner. */
export function signatureRequest(
  block: WorkBlock,
  sign: SignLine,
  ask: Pick<Ask, "person">,
): SignatureRequest | undefined {
  if (!sign.seal.startsWith("1:")) return undefined;
  const path = signaturePath(block, sign);
  if (path === undefined) return undefined;
  const keys = ask.person(sign.person)?.keys ?? [];
  return {
    path,
    statement: `${signatureStatement(sign)}\n`,
    signer: sign.person,
    keys: keys.filter((key) => coversDay(key, sign.on)).map((key) => key.key),
    lapsedKeys: keys.filter((key) => !coversDay(key, sign.on)).map((key) => key.key),
  };
}
