import { lastCheck, lastWet } from "../../totals/checks-of-job.ts";
import { mayBeUnread } from "../../totals/later-steps.ts";
import { isLater } from "../../totals/openings.ts";
import { JOB, RELEASE } from "../record-shops.ts";
import { type Related, rule } from "../rule.ts";

interface Found {
  readonly why: "none" | "fault" | "since-run" | "since-oil";
  readonly since: string;
}

const NAMES = ["fluids-drained", "drained"] as const;
const SHOP = `${JOB}run R1 2026-04-11 job J26-014 by ATH\n${RELEASE}`;

export default rule<"dispatch", Found>({
  id: "dispatch/undrained",
  severity: "error",
  on: ["dispatch"],
  page: {
    what: "The engine was dispatched and no `check fluids-drained ok` (or `drained`) stands in the job after its last run or filling.",
    why: "An engine with fuel or oil in it leaks, burns, and may be dangerous goods to the carrier. Whether and how a used engine may travel, a trained person decides from the current book of the mode (road, rail, sea, air) and the local rules; this check only sees that the draining was recorded.",
    remedy:
      "Drain oil and fuel, carburettor and filters too, and record `check fluids-drained ok` in the packing entry or the dispatch.",
    faulty: [{ text: `${SHOP}dispatch 2026-04-24 J26-014\n` }],
    sound: [
      { text: `${SHOP}dispatch 2026-04-24 J26-014\n  check fluids-drained ok "Oil and fuel, carburettor bowl too"\n` },
    ],
  },
  check(block, ask, report) {
    if (block.headerBroken) return;
    const drained = lastCheck(block.job, NAMES, ask);
    const wet = lastWet(block.job, ask);
    let why: Found["why"] | undefined;
    if (!drained) why = "none";
    else if (!drained.ok) why = "fault";
    else if (wet && !isLater(drained, wet)) why = wet.what === "run" ? "since-run" : "since-oil";
    if (why === undefined || mayBeUnread(block.job, "", ["check"], ask)) return;
    const related: Related[] = [];
    if (drained) related.push({ ref: drained.ref, spot: { at: drained.at }, says: "The last check of draining" });
    if (wet)
      related.push({ ref: wet.ref, spot: { at: wet.at }, says: wet.what === "run" ? "The last run" : "Oil came in" });
    report({ at: 0, role: "job" }, { why, since: wet ? wet.ref.slice(wet.ref.lastIndexOf("/") + 1) : "" }, { related });
  },
  say({ why, since }) {
    const what = {
      none: "no check says that its fluids were drained",
      fault: "the last check of draining was at fault",
      "since-run": `it ran (${since}) after its fluids were last drained`,
      "since-oil": `oil was put in (${since}) after its fluids were last drained`,
    }[why];
    return `The engine left and ${what}. Fuel and oil leak, burn, and may make it dangerous goods: drain it, record check fluids-drained ok, and have a trained person decide how it may travel.`;
  },
});
