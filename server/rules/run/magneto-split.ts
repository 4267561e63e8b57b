/** Two magnetos whose drops differ by more than the limit allows. */
import { settle } from "../../calc/figures.ts";
import type { MagnetoLimit, MagnetoLine, WorkBlock } from "../../facts/types.ts";
import { compareExact, compareMeasures, difference, type ExactValue } from "../../quantity/compare.ts";
import { clearedLater, isConceded } from "../../totals/later-work.ts";
import { limitName, limitsOfJob, magnetoLimitFor } from "../../totals/run-context.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly left: string;
  readonly right: string;
  readonly split: string;
  readonly limit: string;
  readonly named: string;
}

/** Difference of the two drops, never negative; undefined where their units do not go together. */
function splitOf(line: MagnetoLine): ExactValue | undefined {
  if (line.left.unit.dimension !== line.right.unit.dimension) return undefined;
  return compareMeasures(line.left, line.right) >= 0
    ? difference(line.left, line.right)
    : difference(line.right, line.left);
}

function isOver(line: MagnetoLine, limit: MagnetoLimit): boolean {
  const split = splitOf(line);
  return (
    split !== undefined &&
    limit.split !== undefined &&
    limit.split.unit.dimension === split.unit.dimension &&
    compareExact(split.exact, split.unit, limit.split) > 0
  );
}

/** Whether a run's checks are all inside; undefined where it has none. */
const inside = (run: WorkBlock, limit: MagnetoLimit): boolean | undefined =>
  run.magnetos.length === 0 ? undefined : !run.magnetos.some((line) => isOver(line, limit));

export default rule({
  id: "run/magneto-split",
  severity: "error",
  on: ["run"],
  reads: ["magnetos"],
  page: {
    what: "The drops of speed on the left and on the right magneto differ by more than the limits allow.",
    why: "Two magnetos that differ are not timed alike, or one side has a fault; the difference shows it before the drop itself is out.",
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
  magneto left 55 rpm right 98 rpm at 1700 rpm
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
  magneto left 55 rpm right 95 rpm at 1700 rpm
`,
      },
    ],
  },
  check(run, ask, report) {
    const limits = limitsOfJob(ask, run.job);
    if (!limits) return;
    for (const line of run.magnetos) {
      const limit = magnetoLimitFor(limits, line, "split");
      if (!limit?.split) continue;
      const split = splitOf(line);
      if (!split || !isOver(line, limit)) continue;
      if (isConceded(ask, run.job, run.ref, "magneto", "") || clearedLater(ask, run, (later) => inside(later, limit)))
        continue;
      report(
        { at: line.at, role: "right" },
        {
          left: `${line.left.text} ${line.left.unit.spelling}`,
          right: `${line.right.text} ${line.right.unit.spelling}`,
          split: `${settle(split.exact.valueOf())} ${split.unit.spelling}`,
          limit: `${limit.split.text} ${limit.split.unit.spelling}`,
          named: limitName(limits, limit.reference),
        },
        { place: "magneto", related: [{ ref: limits.ref, spot: { at: limit.at }, says: "the magneto limit" }] },
      );
    }
  },
  say: (d: Data) =>
    `The drops are ${d.left} left and ${d.right} right: a split of ${d.split}, over the ${d.limit} of ${d.named}. The magnetos are not timed alike, or one side has a fault: find the cause, put it right, and check again.`,
});
