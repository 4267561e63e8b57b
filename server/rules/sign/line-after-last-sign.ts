import { formatDate } from "../../quantity/civil-date.ts";
import { WORK } from "../limit-wording.ts";
import { JOB } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly block: string;
  readonly person: string;
  readonly on: string;
}

const ENTRY =
  "entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.flange[1] 0.031 mm\n  sign fitter ATH 2026-02-19\n";

export default rule<(typeof WORK)[number], Found>({
  id: "sign/line-after-last-sign",
  severity: "error",
  on: WORK,
  reads: ["afterSign"],
  page: {
    what: "A line stands below the last signature of its block, so nobody has signed it.",
    why: "A signature covers what stands above it. After the first one a block is no draft any more: what was forgotten or found wrong goes into an entry of its own.",
    remedy: "Move the line into a new entry (with `amends` where it corrects this one), or have it signed again below.",
    faulty: [{ text: `${JOB}${ENTRY}  measure cylinder.flange[2] 0.049 mm\n` }],
    sound: [
      {
        text: `${JOB}${ENTRY}entry E2 2026-02-20 inspect job J26-014\n  amends E1 "Cylinder 2 was left out"\n  measure cylinder.flange[2] 0.049 mm\n`,
      },
    ],
  },
  check(block, _ask, report) {
    const last = block.signs.at(-1);
    if (block.afterSign < 0 || !last) return;
    report(
      { at: block.afterSign },
      { block: block.name, person: last.person, on: formatDate(last.on) },
      { related: [{ ref: block.ref, spot: { at: last.at }, says: "The last signature" }] },
    );
  },
  say: ({ block, person, on }) =>
    `This line stands below the last signature of ${block} (${person}, ${on}), so nobody has signed it. Put it into an entry of its own, or have the block signed again below it.`,
});
