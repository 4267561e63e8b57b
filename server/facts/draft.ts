/** Blocks as they are being read: the same shapes as in `types.ts`, open for writing. */
import type * as facts from "./types.ts";

export type Mutable<T> = { -readonly [K in keyof T]: T[K] extends readonly (infer F)[] ? F[] : T[K] };

/** Shared by every list that stays empty, since most of a block's lists do. Never written to. */
export const NONE: never[] = [];

/** Adds to a list of a draft, giving it a list of its own at the first fact. */
export function push<D, K extends keyof D>(
  draft: D,
  member: K,
  fact: D[K] extends readonly (infer F)[] ? F : never,
): void {
  const list = draft[member] as unknown as unknown[];
  if (list === NONE) (draft[member] as unknown) = [fact];
  else list.push(fact);
}

function base<K extends facts.Block["kind"]>(kind: K): Mutable<Omit<facts.BlockBase, "kind">> & { kind: K } {
  return { kind, name: "", ref: "", title: "", headerBroken: false, unread: NONE, problems: NONE };
}

export function emptyShop(): Mutable<facts.ShopBlock> {
  return {
    ...base("shop"),
    language: undefined,
    decision: "guarded",
    money: "",
    standTime: "counts",
    severities: NONE,
    authorities: NONE,
    notices: NONE,
    practice: "",
  };
}

export function emptyWork(kind: facts.WorkBlock["kind"]): Mutable<facts.WorkBlock> {
  return {
    ...base(kind),
    job: "",
    engine: "",
    date: undefined,
    time: undefined,
    step: "",
    atCounter: "",
    atHours: undefined,
    stand: "",
    by: "",
    second: "",
    runIn: "",
    statement: "",
    except: NONE,
    to: "",
    crate: "",
    amends: NONE,
    air: NONE,
    readings: NONE,
    torques: NONE,
    locked: NONE,
    fits: NONE,
    removes: NONE,
    moves: NONE,
    reworks: NONE,
    defects: NONE,
    rectifies: NONE,
    defers: NONE,
    concessions: NONE,
    accepts: NONE,
    refuses: NONE,
    answers: NONE,
    openCloses: NONE,
    checks: NONE,
    crackTests: NONE,
    compressions: NONE,
    done: NONE,
    embodied: NONE,
    oils: NONE,
    samples: NONE,
    fuels: NONE,
    magnetos: NONE,
    powers: NONE,
    logs: NONE,
    logFiles: NONE,
    standing: NONE,
    photos: NONE,
    signs: NONE,
    afterSign: -1,
    labour: NONE,
    consumables: NONE,
    receivedWith: NONE,
    packed: NONE,
    hours: NONE,
    meters: NONE,
    serials: NONE,
    plate: "",
    overhauled: NONE,
  };
}

/** A block of a kind with nothing in it yet. */
export function emptyBlock(kind: facts.Block["kind"]): Mutable<facts.Block> {
  switch (kind) {
    case "shop":
      return emptyShop();
    case "person":
      return { ...base(kind), roles: NONE, licences: NONE, keys: NONE };
    case "instrument":
      return {
        ...base(kind),
        serial: "",
        range: undefined,
        resolution: undefined,
        uncertainty: undefined,
        calibrations: NONE,
        failures: NONE,
        withdrawn: undefined,
        length: undefined,
        material: "",
      };
    case "stand":
      return { ...base(kind), channels: NONE, clubs: NONE };
    case "engine-type":
      return {
        ...base(kind),
        layout: undefined,
        numbering: undefined,
        rotation: undefined,
        mounting: undefined,
        masterRods: NONE,
        bore: undefined,
        stroke: undefined,
        firing: undefined,
        correction: undefined,
        lockCheckAfter: undefined,
        places: NONE,
        lives: NONE,
        materials: NONE,
      };
    case "limits":
      return {
        ...base(kind),
        type: "",
        revision: "",
        from: undefined,
        limits: NONE,
        torques: NONE,
        stretches: NONE,
        compressions: NONE,
        magnetos: NONE,
      };
    case "run-in":
      return { ...base(kind), type: "", starts: NONE, warms: NONE, cools: NONE, steps: NONE };
    case "task":
      return {
        ...base(kind),
        type: "",
        every: NONE,
        first: NONE,
        tolerance: NONE,
        sign: "",
        independent: false,
        about: "",
      };
    case "bulletin":
      return {
        ...base(kind),
        type: "",
        force: "optional",
        by: undefined,
        within: undefined,
        repeat: undefined,
        serials: "",
      };
    case "route":
      return { ...base(kind), type: "", steps: NONE };
    case "alert":
      return { ...base(kind), on: undefined, suspects: NONE };
    case "engine":
      return {
        ...base(kind),
        type: "",
        owner: "",
        plate: "",
        serials: NONE,
        hours: NONE,
        meters: NONE,
        used: NONE,
        overhauled: NONE,
        done: NONE,
        embodied: NONE,
        fits: NONE,
        photos: NONE,
      };
    case "job":
      return {
        ...base(kind),
        engine: "",
        route: "",
        limits: "",
        runIn: "",
        scope: "",
        received: undefined,
        wanted: undefined,
        photos: NONE,
      };
    case "entry":
    case "run":
    case "release":
    case "dispatch":
      return emptyWork(kind);
    case "account":
      return { ...base(kind), job: "", rates: NONE, costs: NONE };
    case "unnamed":
    case "preface":
      return base(kind);
  }
}
