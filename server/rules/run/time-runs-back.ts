/** A row of a log whose time is before the row above it. */
import { whenText } from "../../totals/run-table.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly when: string;
  readonly before: string;
  readonly more: number;
  readonly byClock: boolean;
}

export default rule({
  id: "run/time-runs-back",
  severity: "error",
  on: ["run"],
  reads: ["logs"],
  page: {
    what: "The time of a row lies before the time of the row above it. Such rows are left out of everything that is worked out from the log.",
    why: "A log whose time runs back shows neither how long anything lasted nor how fast anything changed.",
    remedy:
      "Correct the time. A log that crosses midnight has a `date` line above the first row of the new day, or counts elapsed time.",
    faulty: [
      {
        text: `run R1 2026-04-11 job J1 by ATH second RPE
  log time crank.speed/rpm
  10:02 0
  10:04 800
  10:03 800
`,
      },
    ],
    sound: [
      {
        text: `run R1 2026-04-11 job J1 by ATH second RPE
  log time crank.speed/rpm
  23:59 800
  date 2026-04-12
  00:00 800
`,
      },
    ],
  },
  check(run, _ask, report) {
    for (const log of run.logs) {
      let latest = Number.NEGATIVE_INFINITY;
      let first = -1;
      let first_s = 0;
      let before_s = 0;
      let rows = 0;
      for (let row = 0; row < log.time_s.length; row++) {
        const time_s = log.time_s[row];
        if (time_s >= latest) latest = time_s;
        else if (time_s < latest) {
          rows++;
          if (first >= 0) continue;
          first = row;
          first_s = time_s;
          before_s = latest;
        }
      }
      if (first < 0) continue;
      report(
        { at: log.rows[first], role: "label" },
        {
          when: whenText(log, first_s),
          before: whenText(log, before_s),
          more: rows - 1,
          byClock: log.startsAt !== undefined,
        },
      );
    }
  },
  say: (d: Data) =>
    `This row is ${d.when}, the one above it ${d.before}: time runs back${d.more > 0 ? `, and in ${d.more} more row${d.more === 1 ? "" : "s"}` : ""}. Such rows count for nothing. Correct the time${d.byClock ? ", or put a date line above the first row after midnight" : ""}.`,
});
