/** The line that names a data logger's file, and the lines that map its columns: what was read of it. */
import type { LogFile, WorkBlock } from "../../facts/types.ts";
import { formatDuration, formatTime } from "../../quantity/civil-date.ts";
import { channelLimitText, limitsOfChannel } from "../../report/run-summary.ts";
import type { Summary } from "../../report/summary.ts";
import { count, figure, type Row, said } from "../../report/wording.ts";
import { limitsOfJob } from "../../totals/run-context.ts";
import { channelMaps, joinedLogs, LONGEST_LOG_bytes, MOST_LOG_ROWS, runTableRequest } from "../../totals/run-logs.ts";
import { runSummary } from "../../totals/run-summary.ts";
import type { Subject } from "./context.ts";

const TIMES = { elapsed: "elapsed time", clock: "time of the day", "date-time": "day and time" };

function aboutFile(subject: Subject, block: WorkBlock, file: LogFile): Summary {
  const request = runTableRequest(file);
  const state = request && subject.ask.runTable(request);
  if (state?.standing !== "read") {
    const why =
      state?.standing === "refused"
        ? state.message
        : state
          ? "There is no such file."
          : request
            ? "It is not read yet."
            : "No column of it is mapped to a channel with a unit.";
    return { title: `Log ${file.path}`, sections: [{ heading: "", rows: [["not read", why]] }] };
  }
  const { log } = state;
  const repeated = joinedLogs(subject.ask, block).find((one) => one.file === file)?.repeated ?? [];
  const length_s = log.table.time_s.at(-1) ?? 0;
  return {
    title: `Log ${file.path}`,
    sections: [
      {
        heading: "",
        rows: said(
          ["rows", `${log.rows}${log.leftOutCount > 0 ? `, ${log.leftOutCount} of them left out` : ""}`],
          [
            "time",
            `${TIMES[log.timeKind]} in "${log.timeHeader}"${log.timeKind === "elapsed" ? "" : `, from ${formatTime(Math.round(log.first_s % 86_400))}`}, ${formatDuration(Math.round(length_s))}`,
          ],
          [
            "columns",
            `${channelMaps(file).length} mapped, ${log.unmapped.length} not${log.absent.length > 0 ? `, ${log.absent.length} that the file does not have` : ""}`,
          ],
          ["bad cells", log.badCount === 0 ? "none" : String(log.badCount)],
          [
            "empty cells",
            log.missing.every((one) => one === 0) ? "none" : String(log.missing.reduce((sum, one) => sum + one, 0)),
          ],
          repeated.length > 0 && [
            "repeats",
            `${count(repeated.length, "channel")} that the run's other rows show at the same time; counted once, from those`,
          ],
          [
            "digest",
            file.digest === "" ? "not pinned" : file.digest === state.digest ? "as pinned" : "another than is pinned",
          ],
          ["read up to", `${MOST_LOG_ROWS} rows, ${LONGEST_LOG_bytes / 1024 / 1024} MB`],
        ),
      },
    ],
  };
}

/** @param at a `log from` line or a `map` line; undefined for anything else */
export function logFileSummary(subject: Subject, block: WorkBlock, at: number): Summary | undefined {
  const file = block.logFiles.find((one) => one.at === at || one.maps.some((map) => map.at === at));
  if (!file) return undefined;
  if (file.at === at) return aboutFile(subject, block, file);
  const column = file.maps.find((map) => map.at === at)?.column;
  const request = runTableRequest(file);
  const state = request && subject.ask.runTable(request);
  const i = channelMaps(file).findIndex((map) => map.at === at);
  if (!column || i < 0 || state?.standing !== "read") return undefined;
  const { log } = state;
  const whole = subject.ask.total(runSummary, block.ref)?.channels.find((one) => one.place === column.place);
  const limits = limitsOfChannel(limitsOfJob(subject.ask, block.job), column.place).map(channelLimitText);
  return {
    title: `${column.place} in ${column.unitText}, column "${log.headers.includes(channelMaps(file)[i].heading) ? channelMaps(file)[i].heading : "that the file does not have"}" of ${file.path}`,
    sections: [
      {
        heading: "",
        rows: said(
          ["cells", `${log.rows - log.missing[i] - log.bad[i]} of ${count(log.rows, "row")}`],
          log.missing[i] > 0 && ["empty", String(log.missing[i])],
          log.bad[i] > 0 && ["bad", String(log.bad[i])],
          ["limit", limits.length === 0 ? "none is known" : limits.join("; ")],
          whole &&
            ([
              "over the run",
              `${figure(whole.least, 2)} to ${figure(whole.greatest, 2)} ${whole.unit}, mean ${figure(whole.mean, 2)}`,
            ] satisfies Row),
        ),
      },
    ],
  };
}
