/** A run at a glance: how long, at which speeds, each channel with its limit, fuel and oil, how far the running-in has come. */
import type { Ask } from "../checking/ask.ts";
import { covers } from "../facts/place.ts";
import type { LimitLine, LimitsBlock } from "../facts/types.ts";
import { formatDate, formatTime } from "../quantity/civil-date.ts";
import { limitsOfJob } from "../totals/run-context.ts";
import type { StepState } from "../totals/run-in-state.ts";
import { type ChannelSummary, type RunSummary, runSummary } from "../totals/run-summary.ts";
import type { Summary } from "./summary.ts";
import { boundsText, count, decimalsOfDouble, duration, figure, type Row, said } from "./wording.ts";

/** Where in the run an extreme stands: by the clock, or from its beginning. */
function when(summary: RunSummary, at_s: number): string {
  return summary.startsAt === undefined
    ? `after ${duration(at_s)}`
    : `at ${formatTime(Math.round(summary.startsAt + at_s))}`;
}

/** Limits of a channel, those under a condition too. */
export function limitsOfChannel(limits: LimitsBlock | undefined, place: string): readonly LimitLine[] {
  const bracket = place.indexOf("[");
  const feature = bracket < 0 ? place : place.slice(0, bracket);
  const path = bracket < 0 ? "" : place.slice(bracket + 1, -1);
  return (limits?.limits ?? []).filter(
    (line) =>
      line.formula.length === 0 &&
      line.place.feature === feature &&
      (line.place.levels.length === 0 || covers(line.place, path)),
  );
}

/** `min 55 psi max 85 psi while crank.speed 1400..2300 rpm`. */
export function channelLimitText(line: LimitLine): string {
  const bounds = line.bare ?? line.wearLimits ?? line.newLimits;
  return `${boundsText(bounds)}${line.condition ? ` while ${line.condition.channel.text} ${boundsText(line.condition.range)}` : ""}`;
}

function channelRow(summary: RunSummary, channel: ChannelSummary, limits: LimitsBlock | undefined): Row {
  const digits = Math.max(decimalsOfDouble(channel.least), decimalsOfDouble(channel.greatest));
  const lines = limitsOfChannel(limits, channel.place).map(channelLimitText);
  const limit = lines.length === 0 ? "no limit" : `limit ${lines.join("; ")}`;
  return [
    `${channel.place} (${channel.unit})`,
    `${figure(channel.least, digits)} to ${figure(channel.greatest, digits)} (${when(summary, channel.greatestAt_s)}), mean ${figure(channel.mean, digits + 1)}; ${limit}`,
  ];
}

const VERDICTS: Readonly<Record<StepState["verdict"], string>> = {
  done: "met",
  short: "too short",
  "out-of-order": "out of order",
  missed: "not run",
};

function stepWords(step: StepState): string {
  const broken =
    step.breaches.length === 0
      ? ""
      : `, ${step.breaches.map((one) => `${one.place} ${one.worst} ${one.unit} against ${one.bound} ${one.limit} ${one.unit}`).join("; ")}`;
  const time =
    step.verdict === "missed" ? duration(step.wanted_s) : `${duration(step.counted_s)} of ${duration(step.wanted_s)}`;
  return `${VERDICTS[step.verdict]}: ${time} at ${step.range}${broken}`;
}

const litres = (volume_L: number | undefined): string =>
  volume_L === undefined ? "" : `${Number(volume_L.toFixed(2))} L`;

function rate(volume_L: number | undefined, summary: RunSummary): string {
  const running_h = (summary.running_s ?? 0) / 3600;
  return volume_L === undefined || running_h === 0 ? "" : ` (${(volume_L / running_h).toFixed(1)} L/h)`;
}

/**
 * Sums about one run.
 * @param ref the run in full, `J26-014/R1`
 * @returns undefined when no run of this name stands
 */
export function runSummaryOf(ask: Ask, ref: string): Summary | undefined {
  const run = ask.workBlock(ref);
  const summary = ask.total(runSummary, ref);
  if (!run || !summary || run.kind !== "run") return undefined;
  const limits = limitsOfJob(ask, run.job);
  const { runIn } = summary;
  const met = runIn?.steps.filter((step) => step.verdict === "done").length ?? 0;
  return {
    title: `Run ${run.name}${run.job === "" ? "" : ` of ${run.job}`}${run.date === undefined ? "" : `, ${formatDate(run.date)}`}`,
    sections: [
      {
        heading: "",
        rows: said(
          [
            "running",
            summary.running_s === undefined
              ? "no log shows the speed"
              : `${duration(summary.running_s)} in ${count(summary.starts, "start")}`,
          ],
          ["logged", `${duration(summary.logged_s)}, ${count(summary.rows, "row")}`],
          ["data logger", run.logFiles.map((file) => file.path).join(", ")],
          ["at the stand", [run.by, run.second].filter((name) => name !== "").join(", ")],
          ["fuel", summary.fuel_L === undefined ? "" : `${litres(summary.fuel_L)}${rate(summary.fuel_L, summary)}`],
          ["oil added", litres(summary.oilAdded_L)],
          ["oil drained", litres(summary.oilDrained_L)],
        ),
      },
      {
        heading: "Time at speed",
        rows: summary.bands.map((band): Row => [`${band.from_rpm} to ${band.until_rpm} rpm`, duration(band.time_s)]),
      },
      {
        heading: limits ? `Channels, limits ${limits.type} revision ${limits.revision}` : "Channels",
        rows: summary.channels.map((channel) => channelRow(summary, channel, limits)),
      },
      {
        heading: runIn ? `Running-in ${runIn.schedule}: ${met} of ${runIn.steps.length} steps met over the job` : "",
        rows: runIn?.steps.map((step): Row => [`step ${step.name}`, stepWords(step)]) ?? [],
      },
    ],
  };
}
