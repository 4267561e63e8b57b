/** A compression test made hot, warm or cold where the limits ask for another state. */
import { limitForTest } from "../../totals/compressions.ts";
import { limitName, limitsOfJob } from "../../totals/run-context.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly state: string;
  readonly wanted: string;
  readonly named: string;
}

export default rule({
  id: "compression/wrong-state",
  severity: "warning",
  on: ["entry"],
  reads: ["compressions"],
  page: {
    what: "The test was made hot, warm or cold, or does not say, and the limits are for another state.",
    why: "A cold engine leaks at rings that close when it is warm, so a limit holds only for the state that it was set for.",
    remedy:
      "Run the engine to the state that the limits name and test again, or say which state it was. Compressed air turns the engine suddenly: nobody inside the propeller arc, ignition off, propeller and engine held, pressure let in slowly and let out before anybody touches the propeller. The maker's data and local rules come first.",
    faulty: [
      {
        text: `limits Curlew-9 revision C from 2025-11-01
  compression-limit differential supply 80 psi orifice 0.040 in warm min 60 psi spread 15 psi ref "4-9"
engine C9-0412 Curlew-9
job J1 engine C9-0412 limits C
entry E1 2026-04-11 after-run "Compressions" job J1
  compression differential supply 80 psi orifice 0.040 in cold
  1 76
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
      const limit = limitForTest(limits, table);
      if (!limit || limit.state === "" || limit.state === table.state) continue;
      if (table.state === "" && entry.problems.some((problem) => problem.at === table.at)) continue;
      report(
        { at: table.at, role: table.state === "" ? "method" : "state" },
        { state: table.state, wanted: limit.state, named: limitName(limits, limit.reference) },
        {
          place: "compression",
          related: [{ ref: limits.ref, spot: { at: limit.at }, says: `the limit is for a ${limit.state} engine` }],
        },
      );
    }
  },
  say: (d: Data) =>
    d.state === ""
      ? `The test does not say whether the engine was hot, warm or cold; ${d.named} is for a ${d.wanted} engine. Write ${d.wanted} if it was, or test again.`
      : `The test was made ${d.state}; ${d.named} is for a ${d.wanted} engine. Rings and valves close differently, so the limit does not hold: test again ${d.wanted}.`,
});
