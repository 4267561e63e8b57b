/** A differential test with another orifice than the limits, or the bore, ask for. */
import { circularOrificeRule, orificeCheck } from "../../calc/compression-leak.ts";
import { compareMeasures, convertNumber } from "../../quantity/compare.ts";
import { findUnit } from "../../quantity/units.ts";
import { limitForTest } from "../../totals/compressions.ts";
import { limitName, limitsOfJob, typeOfJob } from "../../totals/run-context.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly orifice: string;
  readonly wanted: string;
  readonly by: string;
}

const inch = findUnit("in");

export default rule({
  id: "compression/wrong-orifice",
  severity: "warning",
  on: ["entry"],
  reads: ["compressions"],
  page: {
    what: "A differential test was made with another orifice than the limits name, does not name its orifice although they do, or, where they say nothing, with another one than the bore asks for.",
    why: "The reading is the leak of the cylinder measured against the leak of the orifice: another orifice gives another figure for the same cylinder.",
    remedy:
      "Test again with the right tester, or write the orifice that was used. The rule by bore is that of AC 43.13-1B (below 5.00 in 0.040 in, from 5.00 in 0.060 in); some makers use one orifice for every bore, and then the limits should say so. Compressed air turns the engine suddenly: nobody inside the propeller arc, ignition off, propeller and engine held, pressure let in slowly and let out before anybody touches the propeller. The maker's data and local rules come first.",
    faulty: [
      {
        text: `limits Curlew-9 revision C from 2025-11-01
  compression-limit differential supply 80 psi orifice 0.040 in warm min 60 psi spread 15 psi ref "4-9"
engine C9-0412 Curlew-9
job J1 engine C9-0412 limits C
entry E1 2026-04-11 after-run "Compressions" job J1
  compression differential supply 80 psi orifice 0.060 in warm
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
  compression differential supply 80 psi orifice 1.016 mm warm
  1 76
`,
      },
    ],
  },
  check(entry, ask, report) {
    const limits = limitsOfJob(ask, entry.job);
    const bore = typeOfJob(ask, entry.job)?.bore;
    for (const table of entry.compressions) {
      if (table.method !== "differential") continue;
      const limit = limitForTest(limits, table);
      const { orifice } = table;
      const written = orifice ? `${orifice.text} ${orifice.unit.spelling}` : "";
      const spot = { at: table.at, role: orifice ? "orifice" : "method" };
      if (limits && limit?.orifice) {
        if (
          orifice
            ? compareMeasures(orifice, limit.orifice) === 0
            : entry.problems.some((problem) => problem.at === table.at)
        )
          continue;
        report(
          spot,
          {
            orifice: written,
            wanted: `${limit.orifice.text} ${limit.orifice.unit.spelling}`,
            by: limitName(limits, limit.reference),
          },
          {
            place: "compression",
            related: [{ ref: limits.ref, spot: { at: limit.at }, says: "the limit names the orifice" }],
          },
        );
        continue;
      }
      if (!orifice || !bore || !inch || bore.unit.dimension !== "length") continue;
      const judged = orificeCheck(
        convertNumber(orifice.value, orifice.unit, inch),
        convertNumber(bore.value, bore.unit, inch),
        circularOrificeRule,
      );
      if (!judged.ok || judged.right) continue;
      report(
        spot,
        {
          orifice: written,
          wanted: `${judged.wanted_in.toFixed(3)} in`,
          by: `${circularOrificeRule.source} for a bore of ${bore.text} ${bore.unit.spelling}`,
        },
        { place: "compression" },
      );
    }
  },
  say: (d: Data) =>
    d.orifice === ""
      ? `The test does not name its orifice; ${d.by} asks for ${d.wanted}. The reading means nothing without it: write the orifice that was used.`
      : `The orifice was ${d.orifice}; ${d.by} asks for ${d.wanted}. Another orifice gives another reading for the same leak: test again with the right one.`,
});
