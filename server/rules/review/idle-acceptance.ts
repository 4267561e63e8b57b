import { acceptanceMeets } from "../../totals/authority.ts";
import { JOB } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly code: string;
  readonly ref: string;
  readonly place: string;
  readonly by: string;
  /** Whether the finding stands in that block at another place. */
  readonly elsewhere: string;
}

const shop = (expires: string): string =>
  `${JOB}entry E1 2026-02-17 strip job J26-014\n  consumable "Jointing compound" batch JC-11 expires ${expires}\nentry E2 2026-02-18 review job J26-014\n  accept part/shelf-life-expired E1 by RPE 2026-02-18 "Extended by maker's letter 22"\n`;

/** Findings about findings cannot be seen by one of their own kind. */
const SECOND_STAGE: ReadonlySet<string> = new Set(["release/open-errors"]);

export default rule<"entry", Found>({
  id: "review/idle-acceptance",
  severity: "warning",
  on: ["entry"],
  reads: ["accepts"],
  second: true,
  page: {
    what: "A line accepts a finding that is not there: it was put right, or the line names another code, block or place than the finding has. A finding outside any job, such as one about an instrument, is not accepted by a line of a job.",
    why: "An acceptance that accepts nothing waits for a finding that nobody has seen yet, and would hide it.",
    remedy:
      "Remove the line while the entry is a draft; in a signed entry, say in a later one that it does not hold any more. Where it misses its finding, correct code, block or place.",
    faulty: [{ text: shop("2026-09-30") }],
    sound: [{ text: shop("2026-01-31") }],
  },
  check(block, ask, report) {
    if (block.job === "") return;
    const findings = ask.findings(block.job);
    for (const fact of block.accepts) {
      if (fact.code.startsWith("review/") || SECOND_STAGE.has(fact.code)) continue;
      const placed = { block: { ...block, atHours_h: undefined }, fact };
      if (findings.some((finding) => acceptanceMeets(placed, finding))) continue;
      const others = fact.place
        ? findings.filter((finding) => acceptanceMeets({ ...placed, fact: { ...fact, place: undefined } }, finding))
        : [];
      const elsewhere = others.map((finding) => finding.place).sort()[0] ?? "";
      report(
        { at: fact.at, role: "code" },
        { code: fact.code, ref: fact.ref, place: fact.place?.text ?? "", by: fact.by, elsewhere },
        { place: fact.place?.text ?? "", tag: "unnecessary" },
      );
    }
  },
  say: ({ code, ref, place, by, elsewhere }) =>
    `${by} accepts ${code} in ${ref}${place === "" ? "" : ` at ${place}`}, and there is no such finding${elsewhere === "" ? "" : ` there (there is one at ${elsewhere})`}. An acceptance of nothing would hide what comes later: take it back, or correct it.`,
});
