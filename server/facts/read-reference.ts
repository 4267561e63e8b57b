/** Member lines of the reference side: shop, people, instruments, stands, types, limits, run-in schedules, routes, alerts. */

import { nearest } from "../../grammar/nearest.ts";
import { scanned, typeName } from "../../grammar/tokens.ts";
import { type Cursor, unquote } from "./cursor.ts";
import { type Mutable, push } from "./draft.ts";
import { limitsOfClass } from "./tolerance-class.ts";
import type * as facts from "./types.ts";
import type { Act, FormulaTerm, Need, SeverityLine } from "./types.ts";

type Draft = Mutable<facts.Block>;
const CORRECTIONS = ["none", "iso-1585", "sae-j1349-1990", "sae-j607"] as const;

type Reader = (c: Cursor, draft: Draft) => void;

/** Gives a reader the type of the block that it stands in; the caller has checked that the word may stand there. */
function on<B extends facts.Block>(read: (c: Cursor, draft: Mutable<B>) => void): Reader {
  return read as unknown as Reader;
}

function formula(c: Cursor): FormulaTerm[] {
  const field = c.field("formula");
  const terms: FormulaTerm[] = [];
  if (!field) return terms;
  let sign: 1 | -1 = 1;
  let factor = 1;
  let stat: FormulaTerm["stat"] = "each";
  for (let i = field.from; i < field.to; i++) {
    const name = typeName(scanned.types[i]);
    if (name === "greatest" || name === "least" || name === "mean") stat = name;
    else if (name === "Dash") sign = -1;
    else if (name === "Plus") sign = 1;
    else if (name === "Number") factor *= c.numberAt(i)?.value ?? 1;
    else if (name === "Name" || name === "Place") {
      const place = c.placeAt(i);
      // A factor may stand on either side: `2 * a` is not in the form, `a * 2` is.
      if (place) terms.push({ sign, factor: 1, stat, place });
      stat = "each";
    }
    if (name === "Number" && terms.length > 0) {
      const last = terms.at(-1) as FormulaTerm;
      terms[terms.length - 1] = { ...last, factor: last.factor * factor };
      factor = 1;
    }
  }
  return terms;
}

/** One need of a route step, from its tokens. */
function need(c: Cursor, from: number, to: number): Need {
  const first = c.image(from);
  const names: string[] = [];
  switch (typeName(scanned.types[from])) {
    case "photo":
      return { kind: "photo", count: Number(c.image(from + 1)) || 0 };
    case "limits":
      for (let i = from + 2; i < to; i += 2) names.push(c.image(i));
      return { kind: "limits", which: c.image(from + 1) === "new" ? "new" : "wear", features: names };
    case "torque":
      if (c.image(from + 1) !== "all") for (let i = from + 1; i < to; i += 2) names.push(c.image(i));
      return { kind: "torque", features: names };
    case "sign":
      return { kind: "sign", role: c.image(from + 1), independent: to > from + 2 };
    case "run-in":
      return { kind: "run-in", type: c.image(from + 1) };
    case "no":
      return { kind: "no-open-defect" };
    default:
      return { kind: "evidence", name: first };
  }
}

export const referenceReaders: Readonly<Record<string, Reader>> = {
  language: on<facts.ShopBlock>((c, shop) => {
    shop.language = c.count("version");
  }),
  decision: on<facts.ShopBlock>((c, shop) => {
    shop.decision = c.word("rule") === "simple" ? "simple" : "guarded";
  }),
  money: on<facts.ShopBlock>((c, shop) => {
    shop.money = c.word("currency");
  }),
  "stand-time": on<facts.ShopBlock>((c, shop) => {
    shop.standTime = c.word("rule") === "excluded" ? "excluded" : "counts";
  }),
  severity: on<facts.ShopBlock>((c, shop) => {
    push(shop, "severities", {
      at: c.at,
      code: c.word("code"),
      level: c.word("level") as SeverityLine["level"],
      reason: c.quoted("reason"),
      by: c.word("by"),
      on: c.date("on"),
    });
  }),
  authority: on<facts.ShopBlock>((c, shop) => {
    push(shop, "authorities", { at: c.at, act: c.word("act") as Act, roles: c.words("roles") });
  }),
  notice: on<facts.ShopBlock>((c, shop) => {
    for (const span of c.qAll("span")) push(shop, "notices", span);
  }),
  practice: on<facts.ShopBlock>((c, shop) => {
    shop.practice = c.word("name");
  }),
  address: () => {},

  role: on<facts.PersonBlock>((c, person) => {
    const from = c.date("from");
    const until = c.date("until");
    if (from !== undefined)
      push(person, "roles", { at: c.at, role: c.word("role"), from, until, types: c.words("types") });
  }),
  licence: on<facts.PersonBlock>((c, person) => {
    const from = c.date("from");
    const until = c.date("until");
    if (from !== undefined) push(person, "licences", { at: c.at, number: c.quoted("number"), from, until });
  }),
  key: on<facts.PersonBlock>((c, person) => {
    const from = c.date("from");
    const until = c.date("until");
    if (from !== undefined) push(person, "keys", { at: c.at, key: c.quoted("key"), from, until });
  }),

  range: on<facts.InstrumentBlock>((c, instrument) => {
    instrument.range = c.bounds("range");
  }),
  resolution: on<facts.InstrumentBlock>((c, instrument) => {
    instrument.resolution = c.q("value");
  }),
  uncertainty: on<facts.InstrumentBlock>((c, instrument) => {
    instrument.uncertainty = c.q("value");
  }),
  calibrated: on<facts.InstrumentBlock>((c, instrument) => {
    const day = c.date("on");
    const until = c.date("until");
    if (day !== undefined && until !== undefined)
      push(instrument, "calibrations", { at: c.at, on: day, until, certificate: c.quoted("certificate") });
  }),
  failed: on<facts.InstrumentBlock>((c, instrument) => {
    const day = c.date("on");
    if (day !== undefined) push(instrument, "failures", { at: c.at, on: day, reason: c.quoted("reason") });
  }),
  withdrawn: on<facts.InstrumentBlock>((c, instrument) => {
    const day = c.date("on");
    if (day !== undefined) instrument.withdrawn = { at: c.at, on: day, reason: c.quoted("reason") };
  }),
  length: on<facts.InstrumentBlock>((c, instrument) => {
    instrument.length = c.q("value", "length");
  }),
  material: (c, draft) => {
    if (draft.kind === "instrument") draft.material = c.quoted("material");
    else if (draft.kind === "engine-type")
      push(draft, "materials", { at: c.at, feature: c.word("feature"), material: c.quoted("material") });
  },

  channel: on<facts.StandBlock>((c, stand) => {
    const place = c.place("place");
    if (place) push(stand, "channels", { at: c.at, place, instrument: c.word("instrument") });
  }),
  club: on<facts.StandBlock>((c, stand) => {
    const speeds = c.bounds("speeds");
    const density = c.q("density");
    if (speeds && density) push(stand, "clubs", { at: c.at, name: c.word("name"), speeds, density, points: [] });
  }),
  point: on<facts.StandBlock>((c, stand) => {
    const speed = c.q("speed");
    const power = c.q("power");
    const club = stand.clubs.at(-1);
    if (speed && power && club) (club.points as { speed: typeof speed; power: typeof power }[]).push({ speed, power });
  }),

  layout: on<facts.EngineTypeBlock>((c, type) => {
    type.layout = {
      at: c.at,
      arrangement: c.word("kind") as "radial",
      count: c.word("arrangement"),
      angle: c.q("angle", "angle"),
    };
  }),
  numbering: on<facts.EngineTypeBlock>((c, type) => {
    type.numbering = { sense: c.word("sense") as "clockwise", end: c.word("end") as "rear" };
  }),
  rotation: on<facts.EngineTypeBlock>((c, type) => {
    type.rotation = { sense: c.word("sense") as "clockwise", end: c.word("end") as "rear" };
  }),
  mounting: on<facts.EngineTypeBlock>((c, type) => {
    type.mounting = c.q("angle", "angle");
  }),
  "master-rod": on<facts.EngineTypeBlock>((c, type) => {
    for (const field of c.all("cylinder")) push(type, "masterRods", c.countOf(field) ?? 0);
  }),
  bore: on<facts.EngineTypeBlock>((c, type) => {
    type.bore = c.q("value", "length");
  }),
  stroke: on<facts.EngineTypeBlock>((c, type) => {
    type.stroke = c.q("value", "length");
  }),
  firing: on<facts.EngineTypeBlock>((c, type) => {
    type.firing = { at: c.at, order: c.all("order").map((field) => c.countOf(field) ?? 0) };
  }),
  correction: on<facts.EngineTypeBlock>((c, type) => {
    if (c.has("source")) {
      type.correction = { at: c.at, rule: "maker", maker: makerFormula(c) };
      return;
    }
    const field = c.field("rule");
    const written = c.word("rule");
    const rule = CORRECTIONS.find((one) => one === written);
    // An unknown rule corrects nothing: a power is never changed on a guess.
    if (rule) type.correction = { at: c.at, rule, maker: undefined };
    else if (field)
      c.problemAt(
        "unexpected",
        field.from,
        field.to,
        written,
        CORRECTIONS.join(", "),
        ...nearest(written, CORRECTIONS).slice(0, 2),
      );
  }),
  "lock-check": on<facts.EngineTypeBlock>((c, type) => {
    type.lockCheckAfter = c.q("after");
  }),
  places: on<facts.EngineTypeBlock>((c, type) => {
    const title = c.quoted("title");
    for (const field of c.all("place")) {
      const place = c.placeAt(field.from);
      if (place) push(type, "places", { at: c.at, place, title });
    }
  }),
  life: on<facts.EngineTypeBlock>((c, type) => {
    push(type, "lives", { at: c.at, part: c.quoted("part"), lives: c.qAll("life") });
  }),

  limit: on<facts.LimitsBlock>((c, limits) => {
    const place = c.place("place");
    if (!place) return;
    const stat = c.word("stat");
    const condition = c.place("condition");
    const range = c.bounds("while");
    const state = c.word("state");
    const terms = formula(c);
    const nominal = c.q("nominal", "length");
    const written = c.bounds("new");
    const byClass =
      c.has("class") && nominal
        ? limitsOfClass(c.word("class"), nominal, {
            ofFormula: terms.length > 0,
            besideNew: written !== undefined || c.has("bare"),
          })
        : undefined;
    push(limits, "limits", {
      at: c.at,
      stat: stat === "" ? "value" : (stat as facts.Statistic),
      place,
      formula: terms,
      bare: c.bounds("bare"),
      newLimits: written ?? byClass?.bounds,
      wearLimits: c.bounds("wear"),
      size: c.q("size", "length"),
      condition: condition && range ? { channel: condition, range } : undefined,
      state: state === "hot" || state === "cold" ? state : "",
      reference: c.quoted("ref"),
      ...(byClass ? { toleranceClass: byClass.toleranceClass } : {}),
    });
  }),
  stretch: on<facts.LimitsBlock>((c, limits) => {
    const place = c.place("place");
    const feature = c.place("feature");
    if (place && feature)
      push(limits, "stretches", { at: c.at, place, feature: feature.feature, reference: c.quoted("ref") });
  }),
  "compression-limit": on<facts.LimitsBlock>((c, limits) => {
    const state = c.word("state");
    push(limits, "compressions", {
      at: c.at,
      method: c.word("method") === "direct" ? "direct" : "differential",
      supply: c.q("supply", "pressure"),
      orifice: c.q("orifice", "length"),
      state: state === "hot" || state === "warm" || state === "cold" ? state : "",
      least: c.q("min", "pressure"),
      spread: c.q("spread", "pressure"),
      reference: c.quoted("ref"),
    });
  }),
  "magneto-limit": on<facts.LimitsBlock>((c, limits) => {
    push(limits, "magnetos", {
      at: c.at,
      drop: c.q("drop"),
      split: c.q("split"),
      speed: c.q("at"),
      reference: c.quoted("ref"),
    });
  }),

  start: on<facts.RunInBlock>((c, runIn) => {
    const channel = c.place("channel");
    const bounds = c.bounds("bound");
    const within = c.q("within", "time");
    if (channel && bounds && within) push(runIn, "starts", { at: c.at, channel, bounds, within });
  }),
  warm: on<facts.RunInBlock>((c, runIn) => {
    const channel = c.place("channel");
    const bounds = c.bounds("bound");
    const condition = c.place("condition");
    const limit = c.q("limit");
    if (channel && bounds && condition && limit) push(runIn, "warms", { at: c.at, channel, bounds, condition, limit });
  }),
  cool: on<facts.RunInBlock>((c, runIn) => {
    const channel = c.place("channel");
    const bounds = c.bounds("bound");
    if (channel && bounds) push(runIn, "cools", { at: c.at, channel, bounds });
  }),
  step: (c, draft) => {
    if (draft.kind === "run-in") {
      const length = c.q("for", "time");
      const condition = c.place("condition");
      const range = c.bounds("at");
      if (!length || !condition || !range) return;
      const channels = c.all("channel");
      const bounds = c.all("bound").map((field) => c.boundsOf(field));
      push(draft, "steps", {
        at: c.at,
        name: c.word("name"),
        length,
        condition,
        range,
        bounds: channels.flatMap((field, i) => {
          const channel = c.placeAt(field.from);
          const bound = bounds[i];
          return channel && bound ? [{ channel, bounds: bound }] : [];
        }),
      });
    } else if (draft.kind === "route") {
      push(draft, "steps", {
        at: c.at,
        name: c.word("name"),
        after: c.words("after"),
        needs: c.all("need").map((field) => need(c, field.from, field.to)),
      });
    }
  },
  suspect: on<facts.AlertBlock>((c, alert) => {
    push(alert, "suspects", {
      at: c.at,
      part: c.quoted("part"),
      batch: c.word("batch"),
      serials: c.all("serials").map((field) => unquote(c.image(field.from))),
    });
  }),
};

function makerFormula(c: Cursor): NonNullable<facts.EngineTypeBlock["correction"]>["maker"] {
  const number = (role: string): number | undefined => {
    const field = c.field(role);
    return field ? c.numberAt(field.from)?.value : undefined;
  };
  const dry = c.q("dry", "pressure");
  const air = c.q("air", "temperature");
  const pressurePower = number("pressure");
  const temperaturePower = number("temperature");
  const loss = number("loss");
  const from = number("least");
  const until = number("greatest");
  if (!dry || !air || pressurePower === undefined || temperaturePower === undefined) return undefined;
  if (loss === undefined || from === undefined || until === undefined) return undefined;
  return { source: c.quoted("source"), dry, air, pressurePower, temperaturePower, loss, from, until };
}
