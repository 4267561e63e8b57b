/** Oil pressure (or another channel) that did not come up within the time that the schedule allows after a start. */
import { isConceded } from "../../totals/later-work.ts";
import { scheduleOf } from "../../totals/run-context.ts";
import { logsOf } from "../../totals/run-logs.ts";
import { boundIn, cellSpot, columnsOf, speedColumn, tableOf, turnings, whenText } from "../../totals/run-table.ts";
import { RUN_IN } from "../example-shops.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly place: string;
  readonly value: string;
  readonly after_s: number;
  readonly start: string;
  readonly bound: string;
  readonly within: string;
  readonly schedule: string;
  readonly reached: string;
}

export default rule({
  id: "run/oil-pressure-late",
  severity: "error",
  on: ["run"],
  reads: ["logs", "logFiles"],
  page: {
    what: "After a start a channel was still below what the schedule's `start` line asks for, when the time allowed was over.",
    why: "Bearings without oil pressure are ruined in seconds to minutes. The engine should have been stopped when the time was over.",
    remedy:
      "Find out why the pressure was late (no pre-oiling, air in the line, a relief valve), name a defect, put it right, and start again. What happened at a start cannot be measured again: have the bearings looked at, and a concession signed by someone who may. Only rows that prove it count: a log with a row a minute cannot show thirty seconds. Running an engine can hurt or kill: keep clear of the propeller and follow the maker's data and the local rules, which come before anything said here.",
    faulty: [
      {
        text: `${RUN_IN}engine C9-0412 Curlew-9
job J1 engine C9-0412 run-in Curlew-9
run R1 2026-04-11 job J1 by ATH second RPE
  log elapsed/s crank.speed/rpm oil.pressure/psi
  0 0 0
  5 700 0
  20 800 12
  45 800 31
  60 800 48
`,
      },
    ],
    sound: [
      {
        text: `${RUN_IN}engine C9-0412 Curlew-9
job J1 engine C9-0412 run-in Curlew-9
run R1 2026-04-11 job J1 by ATH second RPE
  log elapsed/s crank.speed/rpm oil.pressure/psi
  0 0 0
  5 700 0
  20 800 12
  35 800 40
`,
      },
    ],
  },
  check(run, ask, report) {
    const schedule = scheduleOf(ask, run)?.block;
    for (const line of schedule?.starts ?? []) {
      if (line.within.unit.dimension !== "time" || !schedule) continue;
      const within_s = line.within.value * line.within.unit.factorNumber;
      for (const log of logsOf(ask, run)) {
        const speed = speedColumn(log);
        if (speed < 0) continue;
        const table = tableOf(log);
        for (const column of columnsOf(log, line.channel)) {
          const heading = log.columns[column];
          const least = boundIn(line.bounds.low, heading?.unit);
          if (least === undefined || !heading) continue;
          const values = table.columns[column];
          for (const turning of turnings(table, speed)) {
            // An engine that already ran in the first row was not seen to start.
            if (!turning.seenToStart) continue;
            const start_s = table.time_s[turning.firstRow];
            let late = -1;
            let reached = -1;
            for (let row = turning.firstRow; row < turning.endRow; row++) {
              if (values[row] >= least) {
                reached = row;
                break;
              }
              if (late < 0 && values[row] < least && table.time_s[row] - start_s > within_s) late = row;
            }
            if (late < 0 || isConceded(ask, run.job, run.ref, heading.feature, heading.path)) continue;
            report(
              cellSpot(log, table.lines[late], column),
              {
                place: heading.place,
                value: `${values[late]} ${heading.unitText}`,
                after_s: Math.round(table.time_s[late] - start_s),
                start: whenText(log, start_s),
                bound: line.bounds.text,
                within: `${line.within.text} ${line.within.unit.spelling}`,
                schedule: schedule.name,
                reached:
                  reached < 0
                    ? "it was never reached in this run"
                    : `it was reached ${whenText(log, table.time_s[reached])}`,
              },
              {
                place: heading.place,
                related: [
                  {
                    ref: schedule.ref,
                    spot: { at: line.at },
                    says: `${line.bounds.text} within ${line.within.text} ${line.within.unit.spelling}`,
                  },
                ],
              },
            );
          }
        }
      }
    }
  },
  say: (d: Data) =>
    `${d.place} was ${d.value} ${d.after_s} s after the start ${d.start}; the schedule ${d.schedule} asks for ${d.bound} within ${d.within}; ${d.reached}. Bearings without oil are ruined within minutes: find the cause before the next start.`,
});
