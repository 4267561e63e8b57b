/**
 * What happened to parts in the order in which it happened: moves, changes of part, rework, defects and their cure, concessions.
 *
 * Order is date, time, order in the file, and within a block the line. Moves that stand on neighbouring lines are made together, so that two
 * pistons can change places: `move piston[3] to piston[5]` and, below it, `move piston[5] to piston[3]`.
 */
import type { Ask, Total, WorkHead } from "../checking/ask.ts";
import type { PlaceSet } from "../facts/place.ts";
import type { ConcessionLine, MoveLine } from "../facts/types.ts";
import type { Measure } from "../quantity/compare.ts";

export type PlaceEvent = { readonly block: WorkHead; readonly order: number; readonly at: number } & (
  | { readonly kind: "move"; readonly moves: readonly MoveLine[] }
  | {
      readonly kind: "replaced";
      readonly place: PlaceSet /** A part that was new went there. */;
      readonly isNew: boolean;
    }
  | { readonly kind: "reworked"; readonly place: PlaceSet; readonly size: Measure | undefined }
  | { readonly kind: "defect"; readonly place: PlaceSet; readonly name: string }
  | { readonly kind: "rectified"; readonly name: string }
  | { readonly kind: "conceded"; readonly line: ConcessionLine }
);

/** The short name at the end of a reference to something of this scope; `""` where the reference is into another job. */
export function nameWithin(scope: string, reference: string): string {
  const slash = reference.lastIndexOf("/");
  if (slash < 0) return reference;
  const owner = reference.slice(0, slash);
  return owner === scope || `engine:${owner}` === scope ? reference.slice(slash + 1) : "";
}

/** Positions are the same as long as the answer is: every feature of a job asks for them. */
const positions = new WeakMap<readonly WorkHead[], ReadonlyMap<string, number>>();

/** Position of each block of work of a scope, by `ref`. */
export function orderOfWork(scope: string, ask: Ask): ReadonlyMap<string, number> {
  const heads = ask.work(scope);
  let order = positions.get(heads);
  if (!order) {
    order = new Map(heads.map((head, position) => [head.ref, position]));
    positions.set(heads, order);
  }
  return order;
}

/** Key: scope. All events of a scope, in order. */
export const placeEvents: Total<readonly PlaceEvent[]> = {
  name: "place-events",
  compute: (scope: string, ask: Ask) => eventsOf(scope, ask, orderOfWork(scope, ask)),
};

interface EventsByPart {
  /** By the feature that an event names. */
  readonly parts: ReadonlyMap<string, readonly PlaceEvent[]>;
  /** Events that name no feature, or may be about any reading. */
  readonly others: readonly PlaceEvent[];
}

const byPart = new WeakMap<readonly PlaceEvent[], EventsByPart>();

function groupedByPart(events: readonly PlaceEvent[]): EventsByPart {
  const parts = new Map<string, PlaceEvent[]>();
  const others: PlaceEvent[] = [];
  const put = (feature: string, event: PlaceEvent): void => {
    const list = parts.get(feature);
    if (!list) parts.set(feature, [event]);
    else if (list.at(-1) !== event) list.push(event);
  };
  for (const event of events) {
    if (event.kind === "move") {
      for (const { from, to } of event.moves) {
        put(from.feature, event);
        put(to.feature, event);
      }
    } else if (event.kind === "rectified" || event.kind === "conceded") others.push(event);
    else put(event.place.feature, event);
  }
  return { parts, others };
}

/**
 * The events that can touch readings of a feature: those at it or at a part that holds it, cures of defects and concessions.
 * A cure is left out where no defect is, since it is of one of them. In order.
 */
export function eventsAbout(events: readonly PlaceEvent[], feature: string): readonly PlaceEvent[] {
  if (events.length === 0) return events;
  let grouped = byPart.get(events);
  if (!grouped) {
    grouped = groupedByPart(events);
    byPart.set(events, grouped);
  }
  const found = new Set<PlaceEvent>();
  for (let part = feature; part !== ""; part = part.slice(0, Math.max(0, part.lastIndexOf("."))))
    for (const event of grouped.parts.get(part) ?? []) found.add(event);
  let hasDefect = false;
  for (const event of found) if (event.kind === "defect") hasDefect = true;
  for (const event of grouped.others) if (hasDefect || event.kind === "conceded") found.add(event);
  if (found.size === 0) return NO_EVENTS;
  return found.size === events.length ? events : events.filter((event) => found.has(event));
}

const NO_EVENTS: readonly PlaceEvent[] = [];

function eventsOf(scope: string, ask: Ask, order: ReadonlyMap<string, number>): readonly PlaceEvent[] {
  const events: PlaceEvent[] = [];
  const where = (block: WorkHead, at: number) => ({ block, order: order.get(block.ref) ?? 0, at });
  let lastMove: { ref: string; at: number; moves: MoveLine[] } | undefined;
  for (const { block, fact } of ask.facts(scope, "moves")) {
    if (lastMove && lastMove.ref === block.ref && lastMove.at + 1 === fact.at) {
      lastMove.moves.push(fact);
      lastMove.at = fact.at;
    } else {
      lastMove = { ref: block.ref, at: fact.at, moves: [fact] };
      events.push({ ...where(block, fact.at), kind: "move", moves: lastMove.moves });
    }
  }
  for (const { block, fact } of ask.facts(scope, "fits")) {
    if (fact.place)
      events.push({
        ...where(block, fact.at),
        kind: "replaced",
        place: fact.place,
        isNew: !fact.used && fact.sinceNew === undefined,
      });
  }
  for (const { block, fact } of ask.facts(scope, "removes")) {
    if (fact.place) events.push({ ...where(block, fact.at), kind: "replaced", place: fact.place, isNew: false });
  }
  for (const { block, fact } of ask.facts(scope, "reworks")) {
    events.push({ ...where(block, fact.at), kind: "reworked", place: fact.place, size: fact.size });
  }
  for (const { block, fact } of ask.facts(scope, "defects")) {
    events.push({ ...where(block, fact.at), kind: "defect", place: fact.place, name: fact.name });
  }
  for (const { block, fact } of ask.facts(scope, "rectifies")) {
    events.push({ ...where(block, fact.at), kind: "rectified", name: nameWithin(scope, fact.defect) });
  }
  for (const { block, fact } of ask.facts(scope, "concessions")) {
    if (mayConcede(fact, ask)) events.push({ ...where(block, fact.at), kind: "conceded", line: fact });
  }
  return events.sort((a, b) => a.order - b.order || a.at - b.at);
}

/** Whether whoever signed a concession holds a role that may, on that day. Where the shop names no roles, a certifier may. */
export function mayConcede(line: ConcessionLine, ask: Ask): boolean {
  const person = ask.person(line.by);
  if (!person) return false;
  const named = ask
    .shop()
    .authorities.filter((one) => one.act === "concession")
    .flatMap((one) => one.roles);
  const roles = named.length > 0 ? named : ["certifier"];
  return person.roles.some(
    (held) => roles.includes(held.role) && held.from <= line.on && (held.until === undefined || line.on <= held.until),
  );
}
