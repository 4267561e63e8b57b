/** A magneto on which the engine lost more speed than the limit allows. */
import { settle } from "../../calc/figures.ts";
import type { LimitsBlock, MagnetoLimit, MagnetoLine, WorkBlock } from "../../facts/types.ts";
import { compareMeasures, difference, type Measure } from "../../quantity/compare.ts";
import { clearedLater, isConceded } from "../../totals/later-work.ts";
import { limitName, limitsOfJob, magnetoLimitFor, sameSpeed } from "../../totals/run-context.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly side: "left" | "right";
  readonly drop: string;
  /** How far over the limit; "" where no speed was lost at all. */
  readonly by: string;
  readonly limit: string;
  readonly named: string;
  /** Where the check was made at another speed than the limit. */
  readonly speed: string;
}

const SIDES = ["left", "right"] as const;

function isOver(line: MagnetoLine, side: (typeof SIDES)[number], limits: LimitsBlock): boolean {
  const most = magnetoLimitFor(limits, line, "drop")?.drop;
  const drop = line[side];
  return most !== undefined && drop.unit.dimension === most.unit.dimension && compareMeasures(drop, most) > 0;
}

/** Whether a run's checks are all inside; undefined where it has none. */
const inside = (run: WorkBlock, limits: LimitsBlock): boolean | undefined =>
  run.magnetos.length === 0
    ? undefined
    : !run.magnetos.some((line) => SIDES.some((side) => isOver(line, side, limits)));

const text = (value: Measure): string => `${value.text} ${value.unit.spelling}`;

const atSpeed = (line: MagnetoLine, limit: MagnetoLimit): string =>
  line.speed && limit.speed && !sameSpeed(line, limit)
    ? ` (checked at ${text(line.speed)}, limit at ${text(limit.speed)})`
    : "";

export default rule({
  id: "run/magneto-drop",
  severity: "error",
  on: ["run"],
  reads: ["magnetos"],
  page: {
    what: "On one magneto alone the engine lost more speed than the limits allow; or it lost none at all, and then the other magneto may not have been cut off (a warning).",
    why: "A large drop speaks of a weak spark, wrong timing, a fouled plug or a broken lead, which costs power when the other magneto fails.",
    remedy:
      "Find the cause, put it right in an entry, and check again in a later run; then the finding is past. A switch that shows no drop at all may not cut the other magneto: prove it before anybody touches the propeller. Running an engine can hurt or kill: keep clear of the propeller and follow the maker's data and the local rules, which come before anything said here.",
    faulty: [
      {
        text: `limits Curlew-9 revision C from 2025-11-01
  limit cht[1..9] max 230 C ref "7-1"
  magneto-limit drop 100 rpm split 40 rpm at 1700 rpm ref "7-4"
engine C9-0412 Curlew-9
job J1 engine C9-0412 limits C
run R1 2026-04-11 job J1 by ATH second RPE
  magneto left 120 rpm right 90 rpm at 1700 rpm
`,
      },
    ],
    sound: [
      {
        text: `limits Curlew-9 revision C from 2025-11-01
  limit cht[1..9] max 230 C ref "7-1"
  magneto-limit drop 100 rpm split 40 rpm at 1700 rpm ref "7-4"
engine C9-0412 Curlew-9
job J1 engine C9-0412 limits C
run R1 2026-04-11 job J1 by ATH second RPE
  magneto left 100 rpm right 90 rpm at 1700 rpm
`,
      },
    ],
  },
  check(run, ask, report) {
    const limits = limitsOfJob(ask, run.job);
    for (const line of run.magnetos) {
      for (const side of SIDES) {
        const drop = line[side];
        const place = `magneto[${side}]`;
        const blank = { side, drop: text(drop), by: "", limit: "", named: "", speed: "" };
        if (drop.value === 0) {
          report({ at: line.at, role: side }, blank, { place, severity: "warning" });
          continue;
        }
        const limit = magnetoLimitFor(limits, line, "drop");
        if (!limits || !limit?.drop || !isOver(line, side, limits)) continue;
        if (isConceded(ask, run.job, run.ref, "magneto", side)) continue;
        if (clearedLater(ask, run, (later) => inside(later, limits))) continue;
        const over = difference(drop, limit.drop);
        report(
          { at: line.at, role: side },
          {
            ...blank,
            by: `${settle(over.exact.valueOf())} ${over.unit.spelling}`,
            limit: text(limit.drop),
            named: limitName(limits, limit.reference),
            speed: atSpeed(line, limit),
          },
          { place, related: [{ ref: limits.ref, spot: { at: limit.at }, says: "the magneto limit" }] },
        );
      }
    }
  },
  say: (d: Data) =>
    d.by === ""
      ? `No speed was lost on the ${d.side} magneto alone, so the ${d.side === "left" ? "right" : "left"} one may not have been cut off. A magneto that stays live can kill whoever turns the propeller: treat it as live, and prove the switch and the earth lead.`
      : `The drop on the ${d.side} magneto is ${d.drop}, ${d.by} over the ${d.limit} of ${d.named}${d.speed}. A weak spark or wrong timing costs power when the other magneto fails: find the cause, put it right, and check again.`,
});
