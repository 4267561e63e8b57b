/**
 * Lines that lay out work still to be done, with `?` in each cell that wants a figure and a gap where a person must write: inspection sheets, torque
 * sheets, signatures. Nothing here fills in a figure, a name or a date that only the person at the bench can know.
 */
import type { Ask } from "../checking/ask.ts";
import { countOf } from "../facts/place.ts";
import type { WorkBlock } from "../facts/types.ts";
import { formatDate } from "../quantity/civil-date.ts";
import { featureCoverage } from "../totals/coverage.ts";
import { jobContext } from "../totals/job-context.ts";
import { isNamedBy, limitsFor, limitsKey, serviceEnds } from "../totals/limits-for.ts";
import { historyKey } from "../totals/place-history.ts";
import { routeSteps, stepOfBlock } from "../totals/route-steps.ts";
import { featureTorques } from "../totals/torque-coverage.ts";

/** Features that a stand measures while the engine runs: they belong in a log, never on an inspection sheet. */
export function channelFeatures(ask: Ask): ReadonlySet<string> {
  return new Set(
    ask.names("stand").flatMap((name) => ask.stand(name)?.channels.map((channel) => channel.place.feature) ?? []),
  );
}

/** The unit in which the job's limits state a feature; `""` where they do not. */
export function unitOfFeature(scope: string, feature: string, ask: Ask): string {
  const { type, revision } = ask.total(jobContext, scope);
  const limits = ask.total(limitsFor, limitsKey(type, revision, feature));
  for (const line of limits.readings) {
    const ends = serviceEnds(line);
    const unit = (ends?.high ?? ends?.low)?.unit.spelling;
    if (unit !== undefined) return unit;
  }
  return "";
}

const isNumber = (label: string): boolean => /^\d+$/u.test(label);
const rowLabel = (label: string): string => (isNumber(label) ? label : `${label}:`);

interface Group {
  /** Label before the row's own, `""` for none. */
  readonly prefix: string;
  readonly columns: readonly string[];
  readonly rows: readonly string[];
}

/** Puts paths into tables: rows by their label, columns by the label behind it where that is a word. */
function groupsOf(paths: readonly string[]): Group[] {
  const tables = new Map<string, { prefix: string; columns: Map<string, string[]> }>();
  for (const path of paths) {
    const labels = path.split("/");
    const last = labels.at(-1) ?? "";
    const hasColumn = labels.length > 1 && !isNumber(last);
    const column = hasColumn ? last : "";
    const row = labels[labels.length - (hasColumn ? 2 : 1)] ?? "";
    const prefix = labels.slice(0, hasColumn ? -2 : -1).join("/");
    let table = tables.get(`${prefix}|${hasColumn}`);
    if (!table) {
      table = { prefix, columns: new Map() };
      tables.set(`${prefix}|${hasColumn}`, table);
    }
    const columns = table.columns.get(row);
    if (columns) columns.push(column);
    else table.columns.set(row, [column]);
  }
  // Rows with other columns than their neighbours are a table of their own, so that no cell asks for a place that is not there.
  const groups: Group[] = [];
  for (const { prefix, columns } of tables.values()) {
    const same = new Map<string, { columns: string[]; rows: string[] }>();
    for (const [row, own] of columns) {
      const key = own.join(" ");
      const group = same.get(key);
      if (group) group.rows.push(row);
      else same.set(key, { columns: own.filter((column) => column !== ""), rows: [row] });
    }
    for (const group of same.values()) groups.push({ prefix, ...group });
  }
  return groups;
}

/**
 * A sheet for the places of a feature that nobody has measured.
 * @param paths which of them; all that the limits expect and nobody has taken or laid out when left out
 * @returns lines without indentation; empty where nothing is missing or no unit is known
 */
export function gridLines(scope: string, feature: string, ask: Ask, paths?: readonly string[]): string[] {
  const unit = unitOfFeature(scope, feature, ask);
  if (unit === "") return [];
  const lines: string[] = [];
  for (const line of ask.total(featureCoverage, historyKey(scope, feature))) {
    const missing = (paths ?? [...line.missing, ...line.again]).filter(
      (path) => paths === undefined || line.missing.includes(path) || line.again.includes(path),
    );
    const state = line.state === "" ? "" : ` ${line.state}`;
    if (missing.length === 1 && missing[0] === "") lines.push(`measure ${feature} ?${state}`);
    else {
      for (const { prefix, columns, rows } of groupsOf(missing)) {
        lines.push(
          `grid ${feature}${prefix === "" ? "" : `[${prefix}]`}/${unit}${columns.map((column) => ` ${column}`).join("")}${state}`,
        );
        for (const row of rows) lines.push(`${rowLabel(row)}${" ?".repeat(Math.max(1, columns.length))}`);
      }
    }
  }
  return lines;
}

/** Features of the job's limits with places that nobody has measured, those first that the step asks for. */
export function featuresToMeasure(
  scope: string,
  step: string,
  ask: Ask,
): { readonly feature: string; readonly wanted: boolean; readonly missing: number }[] {
  const { type, revision, route } = ask.total(jobContext, scope);
  const channels = channelFeatures(ask);
  const names = (ask.route(route)?.steps.find((one) => one.name === step)?.needs ?? []).flatMap((need) =>
    need.kind === "limits" ? need.features : [],
  );
  const features = new Set<string>();
  for (const line of ask.limits(type, revision)?.limits ?? []) {
    if (line.stat === "value" && line.formula.length === 0 && !line.condition && !channels.has(line.place.feature))
      features.add(line.place.feature);
  }
  const found = [...features].map((feature) => ({
    feature,
    wanted: names.length > 0 && isNamedBy(feature, names),
    missing: ask
      .total(featureCoverage, historyKey(scope, feature))
      .reduce((sum, line) => sum + line.missing.length + line.again.length, 0),
  }));
  return found.filter((one) => one.missing > 0).sort((a, b) => Number(b.wanted) - Number(a.wanted));
}

/** The whole inspection sheet of a step: a table for each feature that it asks for and nobody has measured. */
export function inspectionSheet(scope: string, step: string, ask: Ask): string[] {
  return featuresToMeasure(scope, step, ask)
    .filter((one) => one.wanted)
    .flatMap(({ feature }) => gridLines(scope, feature, ask));
}

export interface TorqueToDo {
  readonly place: string;
  readonly unit: string;
  /** As the limit says it: `oiled`, `dry`, or a compound. */
  readonly lubrication: string;
  readonly missing: number;
  readonly bounds: string;
}

/** Fasteners without a torque that counts, by the limit's own lines; those that a step asks for where one is given. */
export function torquesToDo(scope: string, step: string, ask: Ask): TorqueToDo[] {
  const { type, revision, route } = ask.total(jobContext, scope);
  const needs = (ask.route(route)?.steps.find((one) => one.name === step)?.needs ?? []).filter(
    (need) => need.kind === "torque",
  );
  const wanted = (feature: string): boolean =>
    needs.length === 0 || needs.some((need) => isNamedBy(feature, need.features));
  return (ask.limits(type, revision)?.torques ?? [])
    .filter((line) => wanted(line.place.feature))
    .flatMap((line): TorqueToDo[] => {
      const done = ask
        .total(featureTorques, historyKey(scope, line.place.feature))
        .lines.find((one) => one.limitAt === line.at);
      const unit = (line.bounds.low ?? line.bounds.high)?.unit.spelling ?? "N.m";
      if (!done || done.missing.length === 0) return [];
      const base = { unit, lubrication: line.lubrication, bounds: line.bounds.text };
      if (done.missing.length === countOf(line.place))
        return [{ ...base, place: line.place.text, missing: done.missing.length }];
      return rowsOf(done.missing).map(({ text, missing }) => ({
        ...base,
        place: `${line.place.feature}[${text}]`,
        missing,
      }));
    });
}

/** Paths by their first labels, the last ones in one list: `1/2,5,7`. */
function rowsOf(paths: readonly string[]): { readonly text: string; readonly missing: number }[] {
  const rows = new Map<string, string[]>();
  for (const path of paths) {
    const slash = path.lastIndexOf("/");
    const row = slash < 0 ? "" : path.slice(0, slash + 1);
    const list = rows.get(row);
    if (list) list.push(path.slice(slash + 1));
    else rows.set(row, [path.slice(slash + 1)]);
  }
  return [...rows].map(([row, labels]) => ({ text: row + labels.join(","), missing: labels.length }));
}

/** `oiled`, `dry`, or `compound "..."`. */
export function lubricationClause(lubrication: string): string {
  if (lubrication === "") return "";
  return lubrication === "oiled" || lubrication === "dry"
    ? ` ${lubrication}`
    : ` compound "${lubrication.replaceAll('"', '""')}"`;
}

/** Roles that still have to sign a block; of several that serve the first. */
export function rolesToSign(block: WorkBlock, ask: Ask): string[] {
  if (block.job === "") return [];
  const steps = ask.total(routeSteps, block.job);
  const missing = stepOfBlock(steps, block.ref)?.blocks.find((one) => one.ref === block.ref)?.missing ?? [];
  return missing.map((one) => one.roles[0] ?? "").filter((role) => role !== "");
}

/** The day of a block, or as of which the shop is judged, as the records write it. */
export function dayText(block: WorkBlock | undefined, ask: Ask): string {
  return formatDate(block?.date ?? ask.asOf());
}

/** The next free name of a kind within a scope: `E15` after `E14`, `D1` where there is none. */
export function nextName(letter: string, taken: Iterable<string>): string {
  let last = 0;
  for (const name of taken) {
    const match = new RegExp(`^${letter}(\\d{1,6})$`, "u").exec(name);
    if (match) last = Math.max(last, Number(match[1]));
  }
  return `${letter}${last + 1}`;
}

/** Channels of the stand on which a job runs or may run, as columns of a log: unit of the limits, else of the instrument. */
export function logColumns(stand: string, scope: string, ask: Ask): string[] {
  const { type, revision } = ask.total(jobContext, scope);
  const limits = ask.limits(type, revision)?.limits ?? [];
  return (ask.stand(stand)?.channels ?? []).flatMap((channel) => {
    const line = limits.find((one) => one.place.feature === channel.place.feature && one.bare);
    const range = ask.instrument(channel.instrument)?.range;
    const unit = (line?.bare?.high ?? line?.bare?.low ?? range?.high ?? range?.low)?.unit.spelling;
    return unit === undefined ? [] : [`${channel.place.text}/${unit}`];
  });
}
