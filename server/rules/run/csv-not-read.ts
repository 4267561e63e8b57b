/** A data logger's file that is there and cannot be read as a log. */
import { readFiles } from "../../totals/run-logs.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly path: string;
  /** A sentence. */
  readonly why: string;
}

export default rule({
  id: "run/csv-not-read",
  severity: "error",
  on: ["run"],
  reads: ["logFiles"],
  page: {
    what: "A data logger's file is there and cannot be read as a log: no heading that is mapped, a heading that stands twice, no row with a time, more bytes or rows than are read. Nothing of it is checked.",
    why: "A run whose rows nobody reads looks as if it had passed every limit.",
    remedy:
      "Do what the message says: correct the map lines, or export the file again as comma-separated text with a heading line and one row for each moment.",
    faulty: [
      {
        text: `run R1 2026-04-11 job J1 by ATH second RPE
  log from "runs/R1.csv"
  map "tacho" to crank.speed/rpm
== runs/R1.csv
clock,speed
10:02,0
`,
      },
    ],
    sound: [
      {
        text: `run R1 2026-04-11 job J1 by ATH second RPE
  log from "runs/R1.csv"
  map "tacho" to crank.speed/rpm
== runs/R1.csv
Logger 7, run 12
clock,tacho
10:02,0
`,
      },
    ],
  },
  check(run, ask, report) {
    for (const { file, state } of readFiles(ask, run))
      if (state.standing === "refused") report({ at: file.at, role: "file" }, { path: file.path, why: state.message });
  },
  say: (d: Data) => `${d.path} is not read as a log, so nothing of it is checked. ${d.why}`,
});
