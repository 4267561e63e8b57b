import { scopeOf } from "../../facts/refs.ts";
import { featureCoverage } from "../../totals/coverage.ts";
import { historyKey } from "../../totals/place-history.ts";
import { BORES } from "../example-shops.ts";
import { few, WORK } from "../limit-wording.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly feature: string;
  readonly labels: readonly string[];
  readonly present: number;
  readonly cells: number;
}

/** The first label of a path: the row of a grid. */
function rowOf(path: string): string {
  const slash = path.indexOf("/");
  return slash < 0 ? path : path.slice(0, slash);
}

export default rule<(typeof WORK)[number], Found>({
  id: "limit/place-missing",
  severity: "warning",
  on: WORK,
  reads: ["readings", "problems"],
  page: {
    what: "A table has rows for most places of a feature but not for all, and the others are measured nowhere in the job.",
    why: "A row that was left out looks like a sheet that is complete. With ? it would be seen as work to do, with - as a place where nothing applies.",
    remedy: "Add the row, with ? or - where there is no figure.",
    faulty: [
      {
        text: `${BORES}entry E1 2026-02-19 inspect job J26-014\n  grid cylinder.bore/mm with BG-2\n  1 98.012\n  2 98.010\n  3 98.015\n  4 98.011\n  6 98.012\n  7 98.012\n  8 98.012\n  9 98.012\n`,
      },
    ],
    sound: [
      {
        text: `${BORES}entry E1 2026-02-19 inspect job J26-014\n  grid cylinder.bore/mm with BG-2\n  1 98.012\n  2 98.010\n  3 98.015\n  4 98.011\n  5 -\n  6 98.012\n  7 98.012\n  8 98.012\n  9 ?\n`,
      },
    ],
  },
  check(block, ask, report) {
    const features = new Map<string, { rows: Set<string>; last: number; cells: number }>();
    let lastFeature = "";
    let seen: { rows: Set<string>; last: number; cells: number } | undefined;
    for (const { feature, path, at, cell } of block.readings) {
      if (cell < 0) continue;
      if (seen === undefined || feature !== lastFeature) {
        seen = features.get(feature);
        if (!seen) {
          seen = { rows: new Set<string>(), last: at, cells: 1 };
          features.set(feature, seen);
        }
        lastFeature = feature;
      }
      seen.rows.add(rowOf(path));
      seen.last = at;
      if (cell >= seen.cells) seen.cells = cell + 1;
    }
    for (const [feature, { rows, last, cells }] of features) {
      // A row that could not be read may be the one that is missing.
      if (block.problems.some((problem) => Math.abs(problem.at - last) <= rows.size)) continue;
      for (const line of ask.total(featureCoverage, historyKey(scopeOf(block), feature))) {
        if (line.missing.length === 0) continue;
        const labels = [...new Set(line.missing.map(rowOf))].filter((label) => label !== "" && !rows.has(label));
        if (labels.length === 0 || rows.size < 2 || rows.size < labels.length) continue;
        report({ at: last }, { feature, labels, present: rows.size, cells }, { place: feature });
        break;
      }
    }
  },
  say: ({ feature, labels, present }) =>
    `The table of ${feature} has ${present} rows, but ${labels.length === 1 ? `row ${labels[0]} is` : `rows ${few(labels)} are`} missing and measured nowhere else. Add ${labels.length === 1 ? "it" : "them"}, with ? where a reading is to be taken and - where none applies.`,
  repair: ({ labels, cells }, spot) => [
    {
      title: labels.length === 1 ? `Add row ${labels[0]}, to be measured` : `Add ${labels.length} rows, to be measured`,
      grade: "review",
      edits: labels.map((label) => ({
        kind: "insert-after" as const,
        at: spot.at,
        text: `${label} ${Array.from({ length: cells }, () => "?").join(" ")}`,
      })),
    },
  ],
});
