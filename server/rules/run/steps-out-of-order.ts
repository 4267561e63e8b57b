/** A step of the run-in schedule that was run before the step that should come first. */
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
  id: "run/steps-out-of-order",
  severity: "warning",
  on: ["run"],
  reads: ["logs", "logFiles"],
  page: {
    what: "A step of the run-in schedule was run long enough, but before the step that should come first.",
    why: "A later step loads the engine more than the one before it: taken first, it loads parts that have not bedded in.",
    remedy:
      "Run the step again in its turn and have the engine looked at; a later run in the same job that does the steps in order clears the finding. Running an engine can hurt or kill: keep clear of the propeller and follow the maker's data and the local rules, which come before anything said here.",
    faulty: [
      {
        text: `${RUN_IN}engine C9-0412 Curlew-9
job J1 engine C9-0412 run-in Curlew-9
run R1 2026-04-11 job J1 by ATH second RPE
  log time crank.speed/rpm oil.temp/C
  10:00 1200 45
  10:20 1200 50
  10:21 800 52
  10:31 800 60
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
    if (!state || state.namedBy === "type") return;
    // Before a release the rest of a schedule may still be run; after it nothing more will come.
    const released = ask.work(run.job).some((head) => head.kind === "release");
    for (const [index, step] of state.steps.entries()) {
      if (
        step.verdict !== "out-of-order" ||
        step.ref !== run.ref ||
        isConceded(ask, run.job, run.ref, "step", step.name)
      )
        continue;
      report(
        { at: step.startLine },
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
    `Step ${d.step} of ${d.schedule} was run for ${formatDuration(d.counted_s)}, but before step ${d.before}, which should come first. A later step loads parts that the earlier one beds in: run it again in its turn.`,
});
