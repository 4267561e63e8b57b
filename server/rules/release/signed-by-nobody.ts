import { JOB, RELEASE } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly by: string;
  readonly signers: readonly string[];
}

const UNSIGNED = RELEASE.slice(0, RELEASE.indexOf("\n") + 1);

export default rule<"release", Found>({
  id: "release/signed-by-nobody",
  severity: "error",
  on: ["release"],
  page: {
    what: "The release is not signed, or not by the person who it says gave it.",
    why: "A name in the header says who is to release. Only their signature below the statement makes it a release.",
    remedy: "Have it signed by the person named: `sign certifier CNO 2026-04-20`.",
    faulty: [{ text: `${JOB}${UNSIGNED}` }, { text: `${JOB}${UNSIGNED}  sign inspector RPE 2026-04-20\n` }],
    sound: [{ text: `${JOB}${RELEASE}` }],
  },
  check(block, _ask, report) {
    if (
      block.headerBroken ||
      block.by === "" ||
      block.unread.includes("sign") ||
      block.signs.some((sign) => sign.person === block.by)
    )
      return;
    report({ at: 0, role: "by" }, { by: block.by, signers: [...new Set(block.signs.map((sign) => sign.person))] });
  },
  say: ({ by, signers }) =>
    signers.length === 0
      ? `The release names ${by} and nobody has signed it, so it is no release yet. Have ${by} sign it.`
      : `The release names ${by} and is signed by ${signers.join(", ")} only. Without the signature of ${by} it is no release: have it signed, or name who gives it.`,
});
