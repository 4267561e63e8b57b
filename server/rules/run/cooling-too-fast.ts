/** A channel that fell faster than the schedule allows while the engine ran. */
import { show } from "../../calc/figures.ts";
import { fastestRates } from "../../calc/run-rates.ts";
import { findUnit } from "../../quantity/units.ts";
import { scheduleOf } from "../../totals/run-context.ts";
import { logsOf } from "../../totals/run-logs.ts";
import {
  boundIn,
  cellSpot,
  columnsOf,
  RUNNING_rpm,
  rowAt,
  speedColumn,
  tableOf,
  whenText,
} from "../../totals/run-table.ts";
import { RUN_IN } from "../example-shops.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly place: string;
  readonly rate: string;
  readonly limit: string;
  readonly schedule: string;
  readonly when: string;
}

/** The column while the engine runs: a head that cools after the engine has stopped is not what the line is about. */
function whileRunning(values: Float64Array, speed: Float64Array): Float64Array {
  const running = values.slice();
  for (let row = 0; row < running.length; row++) if (!(speed[row] >= RUNNING_rpm)) running[row] = Number.NaN;
  return running;
}

export default rule({
  id: "run/cooling-too-fast",
  severity: "warning",
  on: ["run"],
  reads: ["logs", "logFiles"],
  page: {
    what: "A channel fell faster than the schedule's `cool` line allows while the engine was running, over a window of a minute.",
    why: "Barrels and heads shrink faster than pistons and studs; heads crack and pistons scuff when load is taken off too quickly.",
    remedy:
      "Take load off in steps. For the run that is recorded: look at the parts, say so in an entry, and accept the finding with the reason. Running an engine can hurt or kill: keep clear of the propeller and follow the maker's data and the local rules, which come before anything said here.",
    faulty: [
      {
        text: `${RUN_IN}engine C9-0412 Curlew-9
job J1 engine C9-0412 run-in Curlew-9
run R1 2026-04-11 job J1 by ATH second RPE
  log time crank.speed/rpm cht[1..2]/C
  10:40 1400 175 170
  10:41 1400 175 170
  10:42 800 150 151
`,
      },
    ],
    sound: [
      {
        text: `${RUN_IN}engine C9-0412 Curlew-9
job J1 engine C9-0412 run-in Curlew-9
run R1 2026-04-11 job J1 by ATH second RPE
  log time crank.speed/rpm cht[1..2]/C
  10:40 1400 175 170
  10:41 1400 175 170
  10:42 800 155 151
  10:43 0 120 118
`,
      },
    ],
  },
  check(run, ask, report) {
    const schedule = scheduleOf(ask, run)?.block;
    for (const line of schedule?.cools ?? []) {
      for (const log of logsOf(ask, run)) {
        const speed = speedColumn(log);
        const table = tableOf(log);
        const rows = table.time_s.length;
        if (speed < 0 || rows < 2 || !schedule) continue;
        const usual_s = (table.time_s[rows - 1] - table.time_s[0]) / (rows - 1);
        for (const column of columnsOf(log, line.channel)) {
          const heading = log.columns[column];
          const limit = boundIn(line.bounds.high, heading?.unit && findUnit(`${heading.unit.preferred}/min`));
          if (limit === undefined || !(limit > 0) || !heading) continue;
          const values = whileRunning(table.columns[column], table.columns[speed]);
          const found = fastestRates({ time_s: table.time_s, columns: [values] }, 0, {
            coolLimit_perMin: limit,
            gap_s: Math.max(90, 2.5 * usual_s),
          });
          // The same allowance for binary rounding as the computation makes when it counts the time.
          if (!found.ok || !(-found.fastestCooling.perMin > limit * (1 + 1e-9))) continue;
          const row = Math.min(rowAt(table, found.fastestCooling.end_s), rows - 1);
          report(
            cellSpot(log, table.lines[row], column),
            {
              place: heading.place,
              rate: `${show(-found.fastestCooling.perMin, 4)} ${heading.unitText}/min`,
              limit: line.bounds.text,
              schedule: schedule.name,
              when: whenText(log, table.time_s[row]),
            },
            {
              place: heading.place,
              related: [{ ref: schedule.ref, spot: { at: line.at }, says: `${line.channel.text} ${line.bounds.text}` }],
            },
          );
        }
      }
    }
  },
  say: (d: Data) =>
    `${d.place} fell by ${d.rate} up to ${d.when.replace(/^at /u, "")}; the schedule ${d.schedule} allows ${d.limit}. Heads and barrels that shrink too fast crack and scuff: look at the parts, and take load off in steps.`,
});
