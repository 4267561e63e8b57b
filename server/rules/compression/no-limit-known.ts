/** A compression test for which the limits have no line. */
import { linesFor } from "../../totals/compressions.ts";
import { limitsOfJob } from "../../totals/run-context.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly method: string;
  readonly limits: string;
}

export default rule({
  id: "compression/no-limit-known",
  severity: "information",
  on: ["entry"],
  reads: ["compressions"],
  page: {
    what: "The job's revision has no `compression-limit` line for this method of test, so the readings are kept and not judged.",
    why: "There is no universal figure for compressions: makers differ in method, orifice and limit, and nothing is judged by a guess.",
    remedy:
      "Add a `compression-limit` line from the maker's current data to the limits. Compressed air turns the engine suddenly: nobody inside the propeller arc, ignition off, propeller and engine held, pressure let in slowly and let out before anybody touches the propeller. The maker's data and local rules come first.",
    faulty: [
      {
        text: `limits Curlew-9 revision C from 2025-11-01
  compression-limit differential supply 80 psi orifice 0.040 in warm min 60 psi spread 15 psi ref "4-9"
engine C9-0412 Curlew-9
job J1 engine C9-0412 limits C
entry E1 2026-04-11 after-run "Compressions" job J1
  compression direct warm unit bar
  1 9.8
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
    if (!limits || limits.unread.includes("compression-limit")) return;
    for (const table of entry.compressions) {
      if (table.rows.length === 0 || linesFor(limits, table).length > 0) continue;
      report(
        { at: table.at, role: "method" },
        { method: table.method, limits: `${limits.type} revision ${limits.revision}` },
        { place: "compression", related: [{ ref: limits.ref, spot: { at: 0 }, says: "the limits of this job" }] },
      );
    }
  },
  say: (d: Data) =>
    `${d.limits} has no compression-limit for a ${d.method} test, so these readings are not judged. Add the line from the maker's data.`,
});
