/**
 * Every defect of a job and what became of it: open, rectified, deferred, conceded.
 *
 * The latest line that speaks of a defect decides. A defect that left the shop deferred is put right in a later job of the same engine by its full name
 * (`rectify J26-014/D4 ...`). Whether whoever deferred or conceded may do so is the business of the rules; the state says what is written.
 */
import type { Ask, Total, WorkHead } from "../checking/ask.ts";
import type { At } from "../facts/types.ts";
import type { CivilDate } from "../quantity/civil-date.ts";
import type { Measure } from "../quantity/compare.ts";
import { nameWithin, orderOfWork } from "./place-events.ts";

export type DefectStanding = "open" | "rectified" | "deferred" | "conceded";

/** A line that speaks of a defect. */
export interface DefectChange {
  readonly standing: Exclude<DefectStanding, "open">;
  readonly ref: string;
  readonly at: At;
  readonly date: CivilDate | undefined;
  /** Position among the job's blocks of work; Infinity for a line in another job. */
  readonly order: number;
  /** Who deferred or conceded; `""` for a rectification. */
  readonly by: string;
  readonly reason: string;
  /** Of a deferral: the last day, and the hours from the day of deferral. */
  readonly until: CivilDate | undefined;
  readonly limit: Measure | undefined;
}

export interface DefectState {
  readonly name: string;
  /** Block and line of the finding of the defect. */
  readonly ref: string;
  readonly at: At;
  readonly date: CivilDate | undefined;
  readonly order: number;
  /** As written, `baffle[4]`. */
  readonly place: string;
  readonly about: string;
  readonly standing: DefectStanding;
  /** The line that decides; undefined while open. */
  readonly decided: DefectChange | undefined;
  /** All lines that speak of it, in order of time. */
  readonly changes: readonly DefectChange[];
}

/** The other places where a defect of this job may be spoken of: later jobs of the engine and its work in service. */
function otherScopes(scope: string, ask: Ask): readonly string[] {
  const engine = scope.startsWith("engine:") ? scope.slice("engine:".length) : (ask.job(scope)?.engine ?? "");
  if (engine === "") return [];
  return [...ask.jobsOf(engine).map((job) => job.name), `engine:${engine}`].filter((other) => other !== scope);
}

function changesIn(
  from: string,
  scope: string,
  order: ReadonlyMap<string, number>,
  ask: Ask,
): readonly (readonly [name: string, change: DefectChange])[] {
  const found: (readonly [string, DefectChange])[] = [];
  const add = (
    block: WorkHead,
    at: At,
    name: string,
    rest: Omit<DefectChange, "ref" | "at" | "date" | "order">,
  ): void => {
    const short = from !== scope && !name.includes("/") ? "" : nameWithin(scope, name);
    if (short !== "")
      found.push([
        short,
        { ref: block.ref, at, date: block.date, order: order.get(block.ref) ?? Number.POSITIVE_INFINITY, ...rest },
      ]);
  };
  for (const { block, fact } of ask.facts(from, "rectifies")) {
    add(block, fact.at, fact.defect, {
      standing: "rectified",
      by: "",
      reason: fact.about,
      until: undefined,
      limit: undefined,
    });
  }
  for (const { block, fact } of ask.facts(from, "defers")) {
    add(block, fact.at, fact.defect, {
      standing: "deferred",
      by: fact.by,
      reason: fact.reason,
      until: fact.until,
      limit: fact.limit,
    });
  }
  for (const { block, fact } of ask.facts(from, "concessions")) {
    add(block, fact.at, fact.of, {
      standing: "conceded",
      by: fact.by,
      reason: fact.reason,
      until: undefined,
      limit: undefined,
    });
  }
  return found;
}

/** Key: a job's name, or `engine:NAME`. A name given twice is answered with its first finding. */
export const defectStates: Total<readonly DefectState[]> = {
  name: "defect-states",
  compute(scope: string, ask: Ask): readonly DefectState[] {
    const defects = ask.facts(scope, "defects");
    if (defects.length === 0) return [];
    const order = orderOfWork(scope, ask);
    const changes = new Map<string, DefectChange[]>();
    for (const from of [scope, ...otherScopes(scope, ask)]) {
      for (const [name, change] of changesIn(from, scope, order, ask)) {
        const list = changes.get(name);
        if (list) list.push(change);
        else changes.set(name, [change]);
      }
    }
    const LAST = Number.POSITIVE_INFINITY;
    for (const list of changes.values()) {
      list.sort((a, b) => {
        // Within the job the order of its blocks decides; a line in another job takes its place by date.
        if (a.order !== LAST && b.order !== LAST) return a.order - b.order || a.at - b.at;
        const gap = (a.date ?? LAST) - (b.date ?? LAST);
        return Number.isNaN(gap) || gap === 0 ? (a.order === b.order ? a.at - b.at : a.order < b.order ? -1 : 1) : gap;
      });
    }
    const seen = new Set<string>();
    return defects.flatMap(({ block, fact }): DefectState[] => {
      if (seen.has(fact.name)) return [];
      seen.add(fact.name);
      const own = changes.get(fact.name) ?? [];
      const decided = own.at(-1);
      return [
        {
          name: fact.name,
          ref: block.ref,
          at: fact.at,
          date: block.date,
          order: order.get(block.ref) ?? 0,
          place: fact.place.text,
          about: fact.about,
          standing: decided?.standing ?? "open",
          decided,
          changes: own,
        },
      ];
    });
  },
};

/** The line that decided how a defect stood before a block of work of its job; undefined while it was open. */
export function decidedBefore(defect: DefectState, order: number): DefectChange | undefined {
  return defect.changes.findLast((change) => change.order < order);
}
