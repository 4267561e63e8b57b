/** An engine at a glance: its hours now, what falls due next, what is open on it, its bulletins, its jobs. */
import type { Ask } from "../checking/ask.ts";
import type { EngineBlock } from "../facts/types.ts";
import { formatDate } from "../quantity/civil-date.ts";
import { type DefectState, defectStates } from "../totals/defect-states.ts";
import { type DueItem, dueItems, dueText, leftText } from "../totals/due-items.ts";
import { type EngineHours, engineHours, showAmount } from "../totals/engine-hours.ts";
import { jobSummary } from "../totals/job-summary.ts";
import { inOrder } from "./due-report.ts";
import { engineTrends } from "./engine-trends.ts";
import type { Summary } from "./summary.ts";
import { few, type Row, said } from "./wording.ts";

/** What the usual counters count; any other is called by its own name. */
const COUNTERS: Readonly<Record<string, string>> = { tsn: "since new", tso: "since overhaul", tsi: "since inspection" };
const DUE_SHOWN = 8;

function hoursRows(ledger: EngineHours, ask: Ask): Row[] {
  const today = ask.asOf();
  const last = ledger.entries.findLast((entry) => entry.date <= today);
  if (!last) return [["", "No hours are stated up to this day."]];
  const rows: Row[] = Object.entries(last.after).map(([counter, amount]) => [
    counter in COUNTERS ? `${COUNTERS[counter]} (${counter})` : counter,
    showAmount(amount, ledger.dimensions[counter] ?? "time"),
  ]);
  const stated = ledger.entries.findLast((entry) => entry.kind === "stated" && entry.date <= today);
  if (stated)
    rows.push([
      "last stated",
      `${stated.stated.map((one) => `${one.counter} ${one.text}`).join(", ")} on ${formatDate(stated.date)}`,
    ]);
  const latest = new Map(ledger.meters.filter((meter) => meter.date <= today).map((meter) => [meter.meter, meter]));
  for (const meter of latest.values())
    rows.push([`meter ${meter.meter}`, `${meter.text} on ${formatDate(meter.date)}`]);
  const overhaul = ledger.overhauls.findLast((one) => one.date <= today);
  if (overhaul) rows.push(["last overhaul", formatDate(overhaul.date)]);
  if (ledger.standTime === "excluded") rows.push(["", "Running on the stand is not counted in this shop."]);
  if (ledger.unknownRuns.length > 0)
    rows.push(["not counted", `${few(ledger.unknownRuns)}: no log shows how long the engine ran`]);
  return rows;
}

/** Standing and figures of a due item: `12 h past, due at 1210.0 h`. */
export function dueWords(item: DueItem): string {
  const { governing } = item;
  const every = item.interval === "" ? "" : ` (${item.kind === "task" ? "every " : ""}${item.interval})`;
  if (!governing)
    return `${item.verdict === "never-done" ? "not done yet" : item.reason === "" ? item.verdict : item.reason}${every}`;
  const left = `${leftText(governing)} ${governing.left < 0 ? "past" : "left"}`;
  return `${left}, due ${dueText(governing)}${item.verdict === "due-soon" ? ", within notice" : ""}${every}`;
}

function bulletinRows(items: readonly DueItem[]): Row[] {
  return items
    .filter((item) => item.kind === "bulletin")
    .map((item) => {
      const force = item.force === "" ? "" : `${item.force}, `;
      const done = item.last
        ? `embodied ${formatDate(item.last.date)}`
        : item.governing
          ? `not embodied, ${dueWords(item)}`
          : "not embodied";
      return [item.name, `${item.title === "" ? "" : `${item.title}: `}${force}${done}`];
    });
}

/** Scopes in which an engine is worked on: its jobs, then its work in service. */
function scopesOf(engine: EngineBlock, ask: Ask): string[] {
  return [...ask.jobsOf(engine.name).map((job) => job.name), `engine:${engine.name}`];
}

function defectRows(engine: EngineBlock, ask: Ask): Row[] {
  const rows: Row[] = [];
  for (const scope of scopesOf(engine, ask)) {
    for (const defect of ask.total(defectStates, scope)) {
      if (defect.standing === "open" || defect.standing === "deferred")
        rows.push([`${scope.startsWith("engine:") ? "" : `${scope}/`}${defect.name}`, openDefect(defect)]);
    }
  }
  return rows;
}

function openDefect(defect: DefectState): string {
  const { decided } = defect;
  const put = decided
    ? `, deferred${decided.until === undefined ? "" : ` until ${formatDate(decided.until)}`}${decided.by === "" ? "" : ` by ${decided.by}`}`
    : "";
  return `${defect.place}: ${defect.about}${put}`;
}

/**
 * Sums about one engine.
 * @param name of the engine
 * @returns undefined when no block declares it
 */
export function engineSummary(ask: Ask, name: string): Summary | undefined {
  const engine = ask.engine(name);
  if (!engine) return undefined;
  const items = ask.total(dueItems, name);
  const due = inOrder(items).filter((item) => item.governing || item.verdict !== "unknown" || item.reason !== "");
  const more = due.length - DUE_SHOWN;
  const asOf = formatDate(ask.asOf());
  const defects = defectRows(engine, ask);
  return {
    title: `Engine ${engine.name}, ${engine.type}`,
    sections: [
      { heading: "", rows: said(["owner", engine.owner], ["data plate", engine.plate]) },
      { heading: `Hours as of ${asOf}`, rows: hoursRows(ask.total(engineHours, name), ask) },
      {
        heading: "Due next",
        rows: [
          ...due.slice(0, DUE_SHOWN).map((item): Row => [item.name, dueWords(item)]),
          ...(more > 0 ? [["", `and ${more} more, see gudgeon due`] as const] : []),
          ...(due.length === 0 ? [["", "Nothing is laid down for this type."] as const] : []),
        ],
      },
      { heading: "Open defects", rows: defects.length === 0 ? [["", "none"]] : defects },
      ...engineTrends(ask, name),
      { heading: "Bulletins", rows: bulletinRows(items) },
      { heading: "Jobs", rows: ask.jobsOf(name).map((job): Row => [job.name, jobWords(job.name, job.scope, ask)]) },
    ],
  };
}

function jobWords(job: string, scope: string, ask: Ask): string {
  const { released, dispatched, firstDay } = ask.total(jobSummary, job);
  const state =
    dispatched !== undefined
      ? `left the shop ${formatDate(dispatched)}`
      : released !== undefined
        ? `released ${formatDate(released)}`
        : firstDay !== undefined
          ? `in work since ${formatDate(firstDay)}`
          : "not begun";
  return scope === "" ? state : `${state}: ${scope}`;
}
