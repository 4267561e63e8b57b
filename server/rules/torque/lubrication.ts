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
  readonly used: string;
  readonly wanted: string;
  readonly source: string;
}

export default rule<(typeof WORK)[number], Found>({
  id: "torque/lubrication",
  severity: "error",
  on: WORK,
  reads: ["torques"],
  page: {
    what: "A fastener was tightened with another lubrication than its torque is given for.",
    why: "The same torque stretches an oiled bolt far more than a dry one: the figure holds for the state that the limits name and for no other.",
    remedy: "Slacken, lubricate as the limits say, and tighten again.",
    faulty: [
      { text: `${NUTS}entry E1 2026-02-27 build job J26-014\n  torque cylinder.nut[1..2/1..3] 40 N.m dry with TW-1\n` },
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
      if (torque.lubrication === "") continue;
      const { feature } = torque.place;
      const { type, revision } = ask.total(jobContext, scope);
      const limits = ask.total(limitsFor, limitsKey(type, revision, feature));
      const line = chooseTorque(limits.torques, pathsOf(torque.place)[0] ?? "");
      if (!line || line.lubrication === "" || line.lubrication.toLowerCase() === torque.lubrication.toLowerCase())
        continue;
      if (
        ask
          .total(featureTorques, historyKey(scope, feature))
          .verdicts.some((one) => one.ref === block.ref && one.at === torque.at && one.superseded)
      )
        continue;
      report(
        { at: torque.at, role: torque.lubrication === "oiled" || torque.lubrication === "dry" ? "lube" : "compound" },
        {
          place: torque.place.text,
          used: torque.lubrication,
          wanted: line.lubrication,
          source: sourceText(limits, line.reference),
        },
        { place: torque.place.text, related: limitLine(limits, line) },
      );
    }
  },
  say: ({ place, used, wanted, source }) =>
    `${place} was tightened ${used}, and its torque holds ${wanted} (${source}): the clamping is not what it should be. Slacken, lubricate and tighten again.`,
});
