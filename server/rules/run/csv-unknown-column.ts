/** A map line that names a column which the data logger's file does not have. */
import { nearest } from "../../../grammar/nearest.ts";
import { readFiles } from "../../totals/run-logs.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly path: string;
  readonly heading: string;
  readonly nearest: string;
  readonly headings: readonly string[];
}

const NAMED = 6;

export default rule({
  id: "run/csv-unknown-column",
  severity: "error",
  on: ["run"],
  reads: ["logFiles"],
  page: {
    what: "A map line names a heading that the data logger's file does not have.",
    why: "The channel is then without a single figure, and no limit of it is checked.",
    remedy: "Write the heading as it stands in the file, blanks and commas too.",
    faulty: [
      {
        text: `run R1 2026-04-11 job J1 by ATH second RPE
  log from "runs/R1.csv"
  map "tacho" to crank.speed/rpm
  map "head 1" to cht[1]/C
== runs/R1.csv
clock,tacho,head no 1
10:02,0,17
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
`,
      },
    ],
  },
  check(run, ask, report) {
    for (const { file, state } of readFiles(ask, run)) {
      if (state.standing !== "read") continue;
      for (const map of file.maps) {
        if (map.kind !== "channel" || !state.log.absent.includes(map.heading)) continue;
        report(
          { at: map.at, role: "heading" },
          {
            path: file.path,
            heading: map.heading,
            nearest: nearest(map.heading, state.log.unmapped, 4)[0] ?? "",
            headings: state.log.headers,
          },
          { place: map.column?.place ?? "" },
        );
      }
    }
  },
  say: (d: Data) =>
    `${d.path} has no column "${d.heading}"${
      d.nearest === ""
        ? `; it has ${d.headings
            .slice(0, NAMED)
            .map((one) => `"${one}"`)
            .join(", ")}${d.headings.length > NAMED ? ", ..." : ""}`
        : `; "${d.nearest}" is spelled nearly so`
    }. The channel has no figures and is not checked: write the heading as it stands in the file.`,
  repair: (d: Data, spot) =>
    d.nearest === ""
      ? []
      : [
          {
            title: `Map "${d.nearest}"`,
            grade: "review",
            edits: [{ kind: "replace", spot, text: `"${d.nearest.replaceAll('"', '""')}"` }],
          },
        ],
});
