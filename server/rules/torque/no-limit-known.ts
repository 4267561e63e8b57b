import { pathsOf } from "../../facts/place.ts";
import { scopeOf } from "../../facts/refs.ts";
import { jobContext } from "../../totals/job-context.ts";
import { chooseTorque, limitsFor, limitsKey } from "../../totals/limits-for.ts";
import { NUTS } from "../example-shops.ts";
import { WORK } from "../limit-wording.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly place: string;
  readonly type: string;
  readonly revision: string;
}

export default rule<(typeof WORK)[number], Found>({
  id: "torque/no-limit-known",
  severity: "information",
  on: WORK,
  reads: ["torques"],
  page: {
    what: "A torque is recorded for a fastener of which the limits say nothing.",
    why: "It is kept and not checked. Most often the fastener is spelled otherwise in the limits.",
    remedy: "Add the torque to the limits, or correct the place.",
    faulty: [
      {
        text: `${NUTS}entry E1 2026-02-27 build job J26-014\n  torque cylinder.stud[1..2/1..3] 40 N.m oiled with TW-1\n`,
      },
    ],
    sound: [
      {
        text: `${NUTS}entry E1 2026-02-27 build job J26-014\n  torque cylinder.nut[1..2/1..3] 40 N.m oiled with TW-1\n`,
      },
    ],
  },
  check(block, ask, report) {
    const { type, revision } = ask.total(jobContext, scopeOf(block));
    if (!ask.limits(type, revision)) return;
    for (const { at, place } of block.torques) {
      const { torques } = ask.total(limitsFor, limitsKey(type, revision, place.feature));
      if (chooseTorque(torques, pathsOf(place)[0] ?? "")) continue;
      report({ at, role: "place" }, { place: place.text, type, revision }, { place: place.text });
    }
  },
  say: ({ place, type, revision }) =>
    `${type} revision ${revision} has no torque for ${place}, so the line is kept and not checked. Add the torque to the limits, or correct the place.`,
});
