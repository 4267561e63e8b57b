import { lastCheck, lastWet } from "../../totals/checks-of-job.ts";
import { mayBeUnread } from "../../totals/later-steps.ts";
import { isLater } from "../../totals/openings.ts";
import { JOB, RELEASE } from "../record-shops.ts";
import { type Related, rule } from "../rule.ts";

interface Found {
  readonly why: "none" | "fault" | "since-run";
  readonly run: string;
}

const NAMES = ["preservation", "preserved", "inhibited"] as const;
const SHOP = `${JOB}run R1 2026-04-11 job J26-014 by ATH\n${RELEASE}dispatch 2026-04-24 J26-014\n`;

export default rule<"dispatch", Found>({
  id: "dispatch/not-preserved",
  severity: "warning",
  on: ["dispatch"],
  page: {
    what: "The engine was dispatched and no `check preservation ok` (or `preserved`, `inhibited`) stands in the job after its last run.",
    why: "An overhauled engine that stands unpreserved rusts within weeks, cylinders and cam first. How, and for how long, the maker's data says. Where it is fitted and run at once, have this accepted with that reason.",
    remedy: "Preserve it as the maker's data says and record `check preservation ok`.",
    faulty: [{ text: SHOP }],
    sound: [{ text: `${SHOP}  check preservation ok\n` }],
  },
  check(block, ask, report) {
    if (block.headerBroken) return;
    const made = lastCheck(block.job, NAMES, ask);
    const wet = lastWet(block.job, ask);
    const ran = wet?.what === "run" ? wet : undefined;
    let why: Found["why"] | undefined;
    if (!made) why = "none";
    else if (!made.ok) why = "fault";
    else if (ran && !isLater(made, ran)) why = "since-run";
    if (why === undefined || mayBeUnread(block.job, "", ["check"], ask)) return;
    const related: Related[] = made
      ? [{ ref: made.ref, spot: { at: made.at }, says: "The last check of preservation" }]
      : [];
    report({ at: 0, role: "job" }, { why, run: ran ? ran.ref.slice(ran.ref.lastIndexOf("/") + 1) : "" }, { related });
  },
  say({ why, run }) {
    const what = {
      none: "no check of preservation is recorded",
      fault: "the last check of preservation was at fault",
      "since-run": `it ran (${run}) after the last check of preservation`,
    }[why];
    return `The engine left and ${what}. Cylinders and cam rust within weeks: preserve it as the maker's data says and record it, or say why it need not be.`;
  },
});
