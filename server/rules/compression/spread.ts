/** Cylinders of one test that differ by more than the limits allow. */
import { show } from "../../calc/figures.ts";
import { compressionResults, limitForTest } from "../../totals/compressions.ts";
import { isConceded } from "../../totals/later-work.ts";
import { limitName, limitsOfJob } from "../../totals/run-context.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly lowest: string;
  readonly highest: string;
  readonly spread: string;
  readonly limit: string;
  readonly named: string;
}

export default rule({
  id: "compression/spread",
  severity: "error",
  on: ["entry"],
  reads: ["compressions"],
  page: {
    what: "The highest and the lowest cylinder of a compression test differ by more than the job's revision allows.",
    why: "One cylinder far behind the others has a leak of its own, although it may still be above the least pressure.",
    remedy:
      "Run the engine, test the low cylinder again, then find its leak. A later test of all cylinders after a run or after work takes the place of this one. Compressed air turns the engine suddenly: nobody inside the propeller arc, ignition off, propeller and engine held, pressure let in slowly and let out before anybody touches the propeller. The maker's data and local rules come first.",
    faulty: [
      {
        text: `limits Curlew-9 revision C from 2025-11-01
  compression-limit differential supply 80 psi orifice 0.040 in warm min 60 psi spread 15 psi ref "4-9"
engine C9-0412 Curlew-9
job J1 engine C9-0412 limits C
entry E1 2026-04-11 after-run "Compressions" job J1
  compression differential supply 80 psi orifice 0.040 in warm
  1 78
  2 62
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
  1 78
  2 63
`,
      },
    ],
  },
  check(entry, ask, report) {
    const limits = limitsOfJob(ask, entry.job);
    if (!limits) return;
    for (const test of ask.total(compressionResults, entry.job).tests) {
      if (test.ref !== entry.ref || test.spreadVerdict !== "over" || test.status === "superseded") continue;
      const limit = limitForTest(limits, test);
      if (!limit?.spread || isConceded(ask, entry.job, entry.ref, "compression", "")) continue;
      report(
        { at: test.at, role: "method" },
        {
          lowest: test.lowest,
          highest: test.highest,
          spread: `${show(test.spread, 6)} ${test.unit}`,
          limit: `${limit.spread.text} ${limit.spread.unit.spelling}`,
          named: limitName(limits, limit.reference),
        },
        {
          place: "compression",
          related: [
            {
              ref: limits.ref,
              spot: { at: limit.at },
              says: `the limit: spread ${limit.spread.text} ${limit.spread.unit.spelling}`,
            },
          ],
        },
      );
    }
  },
  say: (d: Data) =>
    `Cylinders ${d.highest} (highest) and ${d.lowest} (lowest) differ by ${d.spread}, more than the ${d.limit} of ${d.named}. Cylinder ${d.lowest} has a leak of its own: run the engine, test it again, then find where the air goes.`,
});
