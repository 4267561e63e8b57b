import { lastCheck, lastWet } from "../../totals/checks-of-job.ts";
import { mayBeUnread } from "../../totals/later-steps.ts";
import { isLater } from "../../totals/openings.ts";
import { JOB, RELEASE } from "../record-shops.ts";
import { type Related, rule } from "../rule.ts";

interface Found {
  readonly why: "none" | "fault" | "since-run";
  readonly run: string;
}

const NAMES = ["blanked", "blanks", "openings-blanked"] as const;
const SHOP = `${JOB}run R1 2026-04-11 job J26-014 by ATH\n${RELEASE}dispatch 2026-04-24 J26-014\n`;

export default rule<"dispatch", Found>({
  id: "dispatch/not-blanked",
  severity: "warning",
  on: ["dispatch"],
  page: {
    what: "The engine was dispatched and no `check blanked ok` (or `blanks`) stands in the job after its last run.",
    why: "Whatever falls into an open port on the road is found by the next start. Count the blanks in, and say where they are, so that they are counted out.",
    remedy: "Close every opening and record `check blanked ok`, with what was closed.",
    faulty: [{ text: SHOP }],
    sound: [{ text: `${SHOP}  check blanked ok\n` }],
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
      ? [{ ref: made.ref, spot: { at: made.at }, says: "The last check of the blanks" }]
      : [];
    report({ at: 0, role: "job" }, { why, run: ran ? ran.ref.slice(ran.ref.lastIndexOf("/") + 1) : "" }, { related });
  },
  say({ why, run }) {
    const what = {
      none: "no check of the blanks is recorded",
      fault: "the last check of the blanks was at fault",
      "since-run": `it ran (${run}) after the last check of the blanks`,
    }[why];
    return `The engine left and ${what}. What falls into an open port is found by the next start: close the openings and record it.`;
  },
});
