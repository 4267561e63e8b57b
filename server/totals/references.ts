/** Every name that a block uses and another block declares, and whether it is declared. */
import type { Ask, Total } from "../checking/ask.ts";
import type { At, Block, Reading, WorkBlock } from "../facts/types.ts";
import { nameWithin } from "./place-events.ts";

export interface Reference {
  readonly at: At;
  readonly role: string;
  readonly nth?: number;
  /** `Instrument`, `Engine type`, as a sentence begins with it. */
  readonly what: string;
  readonly name: string;
  readonly known: boolean;
  /** Names that there are, for "did you mean". */
  readonly candidates: () => readonly string[];
  /** A line that would declare it. */
  readonly where: string;
}

const WHAT: Partial<Record<Block["kind"], readonly [what: string, where: string]>> = {
  person: ["Person", 'person NAME "..."'],
  instrument: ["Instrument", 'instrument NAME "..."'],
  stand: ["Stand", 'stand NAME "..."'],
  "engine-type": ["Engine type", "engine-type NAME"],
  task: ["Task", "task NAME TYPE every 25 h"],
  bulletin: ["Bulletin", 'bulletin NAME TYPE "..."'],
  route: ["Route", "route NAME"],
  engine: ["Engine", "engine NAME TYPE"],
  job: ["Job", "job NAME engine ENGINE"],
  "run-in": ["Run-in schedule", "run-in TYPE"],
};

/** Key: scope. Short names of the entries, runs and defects, concessions included, that lines of the scope may refer to. */
export const namesInScope: Total<{
  readonly work: readonly string[];
  readonly defects: readonly string[];
  readonly concessions: readonly string[];
}> = {
  name: "names-in-scope",
  compute: (scope, ask) => ({
    work: ask.work(scope).map((head) => head.name),
    defects: [...new Set(ask.facts(scope, "defects").map(({ fact }) => fact.name))],
    concessions: [...new Set(ask.facts(scope, "concessions").map(({ fact }) => fact.name))],
  }),
};

class Collector {
  readonly found: Reference[] = [];
  readonly #ask: Ask;
  readonly #seen = new Set<string>();

  constructor(ask: Ask) {
    this.#ask = ask;
  }

  /** A name of a kind; each name is said once a block. */
  name(kind: Block["kind"], name: string, at: At, role: string, nth?: number): void {
    if (name === "") return;
    const key = `${kind}|${name}`;
    if (this.#seen.has(key)) return;
    this.#seen.add(key);
    const [what, where] = WHAT[kind] ?? [kind, kind];
    this.add(
      what,
      name,
      at,
      role,
      this.#ask.declared(kind, name).refs.length > 0,
      () => this.#ask.names(kind),
      where,
      nth,
    );
  }

  add(
    what: string,
    name: string,
    at: At,
    role: string,
    known: boolean,
    candidates: () => readonly string[],
    where: string,
    nth?: number,
  ): void {
    this.found.push({ at, role, what, name, known, candidates, where, ...(nth === undefined ? {} : { nth }) });
  }
}

/** Roles that people of the shop hold. */
const rolesHeld = (ask: Ask): readonly string[] => [
  ...new Set(ask.people().flatMap((person) => person.roles.map((held) => held.role))),
];

/**
 * The references of a block.
 * @param scope of a block of work: its job, or `engine:` and its engine
 */
export function referencesOf(block: Block, scope: string, ask: Ask): readonly Reference[] {
  const all = new Collector(ask);
  const role = (name: string, at: At, nth?: number): void => {
    const held = rolesHeld(ask);
    // Before anyone is declared a role is no slip but work to do.
    if (held.length > 0)
      all.add("Role", name, at, "roles", held.includes(name), () => held, "a role line of a person", nth);
  };
  switch (block.kind) {
    case "shop":
      for (const line of block.severities) all.name("person", line.by, line.at, "by");
      for (const line of block.authorities) for (const [nth, name] of line.roles.entries()) role(name, line.at, nth);
      break;
    case "person":
      for (const line of block.roles)
        for (const [nth, name] of line.types.entries()) all.name("engine-type", name, line.at, "types", nth);
      break;
    case "stand":
      for (const channel of block.channels) all.name("instrument", channel.instrument, channel.at, "instrument");
      break;
    case "limits":
    case "run-in":
    case "task":
    case "bulletin":
    case "engine":
      all.name("engine-type", block.type, 0, "type");
      if (block.kind === "engine") {
        for (const line of block.done) all.name("task", line.task, line.at, "task");
        for (const line of block.embodied) all.name("bulletin", line.bulletin, line.at, "bulletin");
      }
      break;
    case "route": {
      all.name("engine-type", block.type, 0, "type");
      const steps = block.steps.map((step) => step.name);
      for (const step of block.steps) {
        for (const [nth, name] of step.after.entries())
          all.add("Step", name, step.at, "after", steps.includes(name), () => steps, "a step line of the route", nth);
        for (const [nth, need] of step.needs.entries()) {
          if (need.kind === "run-in" && need.type !== "") {
            const known = ask.declared("run-in", need.type).refs.length > 0;
            all.add(
              "Run-in schedule",
              need.type,
              step.at,
              "need",
              known,
              () => ask.names("run-in"),
              "run-in TYPE",
              nth,
            );
          }
        }
      }
      break;
    }
    case "job": {
      all.name("engine", block.engine, 0, "engine");
      all.name("route", block.route, 0, "route");
      const type = ask.engine(block.engine)?.type ?? "";
      if (block.limits !== "" && type !== "") {
        const revisions = ask.revisions(type).map((one) => one.revision);
        all.add(
          `Limits of ${type}, revision`,
          block.limits,
          0,
          "limits",
          revisions.includes(block.limits),
          () => revisions,
          `limits ${type} revision ${block.limits} from DATE`,
        );
      }
      if (block.runIn !== "") runIn(all, block.runIn, type, ask);
      break;
    }
    case "account":
      all.name("job", block.job, 0, "job");
      break;
    case "entry":
    case "run":
    case "release":
    case "dispatch":
      workReferences(block, scope, all, ask);
      break;
    default:
      break;
  }
  return all.found;
}

/** A schedule is named by its type, or by a variant of the engine's own type. */
function runIn(all: Collector, name: string, type: string, ask: Ask): void {
  const known =
    ask.declared("run-in", name).refs.length > 0 || ask.declared("run-in", `${type}/${name}`).refs.length > 0;
  all.add("Run-in schedule", name, 0, "run-in", known, () => ask.names("run-in"), "run-in TYPE");
}

function workReferences(block: WorkBlock, scope: string, all: Collector, ask: Ask): void {
  all.name("job", block.job, 0, "job");
  all.name("engine", block.engine, 0, "engine");
  all.name("stand", block.stand, 0, "stand");
  // Who carried an engine away is no person of the shop.
  if (block.kind !== "dispatch") all.name("person", block.by, 0, "by");
  all.name("person", block.second, 0, "second");
  const job = block.job === "" ? undefined : ask.job(block.job);
  if (block.runIn !== "") runIn(all, block.runIn, ask.engine(job?.engine ?? "")?.type ?? "", ask);
  const route = job && job.route !== "" ? ask.route(job.route) : undefined;
  if (block.kind === "entry" && route && block.step !== "" && route.steps.length > 0 && block.step !== "review") {
    const steps = route.steps.map((step) => step.name);
    all.add(
      `Step of ${route.name}`,
      block.step,
      0,
      "step",
      steps.includes(block.step),
      () => steps,
      `a step line of route ${route.name}`,
    );
  }
  // Readings of a table share their names, and each name is said once.
  let last: Reading | undefined;
  for (const line of block.readings) {
    if (line.instrument !== last?.instrument) all.name("instrument", line.instrument, line.namedAt, "with");
    if (line.standard !== last?.standard) all.name("instrument", line.standard, line.namedAt, "standard");
    if (line.by !== last?.by) all.name("person", line.by, line.at, "by");
    last = line;
  }
  for (const line of block.torques) {
    all.name("instrument", line.instrument, line.namedAt, "with");
    all.name("person", line.by, line.at, "by");
  }
  for (const line of block.compressions) all.name("instrument", line.instrument, line.at, "with");
  for (const line of block.checks) {
    all.name("instrument", line.instrument, line.at, "with");
    all.name("person", line.by, line.at, "by");
  }
  for (const line of block.signs) all.name("person", line.person, line.at, "person");
  for (const line of block.labour) all.name("person", line.person, line.at, "person");
  for (const line of block.done) all.name("task", line.task, line.at, "task");
  for (const line of block.embodied) all.name("bulletin", line.bulletin, line.at, "bulletin");
  for (const lines of [block.defers, block.concessions, block.accepts, block.refuses])
    for (const line of lines) all.name("person", line.by, line.at, "by");

  const asks =
    block.amends.length +
    block.rectifies.length +
    block.defers.length +
    block.concessions.length +
    block.accepts.length +
    block.refuses.length +
    block.answers.length +
    block.except.length;
  if (asks === 0) return;
  const names = ask.total(namesInScope, scope);
  const refer = (
    what: string,
    reference: string,
    at: At,
    role: string,
    among: readonly string[],
    where: string,
    nth?: number,
  ): void => {
    const name = nameWithin(scope, reference);
    // What stands in another job is looked up there by its full name.
    const known = name === "" ? ask.workBlock(reference) !== undefined : among.includes(name);
    all.add(what, reference, at, role, known, () => among, where, nth);
  };
  const anything = [...names.work, ...names.defects];
  for (const line of block.amends) refer("Entry", line.ref, line.at, "ref", names.work, "an entry of this job");
  for (const line of block.rectifies)
    refer("Defect", line.defect, line.at, "defect", names.defects, 'defect NAME PLACE "..."');
  for (const line of block.defers)
    refer("Defect", line.defect, line.at, "defect", names.defects, 'defect NAME PLACE "..."');
  for (const line of block.concessions)
    refer("Entry or defect", line.of, line.at, "of", anything, "an entry or defect of this job");
  for (const line of block.accepts) acceptedBlock(line.ref, line.at, names, scope, all, ask);
  for (const line of block.refuses) refer("Entry", line.ref, line.at, "ref", names.work, "an entry of this job");
  for (const line of block.answers) refer("Entry", line.ref, line.at, "ref", anything, "an entry of this job");
  for (const [nth, name] of block.except.entries())
    refer("Defect", name, 0, "except", [...names.defects, ...names.concessions], 'defect NAME PLACE "..."', nth);
}

/** A finding may stand in any block: an entry, the job itself, an instrument, a task. */
function acceptedBlock(
  reference: string,
  at: At,
  names: { readonly work: readonly string[]; readonly defects: readonly string[] },
  scope: string,
  all: Collector,
  ask: Ask,
): void {
  const name = nameWithin(scope, reference);
  const among = [...names.work, ...names.defects];
  const kinds: readonly Block["kind"][] = [
    "job",
    "engine",
    "instrument",
    "task",
    "bulletin",
    "person",
    "stand",
    "route",
    "limits",
  ];
  const known =
    reference === scope ||
    (name !== "" && among.includes(name)) ||
    kinds.some((kind) => ask.declared(kind, reference.replace(`${kind}/`, "")).refs.length > 0) ||
    ask.workBlock(reference) !== undefined;
  all.add("Entry", reference, at, "ref", known, () => among, "an entry of this job");
}
