import { formatDate } from "../../quantity/civil-date.ts";
import { decidedBefore, defectStates } from "../../totals/defect-states.ts";
import { mayBeUnread } from "../../totals/later-steps.ts";
import { positionOfRelease } from "../../totals/route-steps.ts";
import { JOB, RELEASE } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly name: string;
  readonly place: string;
  readonly about: string;
  readonly on: string;
  readonly excepted: boolean;
}

const SHOP = `${JOB}entry E1 2026-02-17 strip job J26-014\n  defect D7 baffle[4] "Cracked at the lower lug"\n`;

export default rule<"release", Found>({
  id: "defect/open-at-release",
  severity: "error",
  on: ["release"],
  page: {
    what: "The job was released while a defect was neither rectified nor deferred, and no concession was given for it.",
    why: "A defect that nobody decided about leaves with the engine. Naming it in the statement tells the owner, and decides nothing: someone with authority must defer it, up to a limit, or concede it.",
    remedy:
      "Before the release: `rectify`, `defer` with its limit, or a `concession`. After it: release again once that is done.",
    faulty: [{ text: `${SHOP}${RELEASE}` }],
    sound: [
      { text: `${SHOP}  rectify D7 "Stop-drilled and welded, dye check clear"\n${RELEASE}` },
      {
        text: `${SHOP}  defer D7 until 2026-12-31 or 50 h by CNO 2026-02-17 "No load on the lug"\n${RELEASE.replace('named"', 'named" except D7')}`,
      },
    ],
  },
  check(block, ask, report) {
    const defects = ask.total(defectStates, block.job);
    if (defects.length === 0) return;
    const order = positionOfRelease(block, ask);
    const open = defects.filter((defect) => defect.order < order && decidedBefore(defect, order) === undefined);
    if (open.length === 0 || mayBeUnread(block.job, "", ["rectify", "defer", "concession"], ask)) return;
    for (const { name, place, about, ref, at } of open) {
      const nth = block.except.indexOf(name);
      report(
        nth < 0 ? { at: 0, role: "job" } : { at: 0, role: "except", nth },
        { name, place, about, on: block.date === undefined ? "" : formatDate(block.date), excepted: nth >= 0 },
        { place, related: [{ ref, spot: { at }, says: "The defect" }] },
      );
    }
  },
  say({ name, place, about, on, excepted }) {
    const named = excepted
      ? "It is named as an exception, which decides nothing."
      : "It left with the engine and nobody decided about it.";
    return `Defect ${name} at ${place} ("${about}") was open at the release${on === "" ? "" : ` of ${on}`}. ${named} Rectify it, or have it deferred or conceded by someone who may.`;
  },
});
