/** Cylinders that a compression test leaves out. */
import { cylinderNumbers } from "../../totals/engine-shape.ts";
import { typeOfJob } from "../../totals/run-context.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly cylinders: readonly string[];
  readonly of: number;
  readonly todo: boolean;
}

export default rule({
  id: "compression/place-missing",
  severity: "warning",
  on: ["entry"],
  reads: ["compressions"],
  page: {
    what: "A compression test has no row for some cylinders of the engine, or a row that still says `?`. A retest of less than half of the cylinders, each of which was tested before in the job, need not list the others.",
    why: "The cylinder that was left out may be the one that leaks, and the spread is not known without it.",
    remedy:
      "Test the cylinders that are missing; a `?` is kept as work to do. Compressed air turns the engine suddenly: nobody inside the propeller arc, ignition off, propeller and engine held, pressure let in slowly and let out before anybody touches the propeller. The maker's data and local rules come first.",
    faulty: [
      {
        text: `engine-type Flat-4
  layout opposed 4
engine F-1 Flat-4
job J1 engine F-1
entry E1 2026-04-11 after-run "Compressions" job J1
  compression differential supply 80 psi warm
  1 76
  2 75
  4 77
`,
      },
    ],
    sound: [
      {
        text: `engine-type Flat-4
  layout opposed 4
engine F-1 Flat-4
job J1 engine F-1
entry E1 2026-04-11 after-run "Compressions" job J1
  compression differential supply 80 psi warm
  1 76
  2 75
  3 -
  4 77
`,
      },
    ],
  },
  check(entry, ask, report) {
    const all = cylinderNumbers(typeOfJob(ask, entry.job)).map(String);
    if (all.length === 0) return;
    const before = new Set<string>();
    for (const { block, fact } of ask.facts(entry.job, "compressions")) {
      if (block.ref === entry.ref) break;
      for (const row of fact.rows) before.add(row.cylinder);
    }
    for (const [index, table] of entry.compressions.entries()) {
      for (const row of table.rows) {
        if (row.result !== "todo") continue;
        report(
          { at: row.at, cell: 0 },
          { cylinders: [row.cylinder], of: all.length, todo: true },
          { place: `compression[${row.cylinder}]`, severity: "hint" },
        );
      }
      // Two tables of one entry may share the cylinders between them.
      const shown = new Set(
        entry.compressions
          .filter((one) => one.method === table.method)
          .flatMap((one) => one.rows.map((row) => row.cylinder)),
      );
      const missing = all.filter((cylinder) => !shown.has(cylinder));
      const isRetest = table.rows.length * 2 < all.length && table.rows.every((row) => before.has(row.cylinder));
      const isFirst = entry.compressions.findIndex((one) => one.method === table.method) === index;
      if (!isFirst || table.rows.length === 0 || isRetest || missing.length === 0) continue;
      report(
        { at: table.at, role: "method" },
        { cylinders: missing, of: all.length, todo: false },
        { place: `compression[${missing.join(",")}]` },
      );
    }
  },
  say: (d: Data) =>
    d.todo
      ? `Cylinder ${d.cylinders[0]} is still to be tested.`
      : `The test has no row for ${d.cylinders.length === 1 ? "cylinder" : "cylinders"} ${d.cylinders.join(", ")} of ${d.of}. One that was left out may be the one that leaks: test it and add its row.`,
  repair: (d: Data, spot) =>
    d.todo || "cell" in spot
      ? []
      : [
          {
            title: `Lay out ${d.cylinders.length === 1 ? "the row" : "rows"} still to be taken`,
            grade: "review",
            edits: d.cylinders
              .toReversed()
              .map((cylinder) => ({ kind: "insert-after" as const, at: spot.at, text: `${cylinder} ?` })),
          },
        ],
});
