import { placeText } from "../../facts/place.ts";
import { jobContext } from "../../totals/job-context.ts";
import { mayBeUnread, needsOf } from "../../totals/later-steps.ts";
import { isNamedBy } from "../../totals/limits-for.ts";
import { torqueCoverage } from "../../totals/torque-coverage.ts";
import { NUTS } from "../example-shops.ts";
import { few } from "../limit-wording.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly places: readonly string[];
  readonly locking: string;
  /** A later step that is signed, the release, or "". */
  readonly passedBy: string;
}

const SHOP = `${NUTS.replace('oiled ref "4-9"', 'oiled locking wire ref "4-9"')}entry E1 2026-02-27 build job J26-014\n  torque cylinder.nut[1..2/1..3] 40 N.m oiled with TW-1\n`;

export default rule<"job", Found>({
  id: "torque/locking-missing",
  severity: "hint",
  on: ["job"],
  reads: ["engine"],
  page: {
    what: "A fastener was tightened and not locked since, where the limits ask for locking.",
    why: "An engine shakes loose what is not locked. It is work to do until a later step is signed, then an error.",
    remedy: "Lock it and record it: `locked PLACE METHOD`.",
    faulty: [{ text: SHOP }],
    sound: [{ text: `${SHOP}  locked cylinder.nut[1..2/1..3] wire\n` }],
  },
  check(block, ask, report) {
    const scope = block.name;
    const open = ask.total(torqueCoverage, scope).lines.filter((line) => line.unlocked.length > 0);
    if (open.length === 0 || mayBeUnread(scope, "", ["locked"], ask)) return;
    const release = ask.work(scope).find((head) => head.kind === "release");
    const needs = needsOf(scope, "torque", ask);
    const { type, revision } = ask.total(jobContext, scope);
    const ref = ask.limits(type, revision)?.ref ?? "";
    for (const line of open) {
      const asked = needs.find(({ need, passedBy }) => passedBy !== "" && isNamedBy(line.feature, need.features));
      const passedBy = asked?.passedBy ?? (release ? "release" : "");
      report(
        { at: 0, role: "name" },
        { places: line.unlocked.map((path) => placeText(line.feature, path)), locking: line.locking, passedBy },
        {
          place: line.feature,
          severity: passedBy === "" ? "hint" : "error",
          related: [{ ref, spot: { at: line.limitAt }, says: "The torque and its locking" }],
        },
      );
    }
  },
  say: ({ places, locking, passedBy }) =>
    `${few(places)} ${places.length === 1 ? "is" : "are"} tightened and not locked (${locking})${passedBy === "" ? "" : `, and ${passedBy === "release" ? "the job is released" : `step ${passedBy} is signed`}`}. Lock ${places.length === 1 ? "it" : "them"} and record it.`,
});
