/** Minutes that are missing from a log while the engine ran. */
import { formatDuration } from "../../quantity/civil-date.ts";
import { logsOf } from "../../totals/run-logs.ts";
import { RUNNING_rpm, speedColumn, tableOf, whenText } from "../../totals/run-table.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly gap_s: number;
  readonly usual_s: number;
  readonly from: string;
  readonly more: number;
  /** The rows stand in a logger's file. */
  readonly inFile: boolean;
}

/** A gap is more than three times the usual spacing, and more than this. */
const LEAST_s = 120;

/** The usual spacing: the mean of the steps that are not themselves far above the mean. */
function usualSpacing_s(time_s: Float64Array): number {
  const rows = time_s.length;
  const mean = (time_s[rows - 1] - time_s[0]) / (rows - 1);
  let sum = 0;
  let count = 0;
  for (let row = 1; row < rows; row++) {
    const step = time_s[row] - time_s[row - 1];
    if (step > 2 * mean) continue;
    sum += step;
    count++;
  }
  return count === 0 ? mean : sum / count;
}

export default rule({
  id: "run/gap",
  severity: "warning",
  on: ["run"],
  reads: ["logs", "logFiles"],
  page: {
    what: "Between two rows of a log lies more than three times the usual spacing, and more than two minutes, while the engine was running.",
    why: "Nobody can say what the engine did in the minutes that are missing; steps and limits cannot be shown over them.",
    remedy:
      "Add the rows from the operator's sheet or the logger's file, or say in a note what happened, and have the finding accepted.",
    faulty: [
      {
        text: `run R1 2026-04-11 job J1 by ATH second RPE
  log time crank.speed/rpm
  10:02 800
  10:03 800
  10:04 800
  10:09 800
  10:10 800
`,
      },
    ],
    sound: [
      {
        text: `run R1 2026-04-11 job J1 by ATH second RPE
  log time crank.speed/rpm
  10:02 800
  10:03 0
  10:34 0
  10:35 800
  10:36 800
  10:37 800
  10:38 800
`,
      },
    ],
  },
  check(run, ask, report) {
    for (const log of logsOf(ask, run)) {
      const table = tableOf(log);
      const { time_s } = table;
      if (time_s.length < 4) continue;
      const usual_s = usualSpacing_s(time_s);
      const least_s = Math.max(LEAST_s, 3 * usual_s);
      const column = speedColumn(log);
      const speed = column < 0 ? undefined : table.columns[column];
      let longest = -1;
      let longest_s = 0;
      let gaps = 0;
      for (let row = 1; row < time_s.length; row++) {
        const step = time_s[row] - time_s[row - 1];
        if (!(step > least_s)) continue;
        // An engine that stood before and after was not running in between, as far as anybody can tell.
        if (speed && speed[row] < RUNNING_rpm && speed[row - 1] < RUNNING_rpm) continue;
        gaps++;
        if (step <= longest_s) continue;
        longest = row;
        longest_s = step;
      }
      if (longest < 0) continue;
      report(
        { at: table.lines[longest], role: "label" },
        {
          gap_s: Math.round(longest_s),
          usual_s: Math.round(usual_s),
          from: whenText(log, time_s[longest - 1]),
          more: gaps - 1,
          inFile: log.columns[0]?.mappedAt !== undefined,
        },
      );
    }
  },
  say: (d: Data) =>
    `${formatDuration(d.gap_s)} are missing ${d.inFile ? "in the file" : "above this row"}, from the row ${d.from}; the log is usually written every ${formatDuration(d.usual_s)}${d.more > 0 ? ` (and ${d.more} shorter gap${d.more === 1 ? "" : "s"})` : ""}. What the engine did meanwhile is not shown: add the rows, or note why they are missing.`,
});
