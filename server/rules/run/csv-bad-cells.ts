/** Cells of a data logger's file that hold no number. */
import { channelMaps, readFiles } from "../../totals/run-logs.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly path: string;
  readonly heading: string;
  readonly bad: number;
  readonly rows: number;
  /** `line 14 "OVR"`. */
  readonly named: readonly string[];
}

const NAMED = 4;

export default rule({
  id: "run/csv-bad-cells",
  severity: "warning",
  on: ["run"],
  reads: ["logFiles"],
  page: {
    what: "Cells of a mapped column of a data logger's file hold no number, or the row ends before them. They count as not taken; an empty cell is no bad cell.",
    why: "A sensor that fails writes words instead of figures, often in the very minutes that matter; a figure with a comma for its point would be read as another one.",
    remedy:
      "Look at the rows named. Export the file again with a point in its decimals, or note why the sensor gave nothing; the file that is pinned by its digest is never edited.",
    faulty: [
      {
        text: `run R1 2026-04-11 job J1 by ATH second RPE
  log from "runs/R1.csv"
  map "tacho" to crank.speed/rpm
== runs/R1.csv
clock,tacho
10:02,0
10:03,OVR
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
10:02,0
10:03,
10:04,800
`,
      },
    ],
  },
  check(run, ask, report) {
    for (const { file, state } of readFiles(ask, run)) {
      if (state.standing !== "read") continue;
      const { log } = state;
      for (const [i, map] of channelMaps(file).entries()) {
        const bad = log.bad[i];
        if (!(bad > 0)) continue;
        const named = log.badCells.filter((cell) => cell.header === map.heading).slice(0, NAMED);
        report(
          { at: map.at, role: "heading" },
          {
            path: file.path,
            heading: map.heading,
            bad,
            rows: log.rows,
            named: named.map(
              ({ line, text, what }) => `line ${line} ${what === "no cell" ? "ends before it" : `"${text}"`}`,
            ),
          },
          { place: map.column?.place ?? "" },
        );
      }
    }
  },
  say: (d: Data) =>
    `${d.bad} of ${d.rows} cells of "${d.heading}" in ${d.path} hold no number: ${d.named.join(", ")}${d.bad > d.named.length ? `${d.named.length > 0 ? " and " : ""}${d.bad - d.named.length} more` : ""}. They count as not taken, so nothing was checked there: look at the sensor, or export the file again.`,
});
