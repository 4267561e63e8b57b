/** Rows of a data logger's file that cannot be put in time. */
import { readFiles } from "../../totals/run-logs.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly path: string;
  readonly timeHeader: string;
  readonly leftOut: number;
  readonly rows: number;
  readonly named: readonly string[];
}

const NAMED = 4;

export default rule({
  id: "run/csv-rows-left-out",
  severity: "warning",
  on: ["run"],
  reads: ["logFiles"],
  page: {
    what: "Rows of a data logger's file have no time that can be read, or their time runs back. They count for nothing.",
    why: "A row without a time belongs to no step and no start; a clock that was set back makes two stories of one run.",
    remedy:
      'Look at the rows named. If another column is the time, say so (`map "clock" to time`, `map "t, s" to elapsed/s`); a row of units below the heading is harmless and can be accepted.',
    faulty: [
      {
        text: `run R1 2026-04-11 job J1 by ATH second RPE
  log from "runs/R1.csv"
  map "tacho" to crank.speed/rpm
== runs/R1.csv
clock,tacho
10:02,0
10:04,800
10:03,800
`,
      },
    ],
    sound: [
      {
        text: `run R1 2026-04-11 job J1 by ATH second RPE
  log from "runs/R1.csv"
  map "tacho" to crank.speed/rpm
== runs/R1.csv
clock,tacho
23:59,800
00:00,800
`,
      },
    ],
  },
  check(run, ask, report) {
    for (const { file, state } of readFiles(ask, run)) {
      if (state.standing !== "read" || state.log.leftOutCount === 0) continue;
      const { log } = state;
      report(
        { at: file.at, role: "file" },
        {
          path: file.path,
          timeHeader: log.timeHeader,
          leftOut: log.leftOutCount,
          rows: log.rows,
          named: log.leftOut.slice(0, NAMED).map(({ line, text, why }) => `line ${line} "${text}" (${why})`),
        },
      );
    }
  },
  say: (d: Data) =>
    `${d.leftOut} of ${d.rows} rows of ${d.path} are left out, their time being read from "${d.timeHeader}": ${d.named.join(", ")}${d.leftOut > d.named.length ? ` and ${d.leftOut - d.named.length} more` : ""}. What the engine did there is not checked: look at the rows, or map the column that holds the time.`,
});
