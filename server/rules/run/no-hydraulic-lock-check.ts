/** A start after standing without a check for hydraulic lock, on an engine with cylinders below the horizontal. */
import type { Ask } from "../../checking/ask.ts";
import type { CheckLine, RunLog, WorkBlock } from "../../facts/types.ts";
import { formatDuration } from "../../quantity/civil-date.ts";
import { lowOf } from "../../totals/engine-shape.ts";
import { isConceded } from "../../totals/later-work.ts";
import { typeOfJob } from "../../totals/run-context.ts";
import { hasUnreadLog, logsOf } from "../../totals/run-logs.ts";
import { speedColumn, tableOf, turnings, whenText } from "../../totals/run-table.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly start: string;
  readonly stood: string;
  readonly low: readonly number[];
  readonly after: string;
}

interface Start {
  /** Rows of the run's logs above the start. */
  readonly rows: number;
  readonly line: number;
  readonly when: string;
  /** How long the engine stood before it, as far as the run shows; undefined where nothing says. */
  readonly stood_s: number | undefined;
}

/** After how long standing a check is due where the engine type does not say. Source: common practice, no source. */
const STANDING_s = 3600;

function seconds(
  value:
    | { readonly value: number; readonly unit: { readonly dimension: string; readonly factorNumber: number } }
    | undefined,
): number | undefined {
  return value?.unit.dimension === "time" ? value.value * value.unit.factorNumber : undefined;
}

const clock = (log: RunLog, time_s: number): number | undefined =>
  log.startsAt === undefined ? undefined : log.startsAt + time_s;

/** Starts that the logs of a run show; a run whose logs show no speed counts as one start. */
function startsOf(logs: readonly RunLog[], unread: boolean): Start[] {
  const starts: Start[] = [];
  let rows = 0;
  let stopped: number | undefined;
  for (const log of logs) {
    const speed = speedColumn(log);
    const table = tableOf(log);
    for (const turning of speed < 0 ? [] : turnings(table, speed)) {
      const begin_s = table.time_s[turning.firstRow];
      const begin = clock(log, begin_s) ?? begin_s;
      starts.push({
        rows: rows + table.sources[turning.firstRow],
        line: table.lines[turning.firstRow],
        when: ` ${whenText(log, begin_s)}`,
        stood_s: stopped === undefined ? undefined : begin - stopped,
      });
      const end_s = table.time_s[Math.min(turning.endRow, table.time_s.length - 1)];
      stopped = clock(log, end_s) ?? end_s;
    }
    rows += log.time_s.length;
  }
  if (starts.length === 0 && (logs.some((log) => log.time_s.length > 0 && speedColumn(log) < 0) || unread)) {
    starts.push({ rows: 0, line: 0, when: "", stood_s: undefined });
  }
  return starts;
}

/** End of the run before this one on the same day, in seconds of the day. */
function endOf(ask: Ask, run: WorkBlock | undefined): number | undefined {
  const log = run && logsOf(ask, run).at(-1);
  if (!log || log.time_s.length === 0) return undefined;
  return clock(log, tableOf(log).time_s[tableOf(log).time_s.length - 1]);
}

const serves = (check: CheckLine): boolean => check.name === "hydraulic-lock" && check.ok;

export default rule({
  id: "run/no-hydraulic-lock-check",
  severity: "error",
  on: ["run"],
  page: {
    what: "The engine was started after standing, it has cylinders below the horizontal, and no `check hydraulic-lock ok` stands before that start. Where the engine type does not say after how long standing (`lock-check`), an hour counts.",
    why: "Oil and fuel run down into the lowest cylinders while an engine stands. A piston that meets liquid bends its rod or breaks the engine, at once or hours later, and liquid in an intake pipe may follow only when the engine fires.",
    remedy:
      "Before every start after standing: ignition off, turn the engine by hand in its direction of rotation, through enough turns that every cylinder passes compression. A resistance is never cleared by turning back: take the plugs out of the low cylinders, drain them and their intake pipes. Record the check with the cylinders that were drained. A start that was made without it is conceded by someone who may (`concession N1 of R1 hydraulic-lock ...`), after the rods were looked at. The maker's data and the local rules come first; a propeller can turn by itself, so treat it as live.",
    faulty: [
      {
        text: `engine-type Curlew-9
  layout radial 9
  numbering clockwise from rear
  rotation clockwise seen from rear
  lock-check after 4 h standing
engine C9-0412 Curlew-9
job J1 engine C9-0412
run R1 2026-04-11 job J1 by ATH second RPE
  log time crank.speed/rpm
  10:02 0
  10:03 800
`,
      },
    ],
    sound: [
      {
        text: `engine-type Curlew-9
  layout radial 9
  numbering clockwise from rear
  rotation clockwise seen from rear
  lock-check after 4 h standing
engine C9-0412 Curlew-9
job J1 engine C9-0412
run R1 2026-04-11 job J1 by ATH second RPE
  check hydraulic-lock ok "By hand, ignition off, two full turns, 5 6 4 7 drained"
  log time crank.speed/rpm
  10:02 0
  10:03 800
`,
      },
    ],
  },
  check(run, ask, report) {
    if (run.job === "" || run.headerBroken || run.unread.includes("check") || run.unread.includes("standing")) return;
    const type = typeOfJob(ask, run.job);
    const low = lowOf(type).map((cylinder) => cylinder.number);
    if (low.length === 0) return;
    const after_s = seconds(type?.lockCheckAfter) ?? STANDING_s;
    const heads = ask.work(run.job);
    const own = heads.findIndex((head) => head.ref === run.ref);
    const previous = heads.slice(0, Math.max(0, own)).findLastIndex((head) => head.kind === "run");
    const logs = logsOf(ask, run);
    const starts = startsOf(logs, hasUnreadLog(ask, run));
    // Rows above a check: those typed, and all of a logger's file that is named above it.
    const fromFiles = logs.filter((log) => !run.logs.includes(log));
    const rowsAbove = (check: CheckLine): number =>
      fromFiles.reduce((sum, log) => (log.at < check.at ? sum + log.time_s.length : sum), check.afterRows);
    for (const [index, start] of starts.entries()) {
      let stood_s = start.stood_s;
      if (index === 0) {
        stood_s = seconds(run.standing[0]?.value);
        // Without a `standing` line an earlier run of the same day says how long it stood.
        if (stood_s === undefined && previous >= 0 && heads[previous]?.date === run.date) {
          const begin = logs[0]?.startsAt;
          const end = endOf(ask, ask.workBlock(heads[previous]?.ref ?? ""));
          if (begin !== undefined && end !== undefined && begin >= end) stood_s = begin - end;
        }
      }
      if (stood_s !== undefined && stood_s < after_s) continue;
      const earlier = starts[index - 1]?.rows ?? -1;
      if (run.checks.some((check) => serves(check) && rowsAbove(check) <= start.rows && rowsAbove(check) > earlier))
        continue;
      if (
        index === 0 &&
        heads
          .slice(previous + 1, own)
          .some((head) => head.date === run.date && ask.workBlock(head.ref)?.checks.some(serves))
      )
        continue;
      if (isConceded(ask, run.job, run.ref, "hydraulic-lock", "")) continue;
      report(
        { at: start.line },
        {
          start: start.when,
          stood: stood_s === undefined ? "" : ` after ${formatDuration(Math.round(stood_s))} standing`,
          low,
          after: formatDuration(after_s),
        },
        {
          place: "hydraulic-lock",
          related: type
            ? [
                {
                  ref: type.ref,
                  spot: { at: type.layout?.at ?? 0 },
                  says: `below the horizontal, lowest first: ${low.join(", ")}`,
                },
              ]
            : [],
        },
      );
    }
  },
  say: (d: Data) =>
    `No hydraulic-lock check stands before the start${d.start}${d.stood}: ${d.low.length === 1 ? "cylinder" : "cylinders"} ${d.low.join(", ")} ${d.low.length === 1 ? "lies" : "lie"} below the horizontal (lowest first), where oil and fuel gather. Turn the engine by hand, ignition off, in the direction of rotation, through enough turns that every cylinder passes compression. Never clear a resistance by turning back: plugs out, intake pipes drained.`,
});
