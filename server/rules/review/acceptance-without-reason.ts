import { JOB } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly by: string;
  readonly code: string;
}

const shop = (reason: string): string =>
  `${JOB}entry E1 2026-02-17 strip job J26-014\n  consumable "Jointing compound" batch JC-11 expires 2026-01-31\nentry E2 2026-02-18 review job J26-014\n  accept part/shelf-life-expired E1 by RPE 2026-02-18 "${reason}"\n`;

export default rule<"entry", Found>({
  id: "review/acceptance-without-reason",
  severity: "error",
  on: ["entry"],
  reads: ["accepts"],
  page: {
    what: "A finding was accepted and no reason is given. The acceptance does not hold, and the finding stays.",
    why: "Whoever reads the record later must be able to judge the reason. Without one it says only that someone wanted the finding gone.",
    remedy: "Say why it may stay: what was looked at, which letter allows it.",
    faulty: [{ text: shop(" ") }],
    sound: [{ text: shop("Extended by maker's letter 22") }],
  },
  check(block, _ask, report) {
    for (const line of block.accepts)
      if (line.reason.trim() === "") report({ at: line.at, role: "reason" }, { by: line.by, code: line.code });
  },
  say: ({ by, code }) =>
    `${by} accepts ${code} and says no reason, so it does not hold. Say why it may stay, for whoever must judge it later.`,
});
