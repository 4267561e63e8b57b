import process from "node:process";
import { LONGEST_SIGNATURE, NAMESPACE, verifySignature } from "../../evidence/ssh-signature.ts";
import { existsSync } from "../../host/disk.ts";
import { readEvidence, writeAtOnce } from "../../host/evidence-files.ts";
import { readRecord } from "../../host/shop-files.ts";
import { hasAgent, publicHalf, type SigningKey, signStatement } from "../../host/ssh-sign.ts";
import { planSigning, type SigningPlan } from "../../report/plan-signing.ts";
import { type Command, readArguments } from "../arguments.ts";
import { answerSignatures, asOfDate, type LoadedShop, loadShop, shownPath } from "../shop.ts";
import { plain, Refusal, write } from "../terminal.ts";

/** The block that the arguments name. @throws Refusal when there is none, or more than one */
function refOf(shop: LoadedShop, name: string): string {
  const refs = new Set<string>();
  for (const document of shop.checker.workspace.documents.values()) {
    if (!shop.wanted(document.path)) continue;
    for (const { facts } of document.blocks) {
      if (
        (facts.kind === "entry" || facts.kind === "run" || facts.kind === "release" || facts.kind === "dispatch") &&
        (facts.name === name || facts.ref === name)
      )
        refs.add(facts.ref);
    }
  }
  const [ref, ...more] = refs;
  if (ref === undefined) throw new Refusal(`There is no entry, run, release or dispatch ${name} there.`);
  if (more.length > 0)
    throw new Refusal(`There is more than one ${name}: ${[...refs].join(", ")}. Name the one you mean in full.`);
  return ref;
}

/** Puts the sign line into the text, which keeps its line ends and everything else. */
export function withSignLine(text: string, plan: SigningPlan): string {
  const lines = text.split("\n");
  const end = (lines[0] ?? "").endsWith("\r") ? "\r" : "";
  if (plan.replaces) lines[plan.line] = plan.text + ((lines[plan.line] ?? "").endsWith("\r") ? "\r" : "");
  else if (plan.line >= lines.length) {
    // The file ends without a line end: the last line gets one, the new line none.
    const last = lines.length - 1;
    lines[last] += end;
    lines.push(plan.text);
  } else lines.splice(plan.line, 0, plan.text + end);
  return lines.join("\n");
}

/** Signs the statement with the key given, or with one of the person's that an agent holds. @throws Refusal when a key was given and cannot be used */
async function signatureOf(
  plan: SigningPlan,
  given: string | undefined,
): Promise<{ text: string; fingerprint: string } | { none: string }> {
  const { person } = plan.sign;
  if (plan.keys.length === 0) {
    if (given !== undefined)
      throw new Refusal(
        `${person} has no key line for that day, so a signature would prove nothing. Add: key "${plain(publicHalf(given) ?? "ssh-ed25519 AAAA...")}" from DATE`,
      );
    return {
      none: `${person} has no key line: the seal stands alone. It shows a change of the text, not who put it there.`,
    };
  }
  if (given !== undefined && !existsSync(given)) throw new Refusal(`There is no key file ${given}.`);
  if (given === undefined && !hasAgent())
    return { none: `No key was given (--key PATH) and no agent runs: the seal is not backed by a signature yet.` };
  const tries: SigningKey[] = given === undefined ? plan.keys.map((publicKey) => ({ publicKey })) : [{ file: given }];
  let failed = "";
  for (const key of tries) {
    const signed = signStatement(key, plan.statement, NAMESPACE);
    if ("failed" in signed) {
      failed = signed.failed;
      continue;
    }
    const verdict = await verifySignature(signed.signature, {
      statement: plan.statement,
      signer: person,
      keys: plan.keys,
      lapsedKeys: [],
    });
    if (!verdict.good)
      throw new Refusal(`The signature was made but would not be accepted; nothing was written. ${verdict.message}`);
    return { text: signed.signature, fingerprint: verdict.fingerprint };
  }
  if (given !== undefined) throw new Refusal(`The signature was not made; nothing was written. ${failed}`);
  return { none: `The agent holds none of ${person}'s keys: the seal is not backed by a signature yet (--key PATH).` };
}

export const command: Command = {
  usage: "gudgeon sign FILE ENTRY --as PERSON",
  about:
    "Seals the text of an entry, run, release or dispatch under a signature, and backs the seal with the person's SSH key where there is one.",
  options: [
    ["as PERSON", "who signs"],
    ["role ROLE", "in which role (the only one that fits, when left out)"],
    ["key PATH", "the SSH key; it is used by ssh-keygen and never read by Gudgeon"],
    ["on DATE", "day of a new signature instead of today"],
    ["dry-run", "say what would be written and covered, and write nothing"],
  ],
  async run(args) {
    const { values, positionals } = readArguments(args, {
      as: { type: "string" },
      role: { type: "string" },
      key: { type: "string" },
      on: { type: "string" },
      "dry-run": { type: "boolean", default: false },
    });
    const [file, name, ...more] = positionals;
    if (file === undefined || name === undefined || more.length > 0 || values.as === undefined)
      throw new Refusal(`Usage: ${command.usage}`);
    const on = asOfDate(values.on);
    const shop = await loadShop([file], on, true);
    const ref = refOf(shop, name);
    const planned = planSigning(shop.checker, ref, {
      person: values.as,
      on,
      ...(values.role === undefined ? {} : { role: values.role }),
    });
    if ("refused" in planned) throw new Refusal(planned.refused);
    const { plan } = planned;
    const before = readRecord(shop.root, plan.path);
    if (!sameLines(before, shop.checker.workspace.document(plan.path)?.lines ?? []))
      throw new Refusal("The file changed while it was being read; nothing was written.");
    const after = withSignLine(before, plan);
    write(
      `${plain(shownPath(shop.root, plan.path))}:${plan.line + 1}: ${plain(plan.text.trim())}\n\nThe seal covers:\n${plan.covers.map((line) => `  ${plain(line)}\n`).join("")}\n`,
    );
    if (values["dry-run"]) {
      write("Nothing was written.\n");
      return 0;
    }
    const signed = await signatureOf(plan, values.key);
    if ("text" in signed && plan.signaturePath === undefined)
      throw new Refusal(
        "A name of the job, the entry, the role or the person cannot be part of a path; nothing was written.",
      );
    // Asked again right before writing: a signature may have waited minutes for a touch.
    if (readRecord(shop.root, plan.path) !== before)
      throw new Refusal("The file changed meanwhile; nothing was written. Sign again.");
    if ("text" in signed && plan.signaturePath !== undefined) {
      const there = readEvidence(shop.root, plan.signaturePath, LONGEST_SIGNATURE);
      if ("refused" in there) throw new Refusal(`${plan.signaturePath}: ${there.refused} Nothing was written.`);
      if ("text" in there) write(`The file ${plan.signaturePath} of an earlier signature is replaced.\n`);
    }
    writeAtOnce(shop.root, plan.path, after);
    if ("none" in signed) write(`${plain(signed.none)}\n`);
    else if (plan.signaturePath !== undefined) {
      writeAtOnce(shop.root, plan.signaturePath, signed.text);
      write(`Signed with ${signed.fingerprint}: ${plan.signaturePath}\n`);
    }
    shop.checker.apply(shop.checker.workspace.setText(plan.path, after));
    shop.checker.sweep();
    await answerSignatures(shop.checker, shop.root, shop.checker.signaturesWanted);
    shop.checker.sweep();
    const said = shop.checker
      .findingsOf(plan.path)
      .filter((one) => one.finding.ref === ref && one.finding.code.startsWith("sign/") && !one.quiet);
    for (const one of said)
      process.stderr.write(`gudgeon: ${one.severity} ${one.finding.code}: ${plain(one.finding.message)}\n`);
    return said.some((one) => one.severity === "error") ? 1 : 0;
  },
};

/** Whether a text is the one that the checker read. */
function sameLines(text: string, lines: readonly string[]): boolean {
  const own = text.split("\n");
  return (
    own.length === lines.length &&
    own.every((line, i) => line.replace(/\r$/u, "") === (lines[i] ?? "").replace(/\r$/u, ""))
  );
}
