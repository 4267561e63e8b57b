/** A differential test from another supply pressure than the limits name. */
import { compareMeasures } from "../../quantity/compare.ts";
import { limitForTest } from "../../totals/compressions.ts";
import { limitName, limitsOfJob } from "../../totals/run-context.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly supply: string;
  readonly wanted: string;
  readonly named: string;
}

export default rule({
  id: "compression/wrong-supply",
  severity: "warning",
  on: ["entry"],
  reads: ["compressions"],
  page: {
    what: "A differential test was fed with another pressure than the limits name, or does not say with which.",
    why: "The reading is compared with the supply: 60 from 80 and 60 from 70 are two different leaks.",
    remedy:
      "Regulate to the pressure that the limits name and test again, or write the pressure that was used. Compressed air turns the engine suddenly: nobody inside the propeller arc, ignition off, propeller and engine held, pressure let in slowly and let out before anybody touches the propeller. The maker's data and local rules come first.",
    faulty: [
      {
        text: `limits Curlew-9 revision C from 2025-11-01
  compression-limit differential supply 80 psi orifice 0.040 in warm min 60 psi spread 15 psi ref "4-9"
engine C9-0412 Curlew-9
job J1 engine C9-0412 limits C
entry E1 2026-04-11 after-run "Compressions" job J1
  compression differential supply 75 psi orifice 0.040 in warm
  1 71
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
  1 76
`,
      },
    ],
  },
  check(entry, ask, report) {
    const limits = limitsOfJob(ask, entry.job);
    if (!limits) return;
    for (const table of entry.compressions) {
      const limit = table.method === "differential" ? limitForTest(limits, table) : undefined;
      if (!limit?.supply) continue;
      const { supply } = table;
      if (
        supply ? compareMeasures(supply, limit.supply) === 0 : entry.problems.some((problem) => problem.at === table.at)
      )
        continue;
      report(
        { at: table.at, role: supply ? "supply" : "method" },
        {
          supply: supply ? `${supply.text} ${supply.unit.spelling}` : "",
          wanted: `${limit.supply.text} ${limit.supply.unit.spelling}`,
          named: limitName(limits, limit.reference),
        },
        {
          place: "compression",
          related: [{ ref: limits.ref, spot: { at: limit.at }, says: "the limit names the supply" }],
        },
      );
    }
  },
  say: (d: Data) =>
    d.supply === ""
      ? `The test does not name its supply pressure; ${d.named} is for ${d.wanted}. Write the pressure that was used: the reading means nothing without it.`
      : `The supply was ${d.supply}; ${d.named} is for ${d.wanted}. The reading cannot be judged by that limit: regulate to ${d.wanted} and test again.`,
});
