import { formatDate } from "../../quantity/civil-date.ts";
import { releaseDigests } from "../../totals/relied-on.ts";
import { WORK } from "../limit-wording.ts";
import { JOB } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly person: string;
  readonly role: string;
  readonly on: string;
  readonly block: string;
}

const BLOCK = 'entry E1 2026-02-19 inspect "Barrels" job J26-014\n  measure cylinder.flange[1] 0.031 mm\n';
/** SHA-256 of the canonical text of `BLOCK`, as `grammar/seals.md` has it. */
const SEAL = "1:e2a88c662f8b3cf6ee4d6614bddebe7c96458306cecd7b53292d48333c38d504";

export default rule<(typeof WORK)[number], Found>({
  id: "sign/changed-after-seal",
  severity: "error",
  on: WORK,
  reads: ["signs"],
  page: {
    what: "The text above a sealed signature is not the text that was sealed. Layout, blank lines and comments do not count; every other character does.",
    why: "What was written stays. A sealed figure that reads differently today was changed after someone put their name to it.",
    remedy: "Put the text back as it was, and write an entry that `amends` the block and says why.",
    faulty: [{ text: `${JOB}${BLOCK.replace("0.031", "0.013")}  sign fitter ATH 2026-02-19 seal ${SEAL}\n` }],
    sound: [{ text: `${JOB}${BLOCK}  sign fitter ATH 2026-02-19 seal ${SEAL}\n` }],
  },
  check(block, ask, report) {
    // The seal of a release also covers what the release relies on.
    const digests = block.kind === "release" ? ask.total(releaseDigests, block.ref) : undefined;
    for (const sign of block.signs) {
      // Only the first manner of sealing is known; a later one is not judged.
      if (!sign.seal.startsWith("1:") || sign.textDigest === "") continue;
      const digest = digests ? digests[sign.seal] : sign.textDigest;
      if (digest === undefined || sign.seal.slice(2).toLowerCase() === digest) continue;
      report(
        { at: sign.at, role: "seal" },
        { person: sign.person, role: sign.role, on: formatDate(sign.on), block: block.name },
      );
    }
  },
  say: ({ person, role, on, block }) =>
    `The text of ${block} is not the text that ${person} sealed as ${role} on ${on}. What was signed stays: put it back, and correct it by an entry that amends ${block}.`,
});
