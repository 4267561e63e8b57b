import { placeText } from "../../facts/place.ts";
import { jobContext } from "../../totals/job-context.ts";
import { mayBeUnread, needsOf } from "../../totals/later-steps.ts";
import { isNamedBy } from "../../totals/limits-for.ts";
import { torqueCoverage } from "../../totals/torque-coverage.ts";
import { NUTS } from "../example-shops.ts";
import { few } from "../limit-wording.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly feature: string;
  readonly places: readonly string[];
  readonly expected: number;
  readonly bounds: string;
  readonly step: string;
  readonly passedBy: string;
}

const SHOP = NUTS.replace(
  "job J26-014 engine C9-0412",
  'route top\n  step build needs torque cylinder\n  step close after build\nperson ATH "Ada Thorne"\n  role fitter from 2024-01-08\njob J26-014 engine C9-0412 route top',
);

export default rule<"job", Found>({
  id: "torque/missing",
  severity: "hint",
  on: ["job"],
  reads: ["route"],
  page: {
    what: "A fastener that a step of the route asks to be tightened has no torque that counts.",
    why: "It is work to do while the step is open; once a later step is signed the engine went on with a nut of which nobody knows whether it was tightened. Taking off, fitting, moving or opening a part takes the torque of its fasteners away.",
    remedy: "Tighten the fastener and record it.",
    faulty: [
      {
        text: `${SHOP}entry E1 2026-02-27 build job J26-014\n  torque cylinder.nut[1/1..3] 40 N.m oiled with TW-1\nentry E2 2026-02-28 close job J26-014\n  sign fitter ATH 2026-02-28\n`,
      },
    ],
    sound: [
      {
        text: `${SHOP}entry E1 2026-02-27 build job J26-014\n  torque cylinder.nut[1..2/1..3] 40 N.m oiled with TW-1\nentry E2 2026-02-28 close job J26-014\n  sign fitter ATH 2026-02-28\n`,
      },
    ],
  },
  check(block, ask, report) {
    const scope = block.name;
    const needs = [...needsOf(scope, "torque", ask)].sort(
      (a, b) => Number(b.passedBy !== "") - Number(a.passedBy !== ""),
    );
    if (needs.length === 0) return;
    const { revision, type } = ask.total(jobContext, scope);
    const limits = ask.limits(type, revision);
    if (!limits) return;
    const said = new Set<number>();
    const { lines } = ask.total(torqueCoverage, scope);
    for (const { step, need, passedBy } of needs) {
      for (const line of lines) {
        if (line.missing.length === 0 || said.has(line.limitAt) || !isNamedBy(line.feature, need.features)) continue;
        said.add(line.limitAt);
        if (mayBeUnread(scope, "", ["torque"], ask)) continue;
        report(
          { at: 0, role: "name" },
          {
            feature: line.feature,
            places: line.missing.map((path) => placeText(line.feature, path)),
            expected: line.expected,
            bounds: line.bounds,
            step: step.name,
            passedBy,
          },
          {
            place: line.feature,
            severity: passedBy === "" ? "hint" : "error",
            related: [{ ref: limits.ref, spot: { at: line.limitAt }, says: "The torque" }],
          },
        );
      }
    }
  },
  say({ feature, places, expected, bounds, step, passedBy }) {
    const what =
      expected === 1
        ? `${feature} is not tightened`
        : places.length === expected
          ? `None of the ${expected} of ${feature} is tightened`
          : `${places.length} of ${expected} of ${feature} ${places.length === 1 ? "is" : "are"} not tightened (${few(places)})`;
    return passedBy === ""
      ? `${what} to ${bounds}; step ${step} asks for it.`
      : `${what} to ${bounds}, which step ${step} asks for, and step ${passedBy} after it is signed. Tighten and record it.`;
  },
});
