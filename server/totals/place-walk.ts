/**
 * The walk through the readings of one feature and what happened to its parts, in order. What supersedes a reading is said at the head of
 * `place-history.ts`; this file does it.
 */
import { covers, pathsOf } from "../facts/place.ts";
import type { Measure } from "../quantity/compare.ts";
import { nameWithin, type PlaceEvent } from "./place-events.ts";
import type { Cause, HistoryReading } from "./place-history.ts";
import { disagree } from "./reading-verdict.ts";

/** What is known of the part at a place: the size that it was reworked to, and whether it was fitted new. */
interface PartState {
  readonly size: Measure | undefined;
  readonly isNew: boolean;
}

/** A reading while the walk goes on. */
export type Draft = { -readonly [K in keyof HistoryReading]: HistoryReading[K] };

/** Whether a part's feature is the reading's own or holds it. */
const holds = (part: string, feature: string): boolean => feature === part || feature.startsWith(`${part}.`);
const within = (path: string, outer: string): boolean => outer === "" || path === outer || path.startsWith(`${outer}/`);

export class PlaceWalk {
  readonly drafts: Draft[];
  readonly #feature: string;
  readonly #scope: string;
  /** Readings that speak for a place, by path and state. */
  #live = new Map<string, Draft[]>();
  #todo = new Map<string, Draft[]>();
  readonly #parts = new Map<string, PartState>();
  readonly #defects = new Map<string, { feature: string; paths: string[] }>();
  readonly #judge: (draft: Draft) => void;
  readonly #uncertainty: (draft: Draft) => number | undefined;

  constructor(
    scope: string,
    feature: string,
    drafts: Draft[],
    judge: (draft: Draft) => void,
    uncertainty: (draft: Draft) => number | undefined,
  ) {
    this.#scope = scope;
    this.#feature = feature;
    this.drafts = drafts;
    this.#judge = judge;
    this.#uncertainty = uncertainty;
  }

  static key(draft: Draft): string {
    const path = draft.pathNow ?? "";
    return draft.state === "" ? path : `${path}|${draft.state}`;
  }

  take(draft: Draft): void {
    if (draft.result === "bad") return;
    if (this.#parts.size > 0) {
      const part = this.#partAt(draft.path);
      draft.size ??= part?.size;
      draft.onNewPart = part?.isNew ?? false;
    }
    const key = PlaceWalk.key(draft);
    if (draft.result === "todo") {
      this.#add(this.#todo, key, draft);
      return;
    }
    if (this.#todo.size > 0) {
      for (const open of this.#todo.get(key) ?? []) this.#settle(open, "repeated", draft.ref);
      this.#todo.delete(key);
    }
    if (draft.result === "none") return;
    this.#judge(draft);
    const before = this.#live.get(key);
    if (!before) {
      this.#live.set(key, [draft]);
      return;
    }
    const kept = before.filter((earlier) => !this.#follows(draft, earlier));
    kept.push(draft);
    this.#live.set(key, kept);
  }

  /** Judges an earlier reading in the light of a later one of its place. @returns whether the earlier one is superseded */
  #follows(later: Draft, earlier: Draft): boolean {
    const { ref, at, cell, measure, date, instrument } = earlier;
    const apart =
      earlier.result === "value" &&
      later.result === "value" &&
      measure !== undefined &&
      later.measure !== undefined &&
      disagree(measure, later.measure, this.#uncertainty(earlier), this.#uncertainty(later));
    // What was conceded stays conceded and gives way; that the two are far apart with no work between is said all the same.
    if (earlier.cause === "conceded") {
      if (apart && earlier.awaits === "") later.contradicts ??= { ref, at, cell, measure, date, instrument };
      return true;
    }
    const bothOut = earlier.verdict === "out" && later.verdict === "out";
    if (earlier.awaits !== "") return !bothOut && this.#settle(earlier, earlier.awaits, later.ref);
    if (earlier.suspect && !later.suspect) return this.#settle(earlier, "retaken", later.ref);
    const flips = (earlier.verdict === "out") !== (later.verdict === "out");
    if (flips || apart) {
      earlier.status = "contradicted";
      later.contradicts ??= { ref, at, cell, measure, date, instrument };
      return false;
    }
    return !bothOut && this.#settle(earlier, "repeated", later.ref);
  }

  #settle(draft: Draft, cause: Cause, causeRef: string): true {
    draft.status = "superseded";
    draft.cause = cause;
    draft.causeRef = causeRef;
    return true;
  }

  #add(into: Map<string, Draft[]>, key: string, draft: Draft): void {
    const list = into.get(key);
    if (list) list.push(draft);
    else into.set(key, [draft]);
  }

  #partAt(path: string): PartState | undefined {
    for (let prefix = path; ; prefix = prefix.slice(0, prefix.lastIndexOf("/"))) {
      const part = this.#parts.get(prefix);
      if (part) return part;
      if (!prefix.includes("/")) break;
    }
    return this.#parts.get("");
  }

  happen(event: PlaceEvent): void {
    switch (event.kind) {
      case "move":
        this.#move(event);
        break;
      case "replaced":
        if (!holds(event.place.feature, this.#feature)) break;
        for (const path of pathsOf(event.place)) {
          for (const key of [...this.#parts.keys()]) if (within(key, path)) this.#parts.delete(key);
          this.#parts.set(path, { size: undefined, isNew: event.isNew });
        }
        this.#mark((draft) => covers(event.place, draft.pathNow ?? ""), "replaced");
        break;
      case "reworked":
        if (!holds(event.place.feature, this.#feature)) break;
        if (event.size !== undefined && event.place.feature === this.#feature)
          for (const path of pathsOf(event.place)) this.#parts.set(path, { size: event.size, isNew: false });
        this.#mark((draft) => covers(event.place, draft.pathNow ?? ""), "reworked");
        break;
      case "defect":
        if (holds(event.place.feature, this.#feature))
          this.#defects.set(event.name, { feature: event.place.feature, paths: [...pathsOf(event.place)] });
        break;
      case "rectified": {
        const defect = this.#defects.get(event.name);
        if (defect) this.#mark((draft) => this.#isAt(defect, draft), "rectified");
        break;
      }
      case "conceded":
        this.#concede(event);
        break;
    }
  }

  /** The reading lies within the defect's place, or the defect at a finer place of the same reading. */
  #isAt(defect: { feature: string; paths: readonly string[] }, draft: Draft): boolean {
    const path = draft.pathNow ?? "";
    return defect.paths.some((one) => within(path, one) || (defect.feature === this.#feature && within(one, path)));
  }

  #mark(applies: (draft: Draft) => boolean, work: "replaced" | "reworked" | "rectified"): void {
    for (const list of this.#live.values())
      for (const draft of list) if (draft.awaits === "" && applies(draft)) draft.awaits = work;
  }

  #concede(event: PlaceEvent & { kind: "conceded" }): void {
    const name = nameWithin(this.#scope, event.line.of);
    const defect = this.#defects.get(name);
    const { place } = event.line;
    if (place && !holds(place.feature, this.#feature)) return;
    for (const list of this.#live.values()) {
      for (const draft of list) {
        const isOf = defect ? this.#isAt(defect, draft) : nameWithin(this.#scope, draft.ref) === name;
        // A concession names the place as the entry that it concedes wrote it.
        if (isOf && (!place || covers(place, defect ? (draft.pathNow ?? "") : draft.path)))
          this.#settle(draft, "conceded", event.block.ref);
      }
    }
  }

  /** Marks what still speaks for its place. */
  finish(): void {
    for (const list of this.#live.values()) for (const draft of list) draft.speaks = true;
  }

  #move(event: PlaceEvent & { kind: "move" }): void {
    const pairs: (readonly [from: string, to: string | undefined])[] = [];
    for (const { from, to } of event.moves) {
      if (!holds(from.feature, this.#feature) && !holds(to.feature, this.#feature)) continue;
      const sources = pathsOf(from);
      const targets = pathsOf(to);
      if (from.feature === to.feature) {
        if (sources.length === targets.length)
          for (const [i, source] of sources.entries()) pairs.push([source, targets[i]]);
      } else if (holds(from.feature, this.#feature)) for (const source of sources) pairs.push([source, undefined]);
    }
    if (pairs.length === 0) return;
    const goes = (path: string): string | undefined | false => {
      for (const [from, to] of pairs)
        if (within(path, from)) return to === undefined ? undefined : to + path.slice(from.length);
      return false;
    };
    const arrived = new Map<string, Draft[]>();
    const stayed = new Map<string, Draft[]>();
    for (const list of this.#live.values()) {
      for (const draft of list) {
        const next = goes(draft.pathNow ?? "");
        if (next === false) this.#add(stayed, PlaceWalk.key(draft), draft);
        else {
          draft.pathNow = next;
          if (next !== undefined) this.#add(arrived, PlaceWalk.key(draft), draft);
        }
      }
    }
    for (const list of stayed.values()) {
      for (const draft of list)
        if (draft.awaits === "" && pairs.some(([, to]) => to !== undefined && within(draft.pathNow ?? "", to)))
          draft.awaits = "replaced";
    }
    for (const [key, list] of arrived) {
      const last = list.at(-1);
      const displaced = (stayed.get(key) ?? []).filter(
        (draft) =>
          !(last && !(draft.verdict === "out" && last.verdict === "out") && this.#settle(draft, "replaced", last.ref)),
      );
      stayed.set(key, [...displaced, ...list]);
    }
    this.#live = stayed;
    const parts = [...this.#parts];
    this.#parts.clear();
    for (const [path, part] of parts) {
      const next = goes(path);
      if (next === false && !this.#parts.has(path)) this.#parts.set(path, part);
      else if (typeof next === "string") this.#parts.set(next, part);
    }
    for (const [, to] of pairs)
      if (to !== undefined && !this.#parts.has(to)) this.#parts.set(to, { size: undefined, isNew: false });
    for (const defect of this.#defects.values()) {
      const moved = defect.paths.map(goes);
      defect.paths = defect.paths.flatMap((path, i) =>
        moved[i] === false ? [path] : moved[i] === undefined ? [] : [moved[i]],
      );
    }
  }
}
