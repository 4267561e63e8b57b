/** A run on the stand for which no run-in schedule is named. */
import { scheduleOf } from "../../totals/run-context.ts";
import { RUN_IN } from "../example-shops.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly type: string;
  readonly exists: boolean;
}

export default rule({
  id: "run/no-run-in-schedule",
  severity: "information",
  on: ["run"],
  page: {
    what: "Neither the run, its job nor the job's route names a run-in schedule, so the steps of this run are not checked.",
    why: "A run that follows no written schedule shows that the engine ran, and not that it was run in.",
    remedy:
      "Name the schedule in the job's or the run's header (`run-in NAME`), or in the route as `needs run-in NAME`. A run for another purpose may stay without. Running an engine can hurt or kill: keep clear of the propeller and follow the maker's data and the local rules, which come before anything said here.",
    faulty: [
      {
        text: `engine C9-0412 Curlew-9
job J1 engine C9-0412
run R1 2026-04-11 job J1 by ATH second RPE
  log time crank.speed/rpm
  10:02 0
`,
      },
    ],
    sound: [
      {
        text: `${RUN_IN}engine C9-0412 Curlew-9
job J1 engine C9-0412 run-in Curlew-9
run R1 2026-04-11 job J1 by ATH second RPE
  log time crank.speed/rpm
  10:02 0
`,
      },
    ],
  },
  check(run, ask, report) {
    if (run.headerBroken || (run.logs.length === 0 && run.logFiles.length === 0)) return;
    const type = ask.engine(ask.job(run.job)?.engine ?? "")?.type ?? "";
    if (type === "") return;
    const schedule = scheduleOf(ask, run);
    if (schedule && schedule.from !== "type") return;
    // Later runs of a job that names none would only repeat what the first one says.
    if (ask.work(run.job).find((head) => head.kind === "run")?.ref !== run.ref) return;
    report({ at: 0, role: "name" }, { type, exists: schedule !== undefined });
  },
  say: (d: Data) =>
    d.exists
      ? `No run-in schedule is named for this job, so its steps are not checked; ${d.type} has one. Add run-in ${d.type} to the job or the run, if the engine is to be run in.`
      : `No run-in schedule is known for ${d.type}, so start, warm-up, steps and cooling are not checked. Write a run-in block from the maker's data, and name it in the job.`,
});
