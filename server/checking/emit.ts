/**
 * The keys under which the facts of a block can be asked for. A question names a key; a block that changes touches only the keys whose facts changed.
 */
import { scopeOf } from "../facts/refs.ts";
import type { Block, EngineBlock, FitLine, WorkBlock } from "../facts/types.ts";
import { batchKey, serialKey, type WorkHead, type WorkMember } from "./ask.ts";

/** Facts under a key of up to three parts; joined keys would be made and hashed for every block. */
export type Put = (family: string, first: string, second: string, values: readonly unknown[]) => void;

/** Lists of a block of work that are asked for by feature instead of as a whole as well. */
const MEMBERS: readonly WorkMember[] = [
  "amends",
  "air",
  "readings",
  "torques",
  "locked",
  "fits",
  "removes",
  "moves",
  "reworks",
  "defects",
  "rectifies",
  "defers",
  "concessions",
  "accepts",
  "refuses",
  "answers",
  "openCloses",
  "checks",
  "crackTests",
  "compressions",
  "done",
  "embodied",
  "oils",
  "samples",
  "fuels",
  "magnetos",
  "powers",
  "logs",
  "logFiles",
  "standing",
  "photos",
  "signs",
  "labour",
  "consumables",
  "receivedWith",
  "packed",
  "hours",
  "meters",
  "serials",
  "overhauled",
];

export function isWork(block: Block): block is WorkBlock {
  return block.kind === "entry" || block.kind === "run" || block.kind === "release" || block.kind === "dispatch";
}

export function headOf(block: WorkBlock): WorkHead {
  const { ref, kind, name, title, job, engine, date, time, step, by, second, atCounter, atHours } = block;
  return {
    ref,
    kind,
    name,
    title,
    job,
    engine,
    date,
    time,
    step,
    by,
    second,
    atCounter,
    atHours_h:
      atHours && atHours.unit.dimension === "time" ? (atHours.value * atHours.unit.factorNumber) / 3600 : undefined,
  };
}

/** The job to which findings of a block belong, or "". */
export function jobOf(block: Block): string {
  if (isWork(block)) return block.job;
  if (block.kind === "job") return block.name;
  return block.kind === "account" ? block.job : "";
}

function groups<F>(facts: readonly F[], by: (fact: F) => string): Map<string, F[]> {
  const found = new Map<string, F[]>();
  let lastKey: string | undefined;
  let last: F[] = [];
  for (const fact of facts) {
    const key = by(fact);
    if (key !== lastKey) {
      lastKey = key;
      const list = found.get(key);
      if (list) last = list;
      else {
        last = [];
        found.set(key, last);
      }
    }
    last.push(fact);
  }
  return found;
}

function emitFits(block: WorkBlock | EngineBlock, put: Put): void {
  const byKey = new Map<string, FitLine[]>();
  const add = (key: string, fact: FitLine) => {
    const list = byKey.get(key);
    if (list) list.push(fact);
    else byKey.set(key, [fact]);
  };
  for (const fit of block.fits) {
    if (fit.batch !== "") add(batchKey(fit.batch), fit);
    if (fit.serial !== "") add(serialKey(fit.part, fit.serial), fit);
  }
  const job = block.kind === "engine" ? "" : block.job;
  const engine = block.kind === "engine" ? block.name : block.engine;
  const date = block.kind === "engine" ? undefined : block.date;
  for (const [key, facts] of byKey) {
    put(
      "fitted",
      key,
      "",
      facts.map((fact) => ({ ref: block.ref, job, engine, date: date ?? fact.on, fact })),
    );
  }
}

/** The names that a block uses, so that one which nothing uses can be told. */
function emitUses(block: Block, put: Put): void {
  const seen = new Map<Block["kind"], Set<string>>();
  const use = (kind: Block["kind"], name: string | undefined) => {
    if (name === undefined || name === "") return;
    let names = seen.get(kind);
    if (!names) {
      names = new Set();
      seen.set(kind, names);
    }
    if (names.has(name)) return;
    names.add(name);
    put("used", kind, name, USED);
  };
  switch (block.kind) {
    case "stand":
      for (const channel of block.channels) use("instrument", channel.instrument);
      break;
    case "limits":
    case "run-in":
    case "task":
    case "bulletin":
    case "engine":
      use("engine-type", block.type);
      break;
    case "route":
      use("engine-type", block.type);
      for (const step of block.steps) {
        for (const need of step.needs) {
          if (need.kind === "run-in") use("run-in", need.type);
          else if (need.kind === "evidence") use("task", need.name);
        }
      }
      break;
    case "job":
      use("engine", block.engine);
      use("route", block.route);
      use("run-in", block.runIn);
      break;
    case "account":
      use("job", block.job);
      break;
    case "shop":
      for (const line of block.severities) use("person", line.by);
      break;
    case "entry":
    case "run":
    case "release":
    case "dispatch":
      use("job", block.job);
      use("engine", block.engine);
      use("stand", block.stand);
      if (block.kind !== "dispatch") use("person", block.by);
      use("person", block.second);
      use("run-in", block.runIn);
      for (const line of block.signs) use("person", line.person);
      for (const line of block.labour) use("person", line.person);
      for (const line of block.defers) use("person", line.by);
      for (const line of block.concessions) use("person", line.by);
      for (const line of block.accepts) use("person", line.by);
      for (const line of block.refuses) use("person", line.by);
      for (const line of block.checks) {
        use("person", line.by);
        use("instrument", line.instrument);
      }
      for (const line of block.done) use("task", line.task);
      for (const line of block.embodied) use("bulletin", line.bulletin);
      for (const line of block.compressions) use("instrument", line.instrument);
      for (const line of block.torques) use("instrument", line.instrument);
      {
        let instrument = "";
        let standard = "";
        let by = "";
        for (const reading of block.readings) {
          // Neighbouring readings mostly name the same: only a change is worth a look.
          if (reading.instrument !== instrument) {
            instrument = reading.instrument;
            use("instrument", instrument);
          }
          if (reading.standard !== standard) {
            standard = reading.standard;
            use("instrument", standard);
          }
          if (reading.by !== by) {
            by = reading.by;
            use("person", by);
          }
        }
      }
      break;
    default:
      break;
  }
}

const USED = [true] as const;

/** Puts every key of a block, each once. */
export function emit(block: Block, put: Put): void {
  if (block.kind === "preface" || block.kind === "unnamed") return;
  const name = isWork(block) ? block.ref : block.name;
  // Under the name without case, so that names which differ only in case meet.
  put("is", block.kind, name.toLowerCase(), [{ ref: block.ref, name }]);
  put("names", block.kind, "", [name]);
  emitUses(block, put);
  if (isWork(block)) {
    emitWork(block, put);
    return;
  }
  put("block", block.kind, block.kind === "shop" ? "" : name, [block]);
  switch (block.kind) {
    case "person":
    case "instrument":
    case "engine":
    case "job":
    case "alert":
      put("all", block.kind, "", [block]);
      if (block.kind === "engine") emitFits(block, put);
      if (block.kind === "job") put("jobs-of", block.engine, "", [block]);
      break;
    case "limits":
      put("revisions", block.type, "", [block]);
      break;
    case "task":
      put("tasks-of", block.type, "", [block]);
      break;
    case "bulletin":
      put("bulletins-of", block.type, "", [block]);
      break;
    case "account":
      put("accounts", block.job, "", [block]);
      break;
    default:
      break;
  }
}

function emitWork(block: WorkBlock, put: Put): void {
  const scope = scopeOf(block);
  put("work", scope, "", [headOf(block)]);
  put("block", "work", block.ref, [block]);
  for (const member of MEMBERS) {
    const facts = block[member] as readonly unknown[];
    if (facts.length > 0) put("facts", scope, member, facts);
  }
  if (block.readings.length > 0) {
    const byFeature = groups(block.readings, (reading) => reading.feature);
    for (const [feature, facts] of byFeature) put("readings", scope, feature, facts);
    put("features", scope, "", [...byFeature.keys()]);
  }
  if (block.torques.length > 0)
    for (const [feature, facts] of groups(block.torques, (torque) => torque.place.feature))
      put("torques", scope, feature, facts);
  if (block.fits.length > 0) emitFits(block, put);
}
