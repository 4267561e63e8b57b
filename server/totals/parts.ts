/**
 * Which parts are in an engine, where each came from and where it is: fittings, removals and moves in order, over the engine's own lines, its jobs and
 * its work in service.
 *
 * A removal is matched by serial, else by place, else by part number from the earliest fitting. A part fitted where another sits takes its place; where
 * the one that sat there has a serial number and nobody took it out, that is kept as a conflict.
 */
import type { Ask, Total } from "../checking/ask.ts";
import { covers, pathsOf, placeText } from "../facts/place.ts";
import type { At, FitLine, MoveLine, RemoveLine } from "../facts/types.ts";
import type { CivilDate } from "../quantity/civil-date.ts";
import type { Measure } from "../quantity/compare.ts";
import { engineWork } from "./engine-hours.ts";

export interface PartEnd {
  readonly kind: "removed" | "scrapped" | "displaced" | "fitted-again";
  readonly ref: string;
  readonly at: At;
  readonly date: CivilDate | undefined;
}

export interface PartItem {
  readonly part: string;
  readonly serial: string;
  readonly batch: string;
  readonly source: string;
  readonly used: boolean;
  readonly life: Measure | undefined;
  readonly sinceNew: Measure | undefined;
  /** The fitting: block, line, day (of the block, or the line's own `on`). */
  readonly ref: string;
  readonly at: At;
  readonly date: CivilDate | undefined;
  /** How many are still there. */
  readonly quantity: number;
  /** Where they are now, `piston[5]`; empty where no place is stated. */
  readonly places: readonly string[];
  /** How the last of them left; undefined while any is in the engine. */
  readonly left: PartEnd | undefined;
}

/** A part fitted at a place where another serial number sits that was never removed. */
export interface PlaceConflict {
  readonly ref: string;
  readonly at: At;
  readonly place: string;
  readonly sitting: {
    readonly part: string;
    readonly serial: string;
    readonly ref: string;
    readonly at: At;
    readonly date: CivilDate | undefined;
  };
}

export interface PartsFitted {
  readonly engine: string;
  readonly items: readonly PartItem[];
  readonly conflicts: readonly PlaceConflict[];
}

interface Event {
  readonly date: number;
  readonly order: number;
  readonly at: At;
  readonly ref: string;
  readonly day: CivilDate | undefined;
  readonly fit?: FitLine;
  readonly remove?: RemoveLine;
  readonly moves?: readonly MoveLine[];
}

interface Draft extends Omit<PartItem, "places" | "quantity" | "left"> {
  quantity: number;
  feature: string;
  paths: string[];
  left: PartEnd | undefined;
}

function eventsOf(engine: string, ask: Ask): Event[] {
  const order = new Map(engineWork(engine, ask).map((head, position) => [head.ref, position]));
  const events: Event[] = [];
  const block = ask.engine(engine);
  for (const fit of block?.fits ?? []) {
    events.push({
      date: fit.on ?? Number.NEGATIVE_INFINITY,
      order: -1,
      at: fit.at,
      ref: block?.ref ?? "",
      day: fit.on,
      fit,
    });
  }
  for (const scope of [...ask.jobsOf(engine).map((job) => job.name), `engine:${engine}`]) {
    const where = (head: { readonly ref: string; readonly date: CivilDate | undefined }, at: At) => ({
      date: head.date ?? Number.POSITIVE_INFINITY,
      order: order.get(head.ref) ?? 0,
      at,
      ref: head.ref,
      day: head.date,
    });
    for (const one of ask.facts(scope, "fits")) events.push({ ...where(one.block, one.fact.at), fit: one.fact });
    for (const one of ask.facts(scope, "removes")) events.push({ ...where(one.block, one.fact.at), remove: one.fact });
    let last: { ref: string; at: number; moves: MoveLine[] } | undefined;
    for (const { block: head, fact } of ask.facts(scope, "moves")) {
      // Moves on neighbouring lines are made together, so that two parts can change places.
      if (last && last.ref === head.ref && last.at + 1 === fact.at) {
        last.moves.push(fact);
        last.at = fact.at;
      } else {
        last = { ref: head.ref, at: fact.at, moves: [fact] };
        events.push({ ...where(head, fact.at), moves: last.moves });
      }
    }
  }
  return events.sort((a, b) => (a.date === b.date ? a.order - b.order || a.at - b.at : a.date < b.date ? -1 : 1));
}

class Inventory {
  readonly items: Draft[] = [];
  readonly conflicts: PlaceConflict[] = [];
  /** Who sits at `feature[path]`. */
  readonly #sitting = new Map<string, Draft>();
  /** The last fitting of a part with a serial number. */
  readonly #bySerial = new Map<string, Draft>();

  #present(line: { readonly part: string; readonly serial: string }): Draft | undefined {
    const item = line.serial === "" ? undefined : this.#bySerial.get(`${line.part}|${line.serial}`);
    return item?.left === undefined ? item : undefined;
  }

  fit(event: Event, line: FitLine): void {
    const before = this.#present(line);
    if (before) this.#leave(before, "fitted-again", event);
    const { place } = line;
    const item: Draft = {
      part: line.part,
      serial: line.serial,
      batch: line.batch,
      source: line.source,
      used: line.used,
      life: line.life,
      sinceNew: line.sinceNew,
      ref: event.ref,
      at: event.at,
      date: event.day,
      quantity: line.quantity,
      feature: place?.feature ?? "",
      paths: place ? [...pathsOf(place)] : [],
      left: undefined,
    };
    this.items.push(item);
    if (line.serial !== "") this.#bySerial.set(`${line.part}|${line.serial}`, item);
    for (const path of item.paths) {
      const key = placeText(item.feature, path);
      const sitting = this.#sitting.get(key);
      if (sitting) {
        if (sitting.serial !== "" && (sitting.serial !== line.serial || sitting.part !== line.part)) {
          const { part, serial, ref, at, date } = sitting;
          this.conflicts.push({ ref: event.ref, at: event.at, place: key, sitting: { part, serial, ref, at, date } });
        }
        this.#takeFrom(sitting, [path], "displaced", event);
      }
      this.#sitting.set(key, item);
    }
  }

  remove(event: Event, line: RemoveLine): void {
    const kind = line.scrapped ? "scrapped" : "removed";
    const match = this.#present(line);
    if (match) {
      this.#leave(match, kind, event);
      return;
    }
    const present = this.items.filter((item) => item.left === undefined);
    const { place } = line;
    if (place) {
      for (const item of present) {
        if (item.feature !== place.feature || (line.serial !== "" && item.serial !== "" && item.part === line.part))
          continue;
        const gone = item.paths.filter((path) => covers(place, path));
        if (gone.length > 0) this.#takeFrom(item, gone, kind, event);
      }
      return;
    }
    let count = line.quantity;
    for (const item of present) {
      if (count <= 0) break;
      if (item.part !== line.part || (line.serial !== "" && item.serial !== "")) continue;
      const taken = Math.min(count, item.quantity);
      count -= taken;
      item.quantity -= taken;
      if (item.quantity <= 0) this.#leave(item, kind, event);
    }
  }

  move(lines: readonly MoveLine[]): void {
    const arrivals: (() => void)[] = [];
    for (const { from, to } of lines) {
      const targets = pathsOf(to);
      for (const [i, source] of pathsOf(from).entries()) {
        const target = targets[i];
        const item = this.#sitting.get(placeText(from.feature, source));
        if (target === undefined || !item) continue;
        this.#sitting.delete(placeText(from.feature, source));
        arrivals.push(() => {
          if (item.feature !== to.feature && item.paths.length > 1) return;
          item.paths = item.paths.map((path) => (path === source ? target : path));
          item.feature = to.feature;
          this.#sitting.set(placeText(to.feature, target), item);
        });
      }
    }
    for (const arrive of arrivals) arrive();
  }

  #takeFrom(item: Draft, paths: readonly string[], kind: PartEnd["kind"], event: Event): void {
    for (const path of paths) this.#sitting.delete(placeText(item.feature, path));
    item.paths = item.paths.filter((path) => !paths.includes(path));
    item.quantity = Math.max(0, item.quantity - paths.length);
    if (item.paths.length === 0) this.#leave(item, kind, event);
  }

  #leave(item: Draft, kind: PartEnd["kind"], event: Event): void {
    for (const path of item.paths) {
      const key = placeText(item.feature, path);
      if (this.#sitting.get(key) === item) this.#sitting.delete(key);
    }
    item.paths = [];
    item.quantity = 0;
    item.left = { kind, ref: event.ref, at: event.at, date: event.day };
  }
}

/** Key: an engine's name. Items in order of fitting, those that left included. */
export const partsFitted: Total<PartsFitted> = {
  name: "parts-fitted",
  compute(engine: string, ask: Ask): PartsFitted {
    const inventory = new Inventory();
    for (const event of eventsOf(engine, ask)) {
      if (event.fit) inventory.fit(event, event.fit);
      else if (event.remove) inventory.remove(event, event.remove);
      else if (event.moves) inventory.move(event.moves);
    }
    return {
      engine,
      items: inventory.items.map(({ feature, paths, ...item }) => ({
        ...item,
        places: paths.map((path) => placeText(feature, path)),
      })),
      conflicts: inventory.conflicts,
    };
  },
};

/** The item that a `fit` line made. */
export function itemOf(parts: PartsFitted, ref: string, at: At): PartItem | undefined {
  return parts.items.find((item) => item.ref === ref && item.at === at);
}

/** The engine of a block of work: its own for work in service, else its job's. */
export function engineOf(block: { readonly job: string; readonly engine: string }, ask: Ask): string {
  return block.job === "" ? block.engine : (ask.job(block.job)?.engine ?? "");
}

/** Every fitting in the shop of a part with a serial number, with the engine of each. */
export function fittingsOf(
  part: string,
  serial: string,
  ask: Ask,
): readonly {
  readonly engine: string;
  readonly ref: string;
  readonly date: CivilDate | undefined;
  readonly fact: FitLine;
}[] {
  // The key is spelled out here because a total asks questions and takes no code from the room that answers them.
  return ask.fitted(`serial ${part} ${serial}`).map(({ ref, job, engine, date, fact }) => ({
    engine: engineOf({ job, engine }, ask),
    ref,
    date: fact.on ?? date,
    fact,
  }));
}
