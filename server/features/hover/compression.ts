/** A compression: what it leaks, and how the others hold. */
import { leakTest } from "../../calc/compression-leak.ts";
import type { CompressionTable, WorkBlock } from "../../facts/types.ts";
import { convertNumber, type Measure } from "../../quantity/compare.ts";
import { findUnit } from "../../quantity/units.ts";
import type { Summary } from "../../report/summary.ts";
import { inBoth, measureText, type Row, said } from "../../report/wording.ts";
import { compressionResults, limitForTest } from "../../totals/compressions.ts";
import { limitsOfJob } from "../../totals/run-context.ts";
import type { Subject } from "./context.ts";

const psi = findUnit("psi");
const inPsi = (one: Measure): number =>
  psi && one.unit.dimension === psi.dimension ? convertNumber(one.value, one.unit, psi) : Number.NaN;

function leakRows(table: CompressionTable, cylinder: string): Row[] {
  if (!table.supply || table.method !== "differential") return [];
  const readings = table.rows
    .filter((row) => row.measure)
    .map((row) => ({ cylinder: Number(row.cylinder), reading_psi: inPsi(row.measure as Measure) }));
  const test = leakTest(inPsi(table.supply), readings);
  if (!test.ok) return readings.length === 0 ? [] : [["", test.refused]];
  const own = test.cylinders.find((one) => String(one.cylinder) === cylinder);
  return said(
    own && ["leakage", `${Number(own.leak_psi.toFixed(2))} psi, ${own.leak_percent.toFixed(1)} % of the supply`],
    ...test.steps.map((step): Row => ["", step]),
  );
}

/** A row of a table of compressions, or its heading. */
export function compressionSummary(subject: Subject, block: WorkBlock, at: number): Summary | undefined {
  const { ask, scope } = subject;
  const table = block.compressions.find((one) => one.at === at || one.rows.some((row) => row.at === at));
  if (!table) return undefined;
  const row = table.rows.find((one) => one.at === at);
  const { tests, limits } = ask.total(compressionResults, scope);
  const test = tests.find((one) => one.ref === block.ref && one.at === table.at);
  const judged = test?.rows.find((one) => one.at === at);
  const limit = limitForTest(limitsOfJob(ask, block.job), table);
  const least = limit?.least ? `min ${measureText(limit.least)}` : "";
  const spread = limit?.spread ? `spread ${measureText(limit.spread)}` : "";
  return {
    title: row
      ? `Compression of cylinder ${row.cylinder}: ${row.measure ? inBoth(row.measure) : "still to be taken"}`
      : `Compressions, ${table.method}${table.state === "" ? "" : `, ${table.state}`}`,
    sections: [
      {
        heading: "",
        rows: said(
          [
            "limit",
            [least, spread].filter((text) => text !== "").join(", ") +
              (limit ? ` (${limits}${limit.reference === "" ? "" : `, ref ${limit.reference}`})` : "none is known"),
          ],
          judged && ["standing", `${judged.verdict}${judged.status === "current" ? "" : `, ${judged.status}`}`],
          ["heard at", row?.heard.join(", ") ?? ""],
          test &&
            !Number.isNaN(test.spread) && [
              "spread of the test",
              `${Number(test.spread.toFixed(3))} ${test.unit}, cylinder ${test.highest} to ${test.lowest}${test.spreadVerdict === "over" ? ", over the limit" : ""}`,
            ],
          ["with", table.instrument],
        ),
      },
      { heading: "Leakage", rows: leakRows(table, row?.cylinder ?? "") },
      {
        heading: "Other tests of this cylinder",
        rows: row
          ? tests.flatMap((one) =>
              one.rows
                .filter((other) => other.cylinder === row.cylinder && (one.ref !== block.ref || other.at !== at))
                .map((other): Row => [one.ref, `${other.text} ${one.state}`]),
            )
          : [],
      },
    ],
  };
}
