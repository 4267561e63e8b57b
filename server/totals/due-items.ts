/**
 * What is due on an engine: recurring tasks, bulletins, lives of parts, deferred defects; by hours, calendar or cycles, whichever comes first.
 */
import { type DueTask, dueState, type MeasureDue, type UsePoint } from "../calc/due.ts";
import type { Ask, Total, WorkHead } from "../checking/ask.ts";
import type { At, DoneLine, TaskBlock } from "../facts/types.ts";
import type { CivilDate } from "../quantity/civil-date.ts";
import { amounts, type DueItem, written } from "./due-item.ts";
import { bulletinItems, deferralItems, lifeItems } from "./due-others.ts";
import { addMonthsTo, carried, cycleCounter, hours, places, pointOn, type Scene, sceneOf } from "./due-scene.ts";
import { hoursOn, hoursWhen } from "./engine-hours.ts";

export { type DoneAt, type DueItem, type DueVerdict, dueText, leftText, noticeOf } from "./due-item.ts";

interface DonePoint extends UsePoint {
  readonly ref: string;
  readonly at: At;
}

function whenDone(scene: Scene, line: DoneLine, head: WorkHead | undefined, cycles: string): DonePoint | undefined {
  const date = line.on ?? head?.date;
  if (date === undefined || date > scene.today) return undefined;
  const rank = head && line.on === undefined ? scene.rankOf.get(head.ref) : undefined;
  const before = (ref: string): boolean =>
    rank === undefined || (scene.rankOf.get(ref) ?? Number.POSITIVE_INFINITY) <= rank;
  const stated = carried(scene, line.counter, line.hours, date);
  const amount =
    stated ??
    (rank === undefined
      ? hoursOn(scene.ledger, scene.counter, date)
      : hoursWhen(scene.ledger, scene.counter, date, before));
  const counted = line.counter !== "" && line.counter === cycles && line.hours ? line.hours.value : undefined;
  return {
    date,
    hours_h: hours(amount),
    cycles: counted ?? (cycles === "" ? undefined : hoursOn(scene.ledger, cycles, date)),
    ref: head?.ref ?? scene.engine.ref,
    at: line.at,
  };
}

function doneByTask(
  scene: Scene,
): ReadonlyMap<string, { readonly line: DoneLine; readonly head: WorkHead | undefined }[]> {
  const found = new Map<string, { line: DoneLine; head: WorkHead | undefined }[]>();
  const add = (line: DoneLine, head: WorkHead | undefined): void => {
    const list = found.get(line.task);
    if (list) list.push({ line, head });
    else found.set(line.task, [{ line, head }]);
  };
  for (const line of scene.engine.done) add(line, undefined);
  for (const scope of places(scene.engine, scene.ask))
    for (const { block, fact } of scene.ask.facts(scope, "done")) add(fact, block);
  return found;
}

/**
 * The times done that still matter, and the task with which they are counted. A task that was done late, beyond what its tolerance allows,
 * begins again where it was done: it is cleared by its `done`. Done late within the tolerance, the next interval is counted from where it was due.
 */
function counted(
  task: DueTask,
  start: UsePoint | undefined,
  done: readonly DonePoint[],
): { task: DueTask; start: UsePoint | undefined; done: readonly DonePoint[] } {
  let from = start;
  let kept: DonePoint[] = [];
  let now = task;
  for (const point of done) {
    const state = from || kept.length > 0 ? dueState(now, from, kept, point, addMonthsTo) : undefined;
    const late =
      state?.ok === true &&
      (state.verdict === "beyond-tolerance" || (state.verdict === "overdue" && !toleranceFor(task, state.governing)));
    if (late) {
      from = point;
      kept = [];
      now = { ...task, first: undefined };
    } else kept.push(point);
  }
  return { task: now, start: from, done: kept };
}

function toleranceFor(task: DueTask, governing: MeasureDue | undefined): boolean {
  if (!governing) return false;
  const key = governing.measure === "hours" ? "hours_h" : governing.measure === "calendar" ? "days" : "cycles";
  return task.tolerance?.[key] !== undefined;
}

function taskItem(
  scene: Scene,
  block: TaskBlock,
  lines: readonly { readonly line: DoneLine; readonly head: WorkHead | undefined }[],
): DueItem {
  const cycles = cycleCounter(scene.ledger, block.every);
  const task: DueTask = {
    every: amounts(block.every),
    first: block.first.length > 0 ? amounts(block.first) : undefined,
    tolerance: block.tolerance.length > 0 ? amounts(block.tolerance, true) : undefined,
    soon: scene.soon,
    anchor: "plan",
  };
  const all = lines.map(({ line, head }) => whenDone(scene, line, head, cycles)).filter((point) => point !== undefined);
  all.sort((a, b) => a.date - b.date || (a.hours_h ?? 0) - (b.hours_h ?? 0));
  const { start } = scene;
  // What was done before an overhaul does not count any more: the task begins again with the overhauled engine.
  const since = start
    ? all.filter((point) => point.date > start.date || (point.date === start.date && start.what === "new"))
    : all;
  const last = since.at(-1);
  const item = {
    kind: "task" as const,
    name: block.name,
    title: block.about,
    ref: block.ref,
    at: 0,
    interval: written(block.every),
    tolerance: written(block.tolerance),
    last: last && { date: last.date as CivilDate, hours_h: last.hours_h, ref: last.ref, at: last.at },
    since: start && { what: start.what, date: start.date as CivilDate },
    reason: "",
    force: "" as const,
  };
  const now = pointOn(scene, scene.today, cycles);
  const startPoint = start && {
    date: start.date,
    hours_h: start.hours_h,
    cycles: cycles === "" ? undefined : hoursOn(scene.ledger, cycles, start.date as CivilDate),
  };
  if (!startPoint && since.length === 0) return { ...item, ...neverDone(task, now, scene) };
  const terms = counted(task, startPoint, since);
  const state = dueState(terms.task, terms.start, terms.done, now, addMonthsTo);
  if (!state.ok) return { ...item, verdict: "unknown", governing: undefined, measures: [], reason: state.refused };
  // Overdue is only called so where no tolerance covers it; the rules tell the two apart by `tolerance`.
  return { ...item, verdict: state.verdict, governing: state.governing, measures: state.measures };
}

/** Nobody wrote down when the clock began. An engine with fewer hours since new than the first interval still has time; else nothing is known. */
function neverDone(task: DueTask, now: UsePoint, scene: Scene): Pick<DueItem, "verdict" | "governing" | "measures"> {
  const opening = task.first ?? task.every;
  const byHoursOnly =
    opening?.hours_h !== undefined &&
    opening.months === undefined &&
    opening.days === undefined &&
    opening.cycles === undefined;
  if (byHoursOnly && scene.counter === "tsn" && now.hours_h !== undefined) {
    const state = dueState(
      { ...task, every: { hours_h: opening.hours_h }, first: undefined },
      { date: now.date, hours_h: 0 },
      [],
      now,
      addMonthsTo,
    );
    if (state.ok && (state.verdict === "ahead" || state.verdict === "due-soon"))
      return { verdict: state.verdict, governing: state.governing, measures: state.measures };
  }
  return { verdict: "never-done", governing: undefined, measures: [] };
}

/** Key: an engine's name. Tasks first, then bulletins, lives, deferrals; each kind in the order of the records. */
export const dueItems: Total<readonly DueItem[]> = {
  name: "due-items",
  compute(name: string, ask: Ask): readonly DueItem[] {
    const engine = ask.engine(name);
    if (!engine) return [];
    const scene = sceneOf(engine, ask);
    const done = doneByTask(scene);
    return [
      ...ask.tasksOf(engine.type).map((task) => taskItem(scene, task, done.get(task.name) ?? [])),
      ...bulletinItems(scene),
      ...lifeItems(scene),
      ...deferralItems(scene),
    ];
  },
};
