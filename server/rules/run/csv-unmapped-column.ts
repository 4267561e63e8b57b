/** Columns of a data logger's file that no line maps to a channel. */
import { readFiles } from "../../totals/run-logs.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly path: string;
  readonly headings: readonly string[];
}

const NAMED = 6;

export default rule({
  id: "run/csv-unmapped-column",
  severity: "information",
  on: ["run"],
  reads: ["logFiles"],
  page: {
    what: "Columns of a data logger's file are mapped to no channel, so nothing of them is checked.",
    why: "A temperature that was logged and not mapped has passed no limit, although it looks as if the run had been checked.",
    remedy:
      "Map each column that has a limit or belongs in the record, with its unit; what is left serves nobody here.",
    faulty: [
      {
        text: `run R1 2026-04-11 job J1 by ATH second RPE
  log from "runs/R1.csv"
  map "tacho" to crank.speed/rpm
== runs/R1.csv
clock,tacho,head 1
10:02,0,17
`,
      },
    ],
    sound: [
      {
        text: `run R1 2026-04-11 job J1 by ATH second RPE
  log from "runs/R1.csv"
  map "tacho" to crank.speed/rpm
  map "head 1" to cht[1]/C
== runs/R1.csv
clock,tacho,head 1
10:02,0,17
`,
      },
    ],
  },
  check(run, ask, report) {
    for (const { file, state } of readFiles(ask, run)) {
      if (state.standing !== "read") continue;
      // A column that a broken map line names may be meant: that line has a finding of its own.
      const named = new Set(file.maps.map((map) => map.heading));
      const headings = state.log.unmapped.filter((heading) => heading !== "" && !named.has(heading));
      if (headings.length === 0 || run.unread.includes("map")) continue;
      report({ at: file.at, role: "file" }, { path: file.path, headings });
    }
  },
  say: (d: Data) =>
    `${d.headings.length === 1 ? "One column" : `${d.headings.length} columns`} of ${d.path} ${d.headings.length === 1 ? "is" : "are"} mapped to no channel: ${d.headings
      .slice(0, NAMED)
      .map((heading) => `"${heading}"`)
      .join(
        ", ",
      )}${d.headings.length > NAMED ? ` and ${d.headings.length - NAMED} more` : ""}. Nothing of them is checked: map those that have a limit.`,
  repair: (d: Data, spot) => [
    {
      title: "Lay out a map line for each, for channel and unit to be set",
      grade: "review",
      edits: d.headings.map((heading) => ({
        kind: "insert-after",
        at: spot.at,
        text: `map "${heading.replaceAll('"', '""')}" to`,
      })),
    },
  ],
});
