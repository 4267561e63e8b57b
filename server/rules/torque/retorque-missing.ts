import { placeText } from "../../facts/place.ts";
import { jobContext } from "../../totals/job-context.ts";
import { mayBeUnread } from "../../totals/later-steps.ts";
import { torqueCoverage } from "../../totals/torque-coverage.ts";
import { NUTS } from "../example-shops.ts";
import { few } from "../limit-wording.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly feature: string;
  readonly places: readonly string[];
  readonly bounds: string;
  readonly isReleased: boolean;
}

const SHOP = `${NUTS.replace('oiled ref "4-9"', 'oiled retorque ref "4-9"')}person ATH "Ada Thorne"\nstand TS-1 "Run stand"\nentry E1 2026-02-27 build job J26-014\n  torque cylinder.nut[1..2/1..3] 40 N.m oiled with TW-1\nrun R1 2026-04-11 job J26-014 stand TS-1 by ATH\n`;

export default rule<"job", Found>({
  id: "torque/retorque-missing",
  severity: "warning",
  on: ["job"],
  reads: ["engine"],
  page: {
    what: "A fastener that the limits ask to be tightened again after the run was not.",
    why: "Gaskets and new parts settle in the first heat, and the clamping goes with it.",
    remedy: "Tighten again after the last run and record it.",
    faulty: [{ text: SHOP }],
    sound: [
      {
        text: `${SHOP}entry E2 2026-04-12 after-run job J26-014\n  torque cylinder.nut[1..2/1..3] 40 N.m oiled with TW-1 retorque\n`,
      },
    ],
  },
  check(block, ask, report) {
    const scope = block.name;
    const open = ask.total(torqueCoverage, scope).lines.filter((line) => line.retorque.length > 0);
    if (open.length === 0 || mayBeUnread(scope, "", ["torque"], ask)) return;
    const isReleased = ask.work(scope).some((head) => head.kind === "release");
    const { type, revision } = ask.total(jobContext, scope);
    const ref = ask.limits(type, revision)?.ref ?? "";
    for (const line of open) {
      report(
        { at: 0, role: "name" },
        {
          feature: line.feature,
          places: line.retorque.map((path) => placeText(line.feature, path)),
          bounds: line.bounds,
          isReleased,
        },
        {
          place: line.feature,
          severity: isReleased ? "error" : "warning",
          related: [{ ref, spot: { at: line.limitAt }, says: "The torque" }],
        },
      );
    }
  },
  say: ({ places, bounds, isReleased }) =>
    `${few(places)} ${places.length === 1 ? "is" : "are"} to be tightened again to ${bounds} after the run and ${places.length === 1 ? "is" : "are"} not${isReleased ? ", and the job is released" : ""}: what settled in the heat has lost its clamping. Tighten again and record it.`,
});
