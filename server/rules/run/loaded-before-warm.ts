/** The engine was brought to load before it was warm. */
import { loadedBeforeWarm } from "../../calc/run-start.ts";
import { formatDuration } from "../../quantity/civil-date.ts";
import { isConceded } from "../../totals/later-work.ts";
import { scheduleOf } from "../../totals/run-context.ts";
import { logsOf } from "../../totals/run-logs.ts";
import { boundIn, cellSpot, columnsOf, rowAt, samplesText, tableOf, whenText } from "../../totals/run-table.ts";
import { RUN_IN } from "../example-shops.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly place: string;
  readonly value: string;
  readonly load: string;
  readonly limit: string;
  readonly bound: string;
  readonly when: string;
  readonly samples: number;
  readonly cold_s: number;
  readonly schedule: string;
}

export default rule({
  id: "run/loaded-before-warm",
  severity: "error",
  on: ["run"],
  reads: ["logs", "logFiles"],
  page: {
    what: "The engine was run at or above the speed of the schedule's `warm` line while the channel that it names was still below its least value.",
    why: "Cold oil does not reach the last bearing, and cold pistons and barrels have other clearances than warm ones.",
    remedy:
      "Warm up at idle until the value is reached, then load. For the run that is recorded: have the engine looked at, say so in an entry, and have a concession signed by someone who may. Running an engine can hurt or kill: keep clear of the propeller and follow the maker's data and the local rules, which come before anything said here.",
    faulty: [
      {
        text: `${RUN_IN}engine C9-0412 Curlew-9
job J1 engine C9-0412 run-in Curlew-9
run R1 2026-04-11 job J1 by ATH second RPE
  log time crank.speed/rpm oil.temp/C
  10:02 0 17
  10:03 800 20
  10:06 1500 33
`,
      },
    ],
    sound: [
      {
        text: `${RUN_IN}engine C9-0412 Curlew-9
job J1 engine C9-0412 run-in Curlew-9
run R1 2026-04-11 job J1 by ATH second RPE
  log time crank.speed/rpm oil.temp/C
  10:02 0 17
  10:03 800 20
  10:12 1200 40
`,
      },
    ],
  },
  check(run, ask, report) {
    const schedule = scheduleOf(ask, run)?.block;
    for (const line of schedule?.warms ?? []) {
      for (const log of logsOf(ask, run)) {
        const load = columnsOf(log, line.condition)[0];
        const limit = load === undefined ? undefined : boundIn(line.limit, log.columns[load]?.unit);
        if (load === undefined || limit === undefined || !schedule) continue;
        const table = tableOf(log);
        for (const column of columnsOf(log, line.channel)) {
          const heading = log.columns[column];
          const least = boundIn(line.bounds.low, heading?.unit);
          const found = least === undefined ? undefined : loadedBeforeWarm(table, load, limit, column, least);
          if (
            !found?.ok ||
            found.samples === 0 ||
            !heading ||
            isConceded(ask, run.job, run.ref, heading.feature, heading.path)
          )
            continue;
          const row = rowAt(table, found.first_s);
          report(
            cellSpot(log, table.lines[row], column),
            {
              place: heading.place,
              value: `${table.columns[column][row]} ${heading.unitText}`,
              load: `${log.columns[load]?.place} ${table.columns[load][row]} ${log.columns[load]?.unitText}`,
              limit: `${line.limit.text} ${line.limit.unit.spelling}`,
              bound: line.bounds.text,
              when: whenText(log, found.first_s),
              samples: found.samples,
              cold_s: Math.round(found.cold_s),
              schedule: schedule.name,
            },
            {
              place: heading.place,
              related: [
                {
                  ref: schedule.ref,
                  spot: { at: line.at },
                  says: `${line.channel.text} ${line.bounds.text} before ${line.condition.text} ${line.limit.text} ${line.limit.unit.spelling}`,
                },
              ],
            },
          );
        }
      }
    }
  },
  say: (d: Data) =>
    `${d.load} ${d.when} with ${d.place} at ${d.value}; the schedule ${d.schedule} asks for ${d.bound} before ${d.limit}. ${samplesText(d.samples)} loaded and cold${d.cold_s > 0 ? `, ${formatDuration(d.cold_s)} in all` : ""}: oil that is cold does not reach the last bearing.`,
});
