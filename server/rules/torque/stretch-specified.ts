/** A torque was recorded where the limits ask for the stretch of the bolt. */
import { preloadScatter } from "../../calc/bolt-stretch.ts";
import { isWithin, pathsOf } from "../../facts/place.ts";
import { scopeOf } from "../../facts/refs.ts";
import { jobContext } from "../../totals/job-context.ts";
import { currentReadings, historyKey, placeHistory } from "../../totals/place-history.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly place: string;
  readonly feature: string;
  /** Places whose stretch is not measured. */
  readonly missing: readonly string[];
  readonly source: string;
}

const SHOP = `limits Curlew-9 revision C from 2025-11-01
  stretch rod.bolt[1..2] by rod.bolt-stretch ref "6-2"
  limit rod.bolt-stretch[1..2] 0.130..0.150 mm ref "6-2"
engine C9-0412 Curlew-9
job J26-014 engine C9-0412 limits C
entry E1 2026-02-27 build job J26-014
  torque rod.bolt[1..2] 40 N.m
`;

const NAMED = 6;

export default rule<"entry", Data>({
  id: "torque/stretch-specified",
  severity: "warning",
  on: ["entry"],
  reads: ["torques"],
  page: {
    what: "A torque is recorded for a fastener that the limits tighten by its stretch, and no stretch is measured at that place in the job.",
    why: `A torque is spent mostly on friction: ${preloadScatter.torque.says}, ${preloadScatter.stretch.says}. Where the maker asks for stretch, the difference decides whether a rod bolt holds.`,
    remedy:
      "Measure the free length and the length when tightened, and record the stretch; the torque may stay as what it took.",
    faulty: [{ text: SHOP }],
    sound: [
      {
        text: `${SHOP}  measure rod.bolt-stretch[1] 0.138 mm
  measure rod.bolt-stretch[2] 0.141 mm
`,
      },
    ],
  },
  check(block, ask, report) {
    const scope = scopeOf(block);
    const { type, revision } = ask.total(jobContext, scope);
    const limits = ask.limits(type, revision);
    if (!limits || limits.stretches.length === 0) return;
    for (const torque of block.torques) {
      const { feature } = torque.place;
      for (const line of limits.stretches) {
        if (line.place.feature !== feature) continue;
        const wanted = pathsOf(line.place);
        const paths = pathsOf(torque.place).filter((path) =>
          wanted.some((outer) => isWithin(feature, path, feature, outer)),
        );
        if (paths.length === 0) continue;
        const measured = new Set(
          [...currentReadings(ask.total(placeHistory, historyKey(scope, line.feature))).values()].flatMap((one) =>
            one.result === "value" && one.pathNow !== undefined ? [one.pathNow] : [],
          ),
        );
        const missing = paths.filter((path) => !measured.has(path));
        if (missing.length === 0) continue;
        report(
          { at: torque.at, role: "place" },
          {
            place: torque.place.text,
            feature: line.feature,
            missing,
            source: `${type} revision ${revision}${line.reference === "" ? "" : `, ref ${line.reference}`}`,
          },
          {
            place: torque.place.text,
            related: [{ ref: limits.ref, spot: { at: line.at }, says: `tightened by ${line.feature}` }],
          },
        );
      }
    }
  },
  say: (d) =>
    `${d.place} is tightened by stretch (${d.source}), and ${d.feature} is not measured at ${d.missing
      .slice(0, NAMED)
      .map((path) => (path === "" ? d.place : path))
      .join(
        ", ",
      )}${d.missing.length > NAMED ? ` and ${d.missing.length - NAMED} more` : ""}: ${preloadScatter.torque.says}, by stretch to about 1 to 5 %. Measure the stretch and record it.`,
});
