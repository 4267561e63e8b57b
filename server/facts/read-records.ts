/** Member lines of the record side: engines, jobs, entries, runs, releases, dispatches, accounts. Tables are in `tables.ts`. */
import { scanned, T, typeName } from "../../grammar/tokens.ts";
import type { Cursor } from "./cursor.ts";
import { type Mutable, push } from "./draft.ts";
import { pathsOf } from "./place.ts";
import { type Held, readLogMap } from "./tables.ts";
import type * as facts from "./types.ts";

type Draft = Mutable<facts.Block>;
type Work = Mutable<facts.WorkBlock>;
type WorkReader = (c: Cursor, work: Work, held: Held) => void;
type OtherReader = (c: Cursor, draft: Draft) => void;

const HOURS = ["time", "count:cycles", "count:landings", "count:starts"] as const;

function hoursLine(c: Cursor): facts.HoursLine {
  const values = c.all("value");
  const counters = c.all("counter").flatMap((field, i) => {
    const value = values[i];
    const measure = value && c.measureAt(value.from, value.from + 1, HOURS);
    return measure ? [{ name: c.image(field.from), value: measure }] : [];
  });
  return { at: c.at, counters, on: c.date("on"), source: c.quoted("source") };
}

function fitLine(c: Cursor): facts.FitLine {
  return {
    at: c.at,
    part: c.quoted("number"),
    serial: c.quoted("serial"),
    quantity: c.has("qty") ? (c.count("qty") ?? 1) : 1,
    batch: c.word("batch"),
    source: c.quoted("source"),
    place: c.place("at"),
    life: c.q("life"),
    sinceNew: c.q("since-new"),
    used: c.has("used"),
    on: c.date("on"),
  };
}

function doneLine(c: Cursor): facts.DoneLine {
  return {
    at: c.at,
    task: c.word("task"),
    on: c.date("on"),
    counter: c.word("counter"),
    hours: c.q("hours", HOURS),
    about: c.quoted("about"),
  };
}

const embodiedLine = (c: Cursor): facts.EmbodiedLine => ({
  at: c.at,
  bulletin: c.word("bulletin"),
  on: c.date("on"),
  about: c.quoted("about"),
});
const serialLine = (c: Cursor): facts.SerialLine => ({ at: c.at, place: c.place("place"), number: c.quoted("number") });
const photoLine = (c: Cursor): facts.PhotoLine => ({
  at: c.at,
  path: c.quoted("path"),
  caption: c.quoted("caption"),
  digest: c.word("digest").replace(/^sha256:/u, ""),
});
const overhauledLine = (c: Cursor) => ({ at: c.at, on: c.date("on"), about: c.quoted("about") });

function meterLine(c: Cursor): facts.MeterLine | undefined {
  const value = c.q("value");
  return value && { at: c.at, name: c.word("name"), value, on: c.date("on") };
}

function lubrication(c: Cursor): string {
  return c.has("lube") ? c.word("lube") : c.quoted("compound");
}

function clearance(c: Cursor): "" | "hot" | "cold" {
  const state = c.word("state");
  return state === "hot" || state === "cold" ? state : "";
}

/** A value as a `measure` line gives it. */
function reading(c: Cursor): { result: facts.Reading["result"]; measure: facts.Reading["measure"] } {
  const field = c.field("value");
  if (!field) return { result: "bad", measure: undefined };
  switch (scanned.types[field.from]) {
    case T.Query:
      return { result: "todo", measure: undefined };
    case T.Below: {
      const unit = c.unit(field.from + 1);
      const text = c.image(field.from).slice(1);
      return { result: "below", measure: unit && { value: Number(text), text, unit } };
    }
    case T.Number:
    case T.Fraction: {
      const measure = c.measureAt(field.from, field.from + 1);
      return measure ? { result: "value", measure } : { result: "bad", measure };
    }
    default:
      return { result: typeName(scanned.types[field.from]) as "go", measure: undefined };
  }
}

export const workReaders: Readonly<Record<string, WorkReader>> = {
  amends: (c, work) => push(work, "amends", { at: c.at, ref: c.word("ref"), reason: c.quoted("reason") }),
  air: (c, work) => {
    const values = c.qAll("value", ["temperature", "pressure", "ratio"]);
    if (values.length === 0) return;
    const of = (dimension: string) => values.find((value) => value.unit.dimension === dimension);
    push(work, "air", { at: c.at, temperature: of("temperature"), pressure: of("pressure"), humidity: of("ratio") });
  },
  measure: (c, work, held) => {
    const place = c.place("place");
    if (!place) return;
    const value = reading(c);
    const position = c.word("at");
    const own = c.has("with");
    for (const path of placePaths(place)) {
      push(work, "readings", {
        at: c.at,
        feature: place.feature,
        path: position === "" ? path : path === "" ? position : `${path}/${position}`,
        ...value,
        cell: -1,
        instrument: own ? c.word("with") : held.instrument,
        namedAt: own ? c.at : held.at,
        standard: c.has("standard") ? c.word("standard") : own ? "" : held.standard,
        size: c.q("size", "length"),
        state: clearance(c),
        by: c.word("by"),
      });
    }
  },
  torque: (c, work, held) => {
    const place = c.place("place");
    const bounds = c.bounds("value");
    if (!place || !bounds) return;
    const value = bounds.low;
    if (!value || bounds.low !== bounds.high) {
      const field = c.field("value");
      if (field) c.problemAt("unexpected", field.from, field.to, bounds.text, "the torque as it was done: one value");
      return;
    }
    const extension = c.q("adapter", "length");
    const length = c.q("length", "length");
    push(work, "torques", {
      at: c.at,
      place,
      value,
      lubrication: lubrication(c),
      instrument: c.has("with") ? c.word("with") : held.instrument,
      namedAt: c.has("with") ? c.at : held.at,
      adapter: extension && length ? { extension, length, angle: c.q("angle", "angle") } : undefined,
      setting: c.q("set", "torque"),
      drag: c.q("drag", "torque"),
      retorque: c.has("retorque"),
      by: c.word("by"),
    });
    if (c.has("locking")) push(work, "locked", { at: c.at, place, method: c.word("locking") });
  },
  locked: (c, work) => {
    const place = c.place("place");
    if (place) push(work, "locked", { at: c.at, place, method: c.word("method") });
  },
  fit: (c, work) => push(work, "fits", fitLine(c)),
  remove: (c, work) =>
    push(work, "removes", {
      at: c.at,
      part: c.quoted("number"),
      serial: c.quoted("serial"),
      quantity: c.has("qty") ? (c.count("qty") ?? 1) : 1,
      place: c.place("at"),
      scrapped: c.has("scrapped"),
      about: c.quoted("about"),
    }),
  move: (c, work) => {
    const from = c.place("from");
    const to = c.place("to");
    if (from && to) push(work, "moves", { at: c.at, from, to });
  },
  rework: (c, work) => {
    const place = c.place("place");
    if (place) push(work, "reworks", { at: c.at, place, size: c.q("size", "length"), about: c.quoted("about") });
  },
  defect: (c, work) => {
    const place = c.place("place");
    if (place) push(work, "defects", { at: c.at, name: c.word("name"), place, about: c.quoted("about") });
  },
  rectify: (c, work) => push(work, "rectifies", { at: c.at, defect: c.word("defect"), about: c.quoted("about") }),
  defer: (c, work) => {
    const on = c.date("on");
    if (on !== undefined)
      push(work, "defers", {
        at: c.at,
        defect: c.word("defect"),
        until: c.date("until"),
        limit: c.q("limit"),
        by: c.word("by"),
        on,
        reason: c.quoted("reason"),
      });
  },
  concession: (c, work) => {
    const on = c.date("on");
    if (on !== undefined)
      push(work, "concessions", {
        at: c.at,
        name: c.word("name"),
        of: c.word("of"),
        place: c.place("place"),
        by: c.word("by"),
        on,
        reason: c.quoted("reason"),
      });
  },
  accept: (c, work) => {
    const on = c.date("on");
    if (on !== undefined)
      push(work, "accepts", {
        at: c.at,
        code: c.word("code"),
        ref: c.word("ref"),
        place: c.place("place"),
        by: c.word("by"),
        on,
        reason: c.quoted("reason"),
      });
  },
  refuse: (c, work) => {
    const on = c.date("on");
    if (on !== undefined)
      push(work, "refuses", {
        at: c.at,
        role: c.word("role"),
        by: c.word("by"),
        on,
        ref: c.word("ref"),
        reason: c.quoted("reason"),
      });
  },
  answer: (c, work) => push(work, "answers", { at: c.at, ref: c.word("ref"), about: c.quoted("about") }),
  open: (c, work) => push(work, "openCloses", { at: c.at, what: c.word("what"), opens: true }),
  close: (c, work) => push(work, "openCloses", { at: c.at, what: c.word("what"), opens: false }),
  check: (c, work) =>
    push(work, "checks", {
      at: c.at,
      name: c.word("name"),
      place: c.place("place"),
      ok: c.word("result") === "ok",
      about: c.quoted("about"),
      instrument: c.word("with"),
      by: c.word("by"),
      afterRows: 0,
    }),
  "crack-test": (c, work) => {
    const place = c.place("place");
    if (place) push(work, "crackTests", { at: c.at, place, method: c.word("method"), ok: c.word("result") === "ok" });
  },
  done: (c, work) => push(work, "done", doneLine(c)),
  embodied: (c, work) => push(work, "embodied", embodiedLine(c)),
  oil: (c, work) => {
    if (c.has("sample")) {
      const values = c.all("value");
      const metals = c.all("element").flatMap((field, i) => {
        const value = values[i];
        const measure = value && c.measureAt(value.from, value.from + 1, "ratio");
        return measure ? [{ element: c.image(field.from), value: measure }] : [];
      });
      push(work, "samples", { at: c.at, name: c.word("sample"), metals });
    } else {
      const value = c.q("value", ["volume", "mass"]);
      if (value) push(work, "oils", { at: c.at, what: c.word("what") as "added", value, about: c.quoted("about") });
    }
  },
  fuel: (c, work) => {
    const value = c.q("value", ["volume", "mass"]);
    if (value) push(work, "fuels", { at: c.at, value });
  },
  magneto: (c, work) => {
    const left = c.q("left");
    const right = c.q("right");
    if (left && right) push(work, "magnetos", { at: c.at, left, right, speed: c.q("at") });
  },
  power: (c, work) => {
    const speed = c.q("at", "speed");
    if (speed)
      push(work, "powers", {
        at: c.at,
        arm: c.q("arm", "length"),
        force: c.q("force", "force"),
        torque: c.q("torque", "torque"),
        club: c.word("club"),
        speed,
        fuel: c.q("fuel"),
        density: c.q("density", "density"),
      });
  },
  map: (c, work) => {
    const file = work.logFiles.at(-1);
    const map = readLogMap(c);
    if (file) (file.maps as facts.LogMap[]).push(map);
  },
  standing: (c, work) => {
    const value = c.q("value", "time");
    if (value) push(work, "standing", { at: c.at, value });
  },
  photo: (c, work) => push(work, "photos", photoLine(c)),
  labour: (c, work) => {
    const value = c.q("value", "time");
    if (value) push(work, "labour", { at: c.at, person: c.word("person"), value, work: c.word("kind") });
  },
  consumable: (c, work) =>
    push(work, "consumables", {
      at: c.at,
      title: c.quoted("title"),
      batch: c.word("batch"),
      expires: c.date("expires"),
    }),
  "received-with": (c, work) => push(work, "receivedWith", goods(c)),
  packed: (c, work) => push(work, "packed", goods(c)),
  hours: (c, work) => push(work, "hours", hoursLine(c)),
  meter: (c, work) => {
    const line = meterLine(c);
    if (line) push(work, "meters", line);
  },
  serial: (c, work) => push(work, "serials", serialLine(c)),
  plate: (c, work) => {
    work.plate = c.quoted("plate");
  },
  overhauled: (c, work) => push(work, "overhauled", overhauledLine(c)),
};

function goods(c: Cursor): facts.GoodsLine {
  return {
    at: c.at,
    title: c.quoted("title"),
    quantity: c.has("qty") ? (c.count("qty") ?? 1) : 1,
    serial: c.quoted("serial"),
  };
}

function placePaths(place: NonNullable<ReturnType<Cursor["place"]>>): readonly string[] {
  return pathsOf(place);
}

function onEngine(read: (c: Cursor, engine: Mutable<facts.EngineBlock>) => void): OtherReader {
  return read as unknown as OtherReader;
}

export const otherReaders: Readonly<Record<string, OtherReader>> = {
  owner: onEngine((c, engine) => {
    engine.owner = c.quoted("owner");
  }),
  plate: onEngine((c, engine) => {
    engine.plate = c.quoted("plate");
  }),
  serial: (c, draft) => {
    if (draft.kind === "instrument") draft.serial = c.quoted("number");
    else if (draft.kind === "engine") push(draft, "serials", serialLine(c));
  },
  hours: onEngine((c, engine) => push(engine, "hours", hoursLine(c))),
  meter: onEngine((c, engine) => {
    const line = meterLine(c);
    if (line) push(engine, "meters", line);
  }),
  used: onEngine((c, engine) => {
    const value = c.q("value", HOURS);
    const from = c.date("from");
    const until = c.date("until");
    if (value && from !== undefined && until !== undefined)
      push(engine, "used", { at: c.at, value, from, until, source: c.quoted("source") });
  }),
  overhauled: onEngine((c, engine) => push(engine, "overhauled", overhauledLine(c))),
  done: onEngine((c, engine) => push(engine, "done", doneLine(c))),
  embodied: onEngine((c, engine) => push(engine, "embodied", embodiedLine(c))),
  fit: onEngine((c, engine) => push(engine, "fits", fitLine(c))),
  photo: (c, draft) => {
    if (draft.kind === "engine" || draft.kind === "job") push(draft, "photos", photoLine(c));
  },
  scope: (c, draft) => {
    if (draft.kind === "job") draft.scope = c.quoted("scope");
  },
  received: (c, draft) => {
    const on = c.date("on");
    if (draft.kind === "job" && on !== undefined) draft.received = { at: c.at, on };
  },
  wanted: (c, draft) => {
    if (draft.kind === "job") draft.wanted = c.date("by");
  },
  rate: (c, draft) => {
    const value = c.q("value");
    if (draft.kind === "account" && value) push(draft, "rates", { at: c.at, work: c.word("kind"), value });
  },
  cost: (c, draft) => {
    const value = c.q("value");
    if (draft.kind === "account" && value) push(draft, "costs", { at: c.at, title: c.quoted("title"), value });
  },
};
