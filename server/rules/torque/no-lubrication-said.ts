import { pathsOf } from "../../facts/place.ts";
import { scopeOf } from "../../facts/refs.ts";
import { jobContext } from "../../totals/job-context.ts";
import { chooseTorque, limitsFor, limitsKey } from "../../totals/limits-for.ts";
import { historyKey } from "../../totals/place-history.ts";
import { featureTorques } from "../../totals/torque-coverage.ts";
import { NUTS } from "../example-shops.ts";
import { limitLine, sourceText, WORK } from "../limit-wording.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly place: string;
  readonly wanted: string;
  readonly source: string;
}

export default rule<(typeof WORK)[number], Found>({
  id: "torque/no-lubrication-said",
  severity: "warning",
  on: WORK,
  reads: ["torques"],
  page: {
    what: "A torque does not say whether the fastener was oiled or dry, where its limit holds for one of the two.",
    why: "Without it nobody can tell whether the figure means the clamping that the limits mean.",
    remedy: "Add oiled, dry or compound and its name to the line, as it was done.",
    faulty: [
      { text: `${NUTS}entry E1 2026-02-27 build job J26-014\n  torque cylinder.nut[1..2/1..3] 40 N.m with TW-1\n` },
    ],
    sound: [
      {
        text: `${NUTS}entry E1 2026-02-27 build job J26-014\n  torque cylinder.nut[1..2/1..3] 40 N.m oiled with TW-1\n`,
      },
    ],
  },
  check(block, ask, report) {
    const scope = scopeOf(block);
    for (const torque of block.torques) {
      if (torque.lubrication !== "") continue;
      const { feature } = torque.place;
      const { type, revision } = ask.total(jobContext, scope);
      const limits = ask.total(limitsFor, limitsKey(type, revision, feature));
      const line = chooseTorque(limits.torques, pathsOf(torque.place)[0] ?? "");
      if (!line || line.lubrication === "") continue;
      if (
        ask
          .total(featureTorques, historyKey(scope, feature))
          .verdicts.some((one) => one.ref === block.ref && one.at === torque.at && one.superseded)
      )
        continue;
      report(
        { at: torque.at, role: "value" },
        { place: torque.place.text, wanted: line.lubrication, source: sourceText(limits, line.reference) },
        { place: torque.place.text, related: limitLine(limits, line) },
      );
    }
  },
  say: ({ place, wanted, source }) =>
    `${place} does not say how it was lubricated, and its torque holds ${wanted} (${source}). Add how it was done.`,
});
