/** A magneto on which the engine lost more speed than the limit allows. */
import type { MagnetoLimit, MagnetoLine, WorkBlock } from "../../facts/types.ts";
import { compareMeasures, difference, type Measure } from "../../quantity/compare.ts";
import { formatExact } from "../../quantity/format.ts";
import { clearedLater, isConceded } from "../../totals/later-work.ts";
import { limitName, limitsOfJob } from "../../totals/run-context.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly side: "left" | "right";
  readonly drop: string;
  readonly by: string;
  readonly limit: string;
  readonly named: string;
  /** Where the check was made at another speed than the limit. */
  readonly speed: string;
}

const SIDES = ["left", "right"] as const;

const isOver = (drop: Measure, limit: Measure): boolean =>
  drop.unit.dimension === limit.unit.dimension && compareMeasures(drop, limit) > 0;

/** Whether a run's checks are all inside; undefined where it has none. */
function inside(run: WorkBlock, limit: MagnetoLimit): boolean | undefined {
  const most = limit.drop;
  return run.magnetos.length === 0 || !most
    ? undefined
    : run.magnetos.every((line) => SIDES.every((side) => !isOver(line[side], most)));
}

const atSpeed = (line: MagnetoLine, limit: MagnetoLimit): string =>
  line.speed &&
  limit.speed &&
  line.speed.unit.dimension === limit.speed.unit.dimension &&
  compareMeasures(line.speed, limit.speed) !== 0
    ? ` (checked at ${line.speed.text} ${line.speed.unit.spelling}, limit at ${limit.speed.text} ${limit.speed.unit.spelling})`
    : "";

export default rule({
  id: "run/magneto-drop",
  severity: "error",
  on: ["run"],
  reads: ["magnetos"],
  page: {
    what: "On one magneto alone the engine lost more speed than the limits allow.",
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
    const limit = limits?.magnetos.find((line) => line.drop);
    if (!limits || !limit?.drop) return;
    for (const line of run.magnetos) {
      for (const side of SIDES) {
        const drop = line[side];
        if (!isOver(drop, limit.drop)) continue;
        if (
          isConceded(ask, run.job, run.ref, "magneto", side) ||
          clearedLater(ask, run, (later) => inside(later, limit))
        )
          continue;
        const by = difference(drop, limit.drop);
        report(
          { at: line.at, role: side },
          {
            side,
            drop: `${drop.text} ${drop.unit.spelling}`,
            by: `${formatExact(by.exact, 0)} ${by.unit.spelling}`,
            limit: `${limit.drop.text} ${limit.drop.unit.spelling}`,
            named: limitName(limits, limit.reference),
            speed: atSpeed(line, limit),
          },
          {
            place: `magneto[${side}]`,
            related: [{ ref: limits.ref, spot: { at: limit.at }, says: "the magneto limit" }],
          },
        );
      }
    }
  },
  say: (d: Data) =>
    `The drop on the ${d.side} magneto is ${d.drop}, ${d.by} over the ${d.limit} of ${d.named}${d.speed}. A weak spark or wrong timing costs power when the other magneto fails: find the cause, put it right, and check again.`,
});
