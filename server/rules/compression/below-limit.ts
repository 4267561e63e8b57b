/** A cylinder that held less than the least pressure of the limits. */
import { settle } from "../../calc/figures.ts";
import { compressionResults, limitForTest } from "../../totals/compressions.ts";
import { isConceded } from "../../totals/later-work.ts";
import { limitName, limitsOfJob } from "../../totals/run-context.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly cylinder: string;
  readonly reading: string;
  readonly by: string;
  readonly limit: string;
  readonly named: string;
  readonly heard: readonly string[];
  readonly contradicted: boolean;
}

export default rule({
  id: "compression/below-limit",
  severity: "error",
  on: ["entry"],
  reads: ["compressions"],
  page: {
    what: "A cylinder of a compression test reads below the least pressure that the job's revision sets for that test.",
    why: "Air that escapes past rings or a valve is power lost and, past a valve, the beginning of a burnt seat.",
    remedy:
      "Listen where the air goes, run the engine and test again, then name a defect and put it right. A later test after a run or after work takes the place of this one; a better reading with nothing between does not. Compressed air turns the engine suddenly: nobody inside the propeller arc, ignition off, propeller and engine held, pressure let in slowly and let out before anybody touches the propeller. The maker's data and local rules come first.",
    faulty: [
      {
        text: `limits Curlew-9 revision C from 2025-11-01
  compression-limit differential supply 80 psi orifice 0.040 in warm min 60 psi spread 15 psi ref "4-9"
engine C9-0412 Curlew-9
job J1 engine C9-0412 limits C
entry E1 2026-04-11 after-run "Compressions" job J1
  compression differential supply 80 psi orifice 0.040 in warm
  1 76
  2 58 heard exhaust
`,
      },
    ],
    sound: [
      {
        text: `limits Curlew-9 revision C from 2025-11-01
  compression-limit differential supply 80 psi orifice 0.040 in warm min 60 psi spread 15 psi ref "4-9"
engine C9-0412 Curlew-9
job J1 engine C9-0412 limits C
entry E1 2026-04-11 after-run "Compressions" job J1
  compression differential supply 80 psi orifice 0.040 in warm
  1 70
  2 60
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
      const test = tests.find((one) => one.at === table.at);
      if (!limit?.least || !test) continue;
      for (const row of table.rows) {
        const result = test.rows.find((one) => one.at === row.at);
        if (!row.measure || !result || result.verdict !== "below" || result.status === "superseded") continue;
        if (isConceded(ask, entry.job, entry.ref, "compression", row.cylinder)) continue;
        const { unit } = row.measure;
        const by =
          limit.least.unit.spelling === unit.spelling
            ? `${settle(limit.least.value - row.measure.value)} ${unit.spelling}`
            : "";
        report(
          { at: row.at, cell: 0 },
          {
            cylinder: row.cylinder,
            reading: result.text,
            by,
            limit: `${limit.least.text} ${limit.least.unit.spelling}`,
            named: limitName(limits, limit.reference),
            heard: row.heard,
            contradicted: result.status === "contradicted",
          },
          {
            place: `compression[${row.cylinder}]`,
            related: [
              {
                ref: limits.ref,
                spot: { at: limit.at },
                says: `the limit: min ${limit.least.text} ${limit.least.unit.spelling}`,
              },
            ],
          },
        );
      }
    }
  },
  say: (d: Data) =>
    `Cylinder ${d.cylinder} held ${d.reading}, ${d.by === "" ? "" : `${d.by} `}below the least of ${d.limit} in ${d.named}${d.heard.length > 0 ? `; heard: ${d.heard.join(", ")}` : ""}. ${d.contradicted ? "A later test reads otherwise with no run and no work between, which puts nothing right: run the engine or do the work, and test again." : "Run it, test again, then find the leak and put it right."}`,
});
