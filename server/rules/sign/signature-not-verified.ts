import { formatDate } from "../../quantity/civil-date.ts";
import { signatureRequest } from "../../totals/signature-requests.ts";
import { WORK } from "../limit-wording.ts";
import { JOB } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly person: string;
  readonly role: string;
  readonly on: string;
  readonly path: string;
  /** Why it is refused; empty where there is no file. */
  readonly why: string;
}

const KEY =
  '  key "ssh-ed25519 AAAAC3NzaC1lZDI1NTE5AAAAIKGGT0Omz2zS+DeXBKFFuUwPzZUvRvfnHA1ENAZwnQ4W" from 2026-01-01\n';
const KEYED = JOB.replace("person RPE", `${KEY}person RPE`);
const SEAL = "1:e2a88c662f8b3cf6ee4d6614bddebe7c96458306cecd7b53292d48333c38d504";
const BLOCK = `entry E1 2026-02-19 inspect "Barrels" job J26-014\n  measure cylinder.flange[1] 0.031 mm\n  sign fitter ATH 2026-02-19`;

export default rule<(typeof WORK)[number], Found>({
  id: "sign/signature-not-verified",
  severity: "error",
  on: WORK,
  reads: ["signs"],
  page: {
    what: "The signature file that belongs to a sealed signature does not verify: another text, another key, a key out of its dates, a damaged file. Or the signer has a key and there is no file at all, which is a warning.",
    why: "Anyone who can write the file can write a seal. Only the signature shows that the holder of the key put it there.",
    remedy:
      "Bring back the file as it was, or have the same person sign again with `gudgeon sign`. A key that was changed gets a `key` line of its own with its dates; the old line stays and ends.",
    faulty: [{ text: `${KEYED}${BLOCK} seal ${SEAL}\n` }],
    sound: [{ text: `${KEYED}${BLOCK}\n` }, { text: `${JOB}${BLOCK} seal ${SEAL}\n` }],
  },
  check(block, ask, report) {
    for (const sign of block.signs) {
      const request = signatureRequest(block, sign, ask);
      if (!request) continue;
      const state = ask.signature(request);
      if (!state || state.standing === "good" || (state.standing === "absent" && request.keys.length === 0)) continue;
      const why = state.standing === "absent" ? "" : state.message;
      report(
        { at: sign.at, role: "seal" },
        { person: sign.person, role: sign.role, on: formatDate(sign.on), path: request.path, why },
        why === "" ? { severity: "warning" } : {},
      );
    }
  },
  say: ({ person, role, on, path, why }) =>
    why === ""
      ? `${person} has a key, but no signature backs this seal as ${role} of ${on}: there is no file ${path}. Bring it back, or sign with gudgeon sign.`
      : `The signature of ${person} as ${role} on ${on} does not hold (${path}). ${why}`,
});
