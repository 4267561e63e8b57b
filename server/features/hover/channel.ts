/** A cell of a run's log: the channel at that moment, against its limits, and what it did over the run. */
import { parsePlace } from "../../facts/place.ts";
import type { RunLog, WorkBlock } from "../../facts/types.ts";
import { formatDuration, formatTime } from "../../quantity/civil-date.ts";
import { measure } from "../../quantity/compare.ts";
import { channelLimitText, limitsOfChannel } from "../../report/run-summary.ts";
import type { Summary } from "../../report/summary.ts";
import { decimalsOfDouble, figure, inBoth, type Row, said } from "../../report/wording.ts";
import { limitsOfJob } from "../../totals/run-context.ts";
import { runSummary } from "../../totals/run-summary.ts";
import type { Subject } from "./context.ts";

function clock(log: RunLog, row: number): string {
  const time_s = log.time_s[row] ?? Number.NaN;
  if (Number.isNaN(time_s)) return "";
  return log.startsAt === undefined
    ? `after ${formatDuration(time_s)}`
    : `at ${formatTime(Math.round(log.startsAt + time_s))}`;
}

function bandOf(subject: Subject, block: WorkBlock, place: string): Row | undefined {
  const stand = block.stand === "" ? undefined : subject.ask.stand(block.stand);
  const feature = parsePlace(place)?.feature;
  const channel = stand?.channels.find((one) => one.place.feature === feature);
  return (
    channel && [
      "measured with",
      `${channel.instrument}${subject.ask.instrument(channel.instrument) ? ` ${subject.ask.instrument(channel.instrument)?.title}` : ""}`,
    ]
  );
}

/** @param cell a column of the log, or -1 for the whole row */
export function channelSummary(subject: Subject, block: WorkBlock, at: number, cell: number): Summary | undefined {
  const log = block.logs.find((one) => one.rows.includes(at));
  const row = log?.rows.indexOf(at) ?? -1;
  if (!log || row < 0) return undefined;
  if (cell < 0) {
    const rows = log.columns.map(
      (column, i): Row => [
        column.place,
        Number.isNaN(log.values[i]?.[row]) ? "?" : `${log.values[i]?.[row]} ${column.unitText}`,
      ],
    );
    return { title: `Run ${block.name} ${clock(log, row)}`, sections: [{ heading: "", rows }] };
  }
  const column = log.columns[cell];
  const value = log.values[cell]?.[row];
  if (!column || value === undefined) return undefined;
  const written = measure(String(value), column.unitText);
  const limits = limitsOfChannel(limitsOfJob(subject.ask, block.job), column.place).map(channelLimitText);
  const whole = subject.ask.total(runSummary, block.ref)?.channels.find((one) => one.place === column.place);
  const digits = whole ? Math.max(decimalsOfDouble(whole.least), decimalsOfDouble(whole.greatest)) : 0;
  const speed = log.columns.findIndex((one) => one.feature === "crank.speed");
  return {
    title: `${column.place} ${clock(log, row)}: ${Number.isNaN(value) ? "not taken" : written ? inBoth(written) : `${value} ${column.unitText}`}`,
    sections: [
      {
        heading: "",
        rows: said(
          ["limit", limits.length === 0 ? "none is known" : limits.join("; ")],
          speed >= 0 && speed !== cell && ["at", `${log.values[speed]?.[row]} ${log.columns[speed]?.unitText}`],
          whole && [
            "over the run",
            `${figure(whole.least, digits)} to ${figure(whole.greatest, digits)} ${whole.unit}, mean ${figure(whole.mean, digits + 1)}`,
          ],
          bandOf(subject, block, column.place),
        ),
      },
    ],
  };
}
