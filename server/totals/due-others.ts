/** Bulletins, lives of parts and deferred defects of an engine, as items that are due. */
import { dueState, lifeState, type MeasureDue, type UsePoint } from "../calc/due.ts";
import type { Placed } from "../checking/ask.ts";
import type { At, FitLine } from "../facts/types.ts";
import { type CivilDate, formatDate } from "../quantity/civil-date.ts";
import { amounts, type DoneAt, type DueItem, written } from "./due-item.ts";
import { addMonthsTo, cycleCounter, hours, places, pointOn, type Scene } from "./due-scene.ts";
import { amountOf, hoursOn } from "./engine-hours.ts";

/** Bulletins of the type: when to be embodied, or repeated. */
export function bulletinItems(scene: Scene): DueItem[] {
  const { ask, engine } = scene;
  const embodied = new Map<string, DoneAt>();
  const add = (name: string, date: CivilDate | undefined, ref: string, at: At): void => {
    const earlier = embodied.get(name);
    if (date !== undefined && date <= scene.today && (!earlier || date >= earlier.date))
      embodied.set(name, { date, hours_h: hours(hoursOn(scene.ledger, scene.counter, date)), ref, at });
  };
  for (const line of engine.embodied) add(line.bulletin, line.on, engine.ref, line.at);
  for (const scope of places(engine, ask))
    for (const { block, fact } of ask.facts(scope, "embodied"))
      add(fact.bulletin, fact.on ?? block.date, block.ref, fact.at);
  return ask.bulletinsOf(engine.type).map((bulletin): DueItem => {
    const last = embodied.get(bulletin.name);
    const item = {
      kind: "bulletin" as const,
      name: bulletin.name,
      title: bulletin.title,
      ref: bulletin.ref,
      at: 0,
      tolerance: "",
      last,
      since: undefined,
      reason: "",
      force: bulletin.force,
      interval: bulletin.repeat ? written([bulletin.repeat]) : "",
    };
    if (last && !bulletin.repeat) return { ...item, verdict: "done", governing: undefined, measures: [] };
    if (last && bulletin.repeat) {
      const state = dueState(
        { every: amounts([bulletin.repeat]), soon: scene.soon, anchor: "done" },
        last,
        [],
        pointOn(scene, scene.today, cycleCounter(scene.ledger, [bulletin.repeat])),
        addMonthsTo,
      );
      return state.ok
        ? { ...item, verdict: state.verdict, governing: state.governing, measures: state.measures }
        : { ...item, verdict: "unknown", governing: undefined, measures: [], reason: state.refused };
    }
    if (bulletin.by === undefined) return { ...item, verdict: "never-done", governing: undefined, measures: [] };
    const left = bulletin.by - scene.today;
    const verdict = left < 0 ? "overdue" : left <= scene.soon.days ? "due-soon" : "ahead";
    const governing: MeasureDue = { measure: "calendar", dueAt: bulletin.by, left, verdict };
    return { ...item, verdict, governing, measures: [governing] };
  });
}

/** Parts with a life that are still fitted: a later part at the same place, or a `remove` of the same serial, ends the count. */
export function lifeItems(scene: Scene): DueItem[] {
  const { ask, engine } = scene;
  const lives = new Map((ask.engineType(engine.type)?.lives ?? []).map((line) => [line.part, line.lives]));
  const fitted = new Map<string, { readonly fit: FitLine; readonly date: CivilDate; readonly ref: string }>();
  const keyOf = (part: string, serial: string, place: string): string =>
    serial === "" && place !== "" ? `at ${place}` : `${part} ${serial}`;
  const fitOne = (line: FitLine, date: CivilDate | undefined, ref: string): void => {
    if (date !== undefined && date <= scene.today)
      fitted.set(keyOf(line.part, line.serial, line.place?.text ?? ""), { fit: line, date, ref });
  };
  for (const line of engine.fits) fitOne(line, line.on, engine.ref);
  for (const scope of places(engine, ask)) {
    const events: Placed<{ readonly at: At; readonly go: () => void }>[] = [];
    for (const { block, fact } of ask.facts(scope, "fits"))
      events.push({ block, fact: { at: fact.at, go: () => fitOne(fact, fact.on ?? block.date, block.ref) } });
    for (const { block, fact } of ask.facts(scope, "removes"))
      events.push({
        block,
        fact: { at: fact.at, go: () => void fitted.delete(keyOf(fact.part, fact.serial, fact.place?.text ?? "")) },
      });
    events.sort(
      (a, b) => (scene.rankOf.get(a.block.ref) ?? 0) - (scene.rankOf.get(b.block.ref) ?? 0) || a.fact.at - b.fact.at,
    );
    for (const { fact } of events) fact.go();
  }
  return [...fitted.values()].flatMap(({ fit: line, date, ref }): DueItem[] => {
    const limit = line.life ? [line.life] : lives.get(line.part);
    if (!limit || limit.length === 0) return [];
    const atFit = hours(hoursOn(scene.ledger, scene.counter, date));
    const used = line.sinceNew ? (amountOf(line.sinceNew) ?? 0) / 3600 : line.used ? undefined : 0;
    const made: UsePoint = { date, hours_h: atFit === undefined || used === undefined ? undefined : atFit - used };
    const state = lifeState(amounts(limit), made, pointOn(scene, scene.today, ""), addMonthsTo, scene.soon);
    const item = {
      kind: "life" as const,
      name: line.serial === "" ? line.part : `${line.part} ${line.serial}`,
      title: line.place?.text ?? "",
      ref,
      at: line.at,
      interval: written(limit),
      tolerance: "",
      last: undefined,
      since: { what: "fitted" as const, date },
      force: "" as const,
    };
    if (!state.ok) return [{ ...item, verdict: "unknown", governing: undefined, measures: [], reason: state.refused }];
    // A life has no tolerance, so past it there is only one word.
    const verdict = state.verdict === "beyond-tolerance" ? "overdue" : state.verdict;
    return [{ ...item, verdict, governing: state.governing, measures: state.measures, reason: "" }];
  });
}

/** Deferred defects that nobody put right. */
export function deferralItems(scene: Scene): DueItem[] {
  const { ask, engine } = scene;
  const items: DueItem[] = [];
  for (const scope of places(engine, ask)) {
    const full = (ref: string): string => (ref.includes("/") ? ref : `${scope}/${ref}`);
    const rectified = new Set<string>();
    // A rectification may stand in a later job on the same engine, with the name of the job that found the defect.
    for (const other of places(engine, ask))
      for (const { fact } of ask.facts(other, "rectifies"))
        rectified.add(fact.defect.includes("/") ? fact.defect : `${other}/${fact.defect}`);
    for (const { block, fact } of ask.facts(scope, "defers")) {
      if (rectified.has(full(fact.defect)) || fact.on > scene.today) continue;
      const measures: MeasureDue[] = [];
      const add = (measure: MeasureDue["measure"], dueAt: number, now: number, soon: number): void => {
        const left = dueAt - now;
        measures.push({ measure, dueAt, left, verdict: left < 0 ? "overdue" : left <= soon ? "due-soon" : "ahead" });
      };
      if (fact.until !== undefined) add("calendar", fact.until, scene.today, scene.soon.days);
      const limit_s = fact.limit && fact.limit.unit.dimension === "time" ? amountOf(fact.limit) : undefined;
      const [then_s, now_s] = [
        hoursOn(scene.ledger, scene.counter, fact.on),
        hoursOn(scene.ledger, scene.counter, scene.today),
      ];
      if (limit_s !== undefined && then_s !== undefined && now_s !== undefined)
        add("hours", (then_s + limit_s) / 3600, now_s / 3600, scene.soon.hours_h);
      const governing =
        measures.find((one) => one.verdict === "overdue") ??
        measures.find((one) => one.verdict === "due-soon") ??
        measures[0];
      items.push({
        kind: "deferral",
        name: full(fact.defect),
        title: fact.reason,
        ref: block.ref,
        at: fact.at,
        verdict: governing?.verdict ?? "unknown",
        governing,
        measures,
        interval: [
          fact.until === undefined ? "" : `until ${formatDate(fact.until)}`,
          fact.limit ? written([fact.limit]) : "",
        ]
          .filter((text) => text !== "")
          .join(" or "),
        tolerance: "",
        last: undefined,
        since: { what: "deferred", date: fact.on },
        reason: governing ? "" : "The records do not count the hours that it was put off by.",
        force: "",
      });
    }
  }
  return items;
}
