/** What signing an entry comes to, worked out before anything is written: which line, which seal, what it covers, or why not. */

import { canonicalBlock, canonicalLine } from "../../grammar/canonical.ts";
import type { Checker } from "../checking/checker.ts";
import { releaseDigest, textDigest } from "../facts/text-digest.ts";
import type { SignLine, WorkBlock } from "../facts/types.ts";
import { type CivilDate, formatDate } from "../quantity/civil-date.ts";
import { coversDay, holdsRole } from "../totals/authority.ts";
import { releaseDigests, reliedOn } from "../totals/relied-on.ts";
import { signaturePath, signatureStatement } from "../totals/signature-requests.ts";
import { type BlockEntry, lineOf } from "../workspace/workspace.ts";

export interface SigningPlan {
  /** File of the shop, and the line (from 0) that is replaced, or before which the new line is put. */
  readonly path: string;
  readonly line: number;
  readonly replaces: boolean;
  /** The sign line with its seal, indented. */
  readonly text: string;
  readonly sign: Pick<SignLine, "role" | "person" | "on" | "time" | "seal">;
  /** What a key signs, with its LF. */
  readonly statement: string;
  /** Where the signature belongs; undefined where a name cannot be part of a path. */
  readonly signaturePath: string | undefined;
  /** The person's keys on that day, as their lines quote them. */
  readonly keys: readonly string[];
  /** What the seal covers, in sentences. */
  readonly covers: readonly string[];
}

export type Planned = { readonly plan: SigningPlan } | { readonly refused: string };

class Refusal extends Error {}

/**
 * Plans a seal under a block of work.
 * @param ref `J26-014/E3`, `J26-014/release`, `engine:C9-0412/S1`
 * @param on day of a new sign line; one that stands there unsealed keeps its own
 */
export function planSigning(
  checker: Checker,
  ref: string,
  by: { readonly person: string; readonly role?: string; readonly on: CivilDate },
): Planned {
  try {
    return { plan: planned(checker, ref, by) };
  } catch (error) {
    if (error instanceof Refusal) return { refused: error.message };
    throw error;
  }
}

function planned(
  checker: Checker,
  ref: string,
  by: { readonly person: string; readonly role?: string; readonly on: CivilDate },
): SigningPlan {
  const { ask } = checker;
  const entry = checker.entryOf(ref);
  if (!entry) throw new Refusal(`There is no entry ${ref}.`);
  const block = entry.facts;
  if (block.kind !== "entry" && block.kind !== "run" && block.kind !== "release" && block.kind !== "dispatch")
    throw new Refusal(`A ${block.kind} is not signed; entries, runs, releases and dispatches are.`);
  if (ask.declared(block.kind, ref).refs.length > 1)
    throw new Refusal(`${ref} stands more than once in these records; nobody could say later which one was signed.`);
  refuseBroken(entry, block);
  refuseBrokenSeals(block, checker);
  const person = ask.person(by.person);
  if (!person) throw new Refusal(`There is no person ${by.person} in these records.`);
  const type =
    ask.engineType(ask.engine(block.engine === "" ? (ask.job(block.job)?.engine ?? "") : block.engine)?.type ?? "")
      ?.name ?? "";

  const waiting = block.signs.filter(
    (sign) => sign.person === by.person && sign.seal === "" && (by.role === undefined || sign.role === by.role),
  );
  if (waiting.length > 1)
    throw new Refusal(
      `${by.person} has more than one unsealed signature there; say which with --role ${[...new Set(waiting.map((sign) => sign.role))].join(" or --role ")}.`,
    );
  const [open] = waiting;
  const role =
    open?.role ??
    by.role ??
    onlyRole(
      block,
      person.roles.filter((held) => holdsRole(person, held.role, by.on, type)).map((held) => held.role),
      by.person,
    );
  const on = open?.on ?? by.on;
  if (!holdsRole(person, role, on, type))
    throw new Refusal(
      `${by.person} does not hold the role ${role}${type === "" ? "" : ` for ${type}`} on ${formatDate(on)}.`,
    );
  if (on > by.on) throw new Refusal(`The signature is dated ${formatDate(on)}, which has not come.`);
  if (block.date !== undefined && on < block.date)
    throw new Refusal(`A signature of ${formatDate(on)} would stand under work of ${formatDate(block.date)}.`);
  if (open && block.signs.some((sign) => sign.at > open.at && sign.seal !== "")) {
    throw new Refusal(
      "A signature further down is sealed already and covers this line; a seal put into it now would break that one. Sign on a new line below, under another role or in an entry that amends this one.",
    );
  }

  const lines = entry.document.lines;
  const line = open ? lineOf(entry, open.at) : afterLast(entry);
  const above = lines.slice(entry.from, line);
  const digest =
    block.kind === "release"
      ? releaseDigest(canonicalBlock(above).split("\n"), ask.total(reliedOn, ref))
      : textDigest(canonicalBlock(above));
  const sign = { role, person: by.person, on, time: open?.time, seal: `1:${digest}` };
  const statement = signatureStatement(sign);
  const indent = /^[ \t]*/u.exec(open ? (lines[line] ?? "") : "")?.[0] || indentOf(lines, entry);
  const comment = open ? commentOf(lines[line] ?? "") : "";
  const at = open?.at ?? Number.MAX_SAFE_INTEGER;
  return {
    path: entry.document.path,
    line,
    replaces: open !== undefined,
    text: `${indent}${statement}${comment}`,
    sign,
    statement: `${statement}\n`,
    signaturePath: signaturePath(block, { ...sign, at, textDigest: "" }),
    keys: person.keys.filter((key) => coversDay(key, on)).map((key) => key.key),
    covers: coversOf(block, above, sign.on === by.on ? undefined : sign.on, checker, ref),
  };
}

function refuseBroken(entry: BlockEntry, block: WorkBlock): void {
  const lines = [
    ...new Set([
      ...block.problems.map((problem) => lineOf(entry, problem.at) + 1),
      ...(block.headerBroken ? [entry.from + 1] : []),
    ]),
  ].sort((a, b) => a - b);
  if (lines.length > 0 || block.unread.length > 0) {
    throw new Refusal(
      `${block.name} has lines that cannot be read${lines.length > 0 ? ` (${lines.map((line) => `${entry.document.path}:${line}`).join(", ")})` : ""}. Put them right first: nobody should sign what is not understood.`,
    );
  }
}

/** Signing above a broken seal would cover up that the text changed. */
function refuseBrokenSeals(block: WorkBlock, checker: Checker): void {
  const digests = block.kind === "release" ? checker.ask.total(releaseDigests, block.ref) : undefined;
  for (const sign of block.signs) {
    if (!sign.seal.startsWith("1:")) continue;
    const now = digests ? digests[sign.seal] : sign.textDigest;
    if (now !== sign.seal.slice(2).toLowerCase()) {
      throw new Refusal(
        `The text is no longer the one that ${sign.person} sealed as ${sign.role} on ${formatDate(sign.on)}. Put it back first; what has to be corrected goes into an entry that amends ${block.name}.`,
      );
    }
  }
}

function onlyRole(block: WorkBlock, held: readonly string[], person: string): string {
  const free = [...new Set(held)].filter(
    (role) => !block.signs.some((sign) => sign.person === person && sign.role === role),
  );
  const [role, ...more] = free;
  if (role === undefined)
    throw new Refusal(
      held.length === 0
        ? `${person} holds no role on that day.`
        : `${person} has signed ${block.name} in every role held: ${[...new Set(held)].join(", ")}.`,
    );
  if (more.length > 0) throw new Refusal(`${person} holds ${free.join(", ")}; say which with --role.`);
  return role;
}

/** The line behind the last one that says anything: comments at the end of a block often belong to the next one. */
function afterLast(entry: BlockEntry): number {
  const { lines } = entry.document;
  let at = entry.to;
  while (at > entry.from + 1 && canonicalLine(lines[at - 1] ?? "") === "") at--;
  return at;
}

function indentOf(lines: readonly string[], entry: BlockEntry): string {
  for (let i = entry.to - 1; i > entry.from; i--) {
    const indent = /^([ \t]+)[a-z]/u.exec(lines[i] ?? "")?.[1];
    if (indent !== undefined) return indent;
  }
  return "  ";
}

/** A comment at the end of a sign line, with a blank before it. */
function commentOf(line: string): string {
  const comment = /\s#.*$/u.exec(line)?.[0];
  return comment === undefined ? "" : ` ${comment.trim()}`;
}

function coversOf(
  block: WorkBlock,
  above: readonly string[],
  older: CivilDate | undefined,
  checker: Checker,
  ref: string,
): string[] {
  const lines = above.filter((line) => canonicalLine(line) !== "").length;
  const earlier = block.signs.filter((sign) => sign.seal !== "").map((sign) => `${sign.person} as ${sign.role}`);
  const files = [...block.photos, ...block.logFiles].filter((file) => file.digest !== "").length;
  const loose = [...block.photos, ...block.logFiles].length - files;
  const out = [
    `${lines} line${lines === 1 ? "" : "s"} of ${block.name}, from its header to the line above the signature${earlier.length > 0 ? `, with the sealed signatures of ${earlier.join(", ")}` : ""}.`,
  ];
  if (files > 0) out.push(`${files} file${files === 1 ? "" : "s"} by the digest on the line that names it.`);
  if (loose > 0)
    out.push(
      `Not the bytes of ${loose} file${loose === 1 ? "" : "s"} named without a digest: gudgeon photos --pin adds it.`,
    );
  if (block.kind === "release") {
    const relied = checker.ask.total(reliedOn, ref);
    out.push(
      `What the release relies on: ${relied
        .map(({ block: kind, name }) => `${kind} ${name}`)
        .sort()
        .join(", ")}.`,
    );
  }
  if (older !== undefined)
    out.push(`The line is of ${formatDate(older)} and keeps that day; the seal is put on later.`);
  return out;
}
