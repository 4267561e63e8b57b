/** A step of the run-in schedule that no run of the job shows. */
import { formatDuration } from "../../quantity/civil-date.ts";
import { isConceded } from "../../totals/later-work.ts";
import { runIn } from "../../totals/run-in-state.ts";
import { RUN_IN } from "../example-shops.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly step: string;
  readonly schedule: string;
  readonly range: string;
  readonly wanted_s: number;
  readonly counted_s: number;
  readonly before: string;
}

export default rule({
  id: "run/step-missing",
  severity: "warning",
  on: ["run"],
  reads: ["logs", "logFiles"],
  page: {
    what: "No run of the job shows a step of its run-in schedule: the speed was never in its range after the step before it.",
    why: "A schedule is built up so that each step prepares the next; a step left out is load on parts that have not bedded in.",
    remedy:
      "Run the step. A schedule may be spread over several runs of the job. If a run is recorded elsewhere, log it here. Running an engine can hurt or kill: keep clear of the propeller and follow the maker's data and the local rules, which come before anything said here.",
    faulty: [
      {
        text: `${RUN_IN}engine C9-0412 Curlew-9
job J1 engine C9-0412 run-in Curlew-9
run R1 2026-04-11 job J1 by ATH second RPE
  log time crank.speed/rpm oil.temp/C
  10:00 800 45
  10:10 800 50
`,
      },
    ],
    sound: [
      {
        text: `${RUN_IN}engine C9-0412 Curlew-9
job J1 engine C9-0412 run-in Curlew-9
run R1 2026-04-11 job J1 by ATH second RPE
  log time crank.speed/rpm oil.temp/C
  10:00 800 45
  10:10 800 50
  10:11 1200 52
  10:31 1200 60
`,
      },
    ],
  },
  check(run, ask, report) {
    if (run.job === "") return;
    const state = ask.total(runIn, run.job);
    if (!state || state.namedBy === "type" || state.unseen) return;
    // Before a release the rest of a schedule may still be run; after it nothing more will come.
    const released = ask.work(run.job).some((head) => head.kind === "release");
    for (const [index, step] of state.steps.entries()) {
      if (
        step.verdict !== "missed" ||
        state.lastRun !== run.ref ||
        isConceded(ask, run.job, run.ref, "step", step.name)
      )
        continue;
      report(
        { at: 0, role: "name" },
        {
          step: step.name,
          schedule: state.schedule,
          range: step.range,
          wanted_s: step.wanted_s,
          counted_s: step.counted_s,
          before: state.steps[index - 1]?.name ?? "",
        },
        {
          severity: released ? "error" : "warning",
          place: `step[${step.name}]`,
          related: [
            {
              ref: state.scheduleRef,
              spot: { at: step.at },
              says: `step ${step.name}: ${formatDuration(step.wanted_s)} at ${step.range}`,
            },
          ],
        },
      );
    }
  },
  say: (d: Data) =>
    `Step ${d.step} of ${d.schedule} (${formatDuration(d.wanted_s)} at ${d.range}) is in no run of this job. Each step prepares the next: run it, or log the run that has it.`,
});
