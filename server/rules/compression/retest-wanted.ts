/** A reading that is inside the limit, but below a line of the limits that asks for a retest. */
import { compareMeasures } from "../../quantity/compare.ts";
import { compressionResults, limitForTest, linesFor } from "../../totals/compressions.ts";
import { limitName, limitsOfJob } from "../../totals/run-context.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly cylinder: string;
  readonly reading: string;
  readonly mark: string;
  readonly least: string;
  readonly named: string;
}

export default rule({
  id: "compression/retest-wanted",
  severity: "information",
  on: ["entry"],
  reads: ["compressions"],
  page: {
    what: "Where the limits have several `compression-limit` lines for one test, the lowest is the limit and the higher ones are marks. This reading is inside the limit and below a mark.",
    why: "Some makers' data ask that a cylinder in between be run and tested again before anybody decides; a reading there is not wrong, and not the last word either.",
    remedy:
      "Run the engine for the time that the maker's data give and test again; the later test takes the place of this one. Compressed air turns the engine suddenly: nobody inside the propeller arc, ignition off, propeller and engine held, pressure let in slowly and let out before anybody touches the propeller. The maker's data and local rules come first.",
    faulty: [
      {
        text: `limits Curlew-9 revision C from 2025-11-01
  compression-limit differential supply 80 psi warm min 60 psi ref "4-9"
  compression-limit differential supply 80 psi warm min 65 psi ref "4-9, retest"
engine C9-0412 Curlew-9
job J1 engine C9-0412 limits C
entry E1 2026-04-11 after-run "Compressions" job J1
  compression differential supply 80 psi warm
  1 63
`,
      },
    ],
    sound: [
      {
        text: `limits Curlew-9 revision C from 2025-11-01
  compression-limit differential supply 80 psi warm min 60 psi ref "4-9"
  compression-limit differential supply 80 psi warm min 65 psi ref "4-9, retest"
engine C9-0412 Curlew-9
job J1 engine C9-0412 limits C
entry E1 2026-04-11 after-run "Compressions" job J1
  compression differential supply 80 psi warm
  1 65
`,
      },
    ],
  },
  check(entry, ask, report) {
    const limits = limitsOfJob(ask, entry.job);
    if (!limits) return;
    const tests = ask.total(compressionResults, entry.job).tests.filter((test) => test.ref === entry.ref);
    for (const table of entry.compressions) {
      const limit = limitForTest(limits, table);
      const marks = linesFor(limits, table).filter((line) => line !== limit && line.least);
      if (!limit?.least || marks.length === 0) continue;
      const test = tests.find((one) => one.at === table.at);
      for (const row of table.rows) {
        const result = test?.rows.find((one) => one.at === row.at);
        const { measure } = row;
        if (!measure || result?.verdict !== "inside" || result.status === "superseded") continue;
        const mark = marks.find(
          (line) => line.least?.unit.dimension === measure.unit.dimension && compareMeasures(measure, line.least) < 0,
        );
        if (!mark?.least) continue;
        report(
          { at: row.at, cell: 0 },
          {
            cylinder: row.cylinder,
            reading: result.text,
            mark: `${mark.least.text} ${mark.least.unit.spelling}`,
            least: `${limit.least.text} ${limit.least.unit.spelling}`,
            named: limitName(limits, mark.reference),
          },
          {
            place: `compression[${row.cylinder}]`,
            related: [{ ref: limits.ref, spot: { at: mark.at }, says: "the line that asks for a retest" }],
          },
        );
      }
    }
  },
  say: (d: Data) =>
    `Cylinder ${d.cylinder} held ${d.reading}: inside the least of ${d.least}, below the ${d.mark} of ${d.named}. Run the engine and test it again before deciding.`,
});
