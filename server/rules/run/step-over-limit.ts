/** A bound of a run-in step that was broken while the step ran. */
import { settle } from "../../calc/figures.ts";
import { clearedLater, isConceded } from "../../totals/later-work.ts";
import { runIn } from "../../totals/run-in-state.ts";
import { logsOf } from "../../totals/run-logs.ts";
import { samplesText } from "../../totals/run-table.ts";
import { RUN_IN } from "../example-shops.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly step: string;
  readonly schedule: string;
  readonly place: string;
  readonly worst: string;
  readonly limit: string;
  readonly by: string;
  readonly side: "over" | "under";
  readonly samples: number;
}

export default rule({
  id: "run/step-over-limit",
  severity: "error",
  on: ["run"],
  reads: ["logs", "logFiles"],
  page: {
    what: "While a step of the run-in schedule ran, a channel stood outside the bound that the step sets for it.",
    why: "Bounds inside a step are tighter than the engine's limits, because parts that have not bedded in make more heat than they can shed.",
    remedy:
      "Find the cause, put it right and run the step again; a later run that keeps the bound, after work on the engine, clears the finding. Running an engine can hurt or kill: keep clear of the propeller and follow the maker's data and the local rules, which come before anything said here.",
    faulty: [
      {
        text: `${RUN_IN}engine C9-0412 Curlew-9
job J1 engine C9-0412 run-in Curlew-9
run R1 2026-04-11 job J1 by ATH second RPE
  log time crank.speed/rpm cht[1..2]/C
  10:00 800 140 150
  10:05 800 150 163
  10:10 800 155 158
`,
      },
    ],
    sound: [
      {
        text: `${RUN_IN}engine C9-0412 Curlew-9
job J1 engine C9-0412 run-in Curlew-9
run R1 2026-04-11 job J1 by ATH second RPE
  log time crank.speed/rpm cht[1..2]/C
  10:00 800 140 150
  10:10 800 155 160
`,
      },
    ],
  },
  check(run, ask, report) {
    if (run.job === "") return;
    const state = ask.total(runIn, run.job);
    if (!state || state.namedBy === "type") return;
    for (const step of state.steps) {
      for (const breach of step.breaches) {
        if (breach.ref !== run.ref) continue;
        const bracket = breach.place.indexOf("[");
        const feature = bracket < 0 ? breach.place : breach.place.slice(0, bracket);
        if (isConceded(ask, run.job, run.ref, feature, bracket < 0 ? "" : breach.place.slice(bracket + 1, -1)))
          continue;
        // The steps are matched over all runs of the job, so a step that was done again elsewhere is no longer this run's.
        if (
          clearedLater(ask, run, (later) =>
            logsOf(ask, later).length > 0 ? !step.breaches.some((one) => one.ref === later.ref) : undefined,
          )
        )
          continue;
        report(
          breach.spot,
          {
            step: step.name,
            schedule: state.schedule,
            place: breach.place,
            worst: `${breach.worst} ${breach.unit}`,
            limit: `${breach.bound} ${settle(breach.limit)} ${breach.unit}`,
            by: `${settle(Math.abs(breach.worst - breach.limit))} ${breach.unit}`,
            side: breach.bound === "max" ? "over" : "under",
            samples: breach.samples,
          },
          {
            place: breach.place,
            related: [{ ref: state.scheduleRef, spot: { at: step.at }, says: `step ${step.name}` }],
          },
        );
      }
    }
  },
  say: (d: Data) =>
    `${d.place} stood at ${d.worst} in step ${d.step} of ${d.schedule}, ${d.by} ${d.side} its ${d.limit}: ${samplesText(d.samples)} outside. Parts that have not bedded in make more heat than they shed: find the cause and run the step again.`,
});
