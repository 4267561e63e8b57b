import { scopeOf } from "../../facts/refs.ts";
import type { TorqueLine } from "../../facts/types.ts";
import type { Measure } from "../../quantity/compare.ts";
import { jobContext } from "../../totals/job-context.ts";
import { limitsFor, limitsKey } from "../../totals/limits-for.ts";
import { historyKey } from "../../totals/place-history.ts";
import { featureTorques } from "../../totals/torque-coverage.ts";
import { NUTS } from "../example-shops.ts";
import { apart, boundText, limitLine, sourceText, textOf, WORK } from "../limit-wording.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly place: string;
  readonly torque: Pick<TorqueLine, "value" | "drag">;
  readonly end: Measure;
  readonly way: "low" | "high";
  readonly bounds: string;
  readonly source: string;
}

export default rule<(typeof WORK)[number], Found>({
  id: "torque/out-of-range",
  severity: "error",
  on: WORK,
  reads: ["torques"],
  page: {
    what: "A fastener was tightened to a torque outside its limits.",
    why: "Too little and the joint works loose; too much and the fastener or its thread has yielded. A torque equal to its limit is inside it. Of a self-locking fastener the drag is taken off before comparing.",
    remedy:
      "Tighten again within the limits and record it; a stud or bolt that was over-tightened is replaced as the maker's data say.",
    faulty: [
      {
        text: `${NUTS}entry E1 2026-02-27 build job J26-014\n  torque cylinder.nut[1..2/1..3] 43 N.m oiled with TW-1\n`,
      },
    ],
    sound: [
      {
        text: `${NUTS}entry E1 2026-02-27 build job J26-014\n  torque cylinder.nut[1..2/1..3] 42 N.m oiled with TW-1\n`,
      },
      {
        text: `${NUTS}entry E1 2026-02-27 build job J26-014\n  torque cylinder.nut[1..2/1..3] 36 N.m oiled with TW-1\nentry E2 2026-02-28 build job J26-014\n  torque cylinder.nut[1..2/1..3] 40 N.m oiled with TW-1\n`,
      },
    ],
  },
  check(block, ask, report) {
    const scope = scopeOf(block);
    for (const feature of new Set(block.torques.map((torque) => torque.place.feature))) {
      const { type, revision } = ask.total(jobContext, scope);
      const limits = ask.total(limitsFor, limitsKey(type, revision, feature));
      for (const one of ask.total(featureTorques, historyKey(scope, feature)).verdicts) {
        if (one.ref !== block.ref || one.superseded || (one.verdict !== "low" && one.verdict !== "high")) continue;
        const torque = block.torques.find((line) => line.at === one.at);
        const line = limits.torques.find((limit) => limit.at === one.limitAt);
        const end = one.verdict === "low" ? one.low : one.high;
        if (!torque || !line || !end) continue;
        report(
          { at: one.at, role: "value" },
          {
            place: torque.place.text,
            torque: { value: torque.value, drag: torque.drag },
            end,
            way: one.verdict,
            bounds: line.bounds.text,
            source: sourceText(limits, line.reference),
          },
          { place: torque.place.text, related: limitLine(limits, line) },
        );
      }
    }
  },
  say({ place, torque, end, way, bounds, source }) {
    const { value, drag } = torque;
    const gap = drag ? "with its drag taken off" : `${apart(value, end)} ${way === "low" ? "under" : "over"}`;
    const figure = drag ? `${textOf(value)} less ${textOf(drag)} of drag` : textOf(value);
    return `${place} was tightened to ${figure}, ${gap}${drag ? (way === "low" ? " under" : " over") : ""} the ${way === "low" ? "least" : "greatest"} of ${boundText(end, value.unit)} (${bounds}; ${source}). ${way === "low" ? "The joint can work loose: tighten it again and record it." : "The fastener may have yielded: follow the maker's data, tighten it again and record it."}`;
  },
});
