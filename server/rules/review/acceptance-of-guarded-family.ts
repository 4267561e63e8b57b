import { acceptanceMeets, familyOf, GUARDED_FAMILIES } from "../../totals/authority.ts";
import { BORES } from "../example-shops.ts";
import { PEOPLE } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly code: string;
  readonly ref: string;
  readonly by: string;
  readonly message: string;
}

const shop = (line: string): string =>
  `${PEOPLE}${BORES}entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.080 mm with BG-2\nentry E2 2026-02-20 review job J26-014\n  ${line}\n`;

export default rule<"entry", Found>({
  id: "review/acceptance-of-guarded-family",
  severity: "error",
  on: ["entry"],
  reads: ["accepts"],
  second: true,
  page: {
    what: "A line accepts an error about a limit, a torque, a run, a signature, a defect or a release. Such an error is not lowered by accepting it, so the acceptance does not hold. Warnings of these families may be accepted.",
    why: "These findings guard what can hurt someone. A signed concession says which part stays, by whose authority and why; an acceptance only says that the finding was read.",
    remedy: 'Put it right, or have a concession given: `concession N1 of E1 cylinder.bore[3] by CNO 2026-02-20 "..."`.',
    faulty: [{ text: shop('accept limit/out-of-limit E1 cylinder.bore[3] by RPE 2026-02-20 "Looks good"') }],
    sound: [{ text: shop('concession N1 of E1 cylinder.bore[3] by CNO 2026-02-20 "Within maker\'s letter 14"') }],
  },
  check(block, ask, report) {
    if (block.job === "") return;
    for (const fact of block.accepts) {
      if (!GUARDED_FAMILIES.has(familyOf(fact.code))) continue;
      const placed = { block: { ...block, atHours_h: undefined }, fact };
      const found = ask.findings(block.job).filter((one) => one.severity === "error" && acceptanceMeets(placed, one));
      // Findings come in no order of their own; of several the first by its message is named.
      const finding = found.reduce<(typeof found)[number] | undefined>(
        (first, one) => (first === undefined || one.message < first.message ? one : first),
        undefined,
      );
      if (!finding) continue;
      report(
        { at: fact.at, role: "code" },
        { code: fact.code, ref: fact.ref, by: fact.by, message: finding.message },
        { place: finding.place, related: [{ ref: finding.ref, spot: { at: 0 }, says: finding.message }] },
      );
    }
  },
  say: ({ code, ref, by }) =>
    `${by} accepts ${code} in ${ref}, which is an error that accepting does not lower: it guards what can hurt someone. Put it right, or have a concession given and signed.`,
});
