/** A channel of a log outside the limit that the job's revision sets for it. */
import { settle } from "../../calc/figures.ts";
import { type ExcursionBound, excursions } from "../../calc/run-peaks.ts";
import type { Ask } from "../../checking/ask.ts";
import type { LimitLine, RunLog, WorkBlock } from "../../facts/types.ts";
import { formatDuration } from "../../quantity/civil-date.ts";
import { clearedLater, isConceded } from "../../totals/later-work.ts";
import { limitName, limitsOfJob } from "../../totals/run-context.ts";
import { logsOf } from "../../totals/run-logs.ts";
import { boundsIn, cellSpot, columnsOf, rowAt, samplesText, tableOf, whenText } from "../../totals/run-table.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly place: string;
  readonly worst: string;
  readonly over: string;
  readonly side: "over" | "under";
  readonly limit: string;
  readonly named: string;
  readonly condition: string;
  readonly samples: number;
  readonly outside_s: number;
  readonly when: string;
  readonly first: string;
}

const boundsOf = (line: LimitLine) => line.bare ?? line.wearLimits ?? line.newLimits;

/** The limit in the unit of a column, with its condition; undefined where the log cannot be judged by this line. */
function boundFor(log: RunLog, column: number, line: LimitLine): ExcursionBound | undefined {
  const bounds = boundsIn(boundsOf(line), log.columns[column]?.unit);
  if (!bounds) return undefined;
  if (!line.condition) return bounds;
  const gate = columnsOf(log, line.condition.channel)[0];
  const range = gate === undefined ? undefined : boundsIn(line.condition.range, log.columns[gate]?.unit);
  if (gate === undefined || !range) return undefined;
  return {
    ...bounds,
    while: { column: gate, from: range.min ?? Number.NEGATIVE_INFINITY, until: range.max ?? Number.POSITIVE_INFINITY },
  };
}

/** Whether a run shows this channel inside the line; undefined where it does not show it. */
function inside(ask: Ask, run: WorkBlock, place: string, line: LimitLine): boolean | undefined {
  let shown: boolean | undefined;
  for (const log of logsOf(ask, run)) {
    const column = log.columns.findIndex((one) => one.place === place);
    const bound = column < 0 ? undefined : boundFor(log, column, line);
    const found = bound && excursions(tableOf(log), column, bound, 1);
    if (found?.ok) shown = (shown ?? true) && found.count === 0;
  }
  return shown;
}

export default rule({
  id: "run/channel-over-limit",
  severity: "error",
  on: ["run"],
  reads: ["logs", "logFiles"],
  page: {
    what: "A channel of a run's log stands outside the limit that the job's revision sets for it, while the limit's condition holds.",
    why: "A head, an oil film or a bearing that was too hot or too dry for minutes may be damaged although the engine still runs well.",
    remedy:
      "Find the cause, name a defect, put it right and run again: the finding is then past, and the log stays. Or have a concession signed by someone who may. Running an engine can hurt or kill: keep clear of the propeller and follow the maker's data and the local rules, which come before anything said here.",
    faulty: [
      {
        text: `limits Curlew-9 revision C from 2025-11-01
  limit cht[1..9] max 230 C ref "7-1"
  magneto-limit drop 100 rpm split 40 rpm at 1700 rpm ref "7-4"
engine C9-0412 Curlew-9
job J1 engine C9-0412 limits C
run R1 2026-04-11 job J1 by ATH second RPE
  log time crank.speed/rpm cht[1..2]/C
  10:02 0    17  17
  10:03 2000 228 221
  10:04 2000 243 224
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
  log time crank.speed/rpm cht[1..2]/C
  10:02 0    17  17
  10:03 2000 230 221
`,
      },
    ],
  },
  check(run, ask, report) {
    const limits = limitsOfJob(ask, run.job);
    if (!limits) return;
    for (const log of logsOf(ask, run)) {
      const table = tableOf(log);
      for (const line of limits.limits) {
        const bounds = boundsOf(line);
        if (line.stat !== "value" || line.formula.length > 0 || !bounds) continue;
        for (const column of columnsOf(log, line.place)) {
          const bound = boundFor(log, column, line);
          const found = bound && excursions(table, column, bound);
          const heading = log.columns[column];
          if (!bound || !found?.ok || found.count === 0 || !heading) continue;
          const stretch = found.stretches.find((one) => one.worst === found.worst) ?? found.stretches[0];
          if (isConceded(ask, run.job, run.ref, heading.feature, heading.path)) continue;
          if (clearedLater(ask, run, (later) => inside(ask, later, heading.place, line))) continue;
          const above = bound.max !== undefined && found.worst > bound.max;
          const limit = (above ? bound.max : bound.min) ?? 0;
          const row = rowAt(table, stretch.worstAt_s);
          report(
            cellSpot(log, table.lines[row], column),
            {
              place: heading.place,
              worst: `${found.worst} ${heading.unitText}`,
              over: `${settle(Math.abs(found.worst - limit))} ${heading.unitText}`,
              side: above ? "over" : "under",
              limit: bounds.text,
              named: limitName(limits, line.reference),
              condition: line.condition ? ` while ${line.condition.channel.text} ${line.condition.range.text}` : "",
              samples: found.samples,
              outside_s: Math.round(found.outside_s),
              when: whenText(log, stretch.worstAt_s),
              first: whenText(log, found.stretches[0].start_s),
            },
            {
              place: heading.place,
              related: [{ ref: limits.ref, spot: { at: line.at }, says: `the limit: ${bounds.text}` }],
            },
          );
        }
      }
    }
  },
  say: (d: Data) =>
    `${d.place} stood at ${d.worst} ${d.when}, ${d.over} ${d.side} the limit ${d.limit}${d.condition} of ${d.named}: ${samplesText(d.samples)} outside${d.outside_s > 0 ? `, ${formatDuration(d.outside_s)} in all` : ""}, first ${d.first}. What ran outside its limit may be damaged: find the cause, name a defect, and run again after the work.`,
});
