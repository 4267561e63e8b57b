/**
 * Everything that an instrument, a batch, a person or a part touched, engine by engine: what stands on it still, and what to do.
 *
 * It says where to look, never whether an engine is fit: what was measured with a bad gauge may be right, and only measuring again shows it.
 */

import type { Ask } from "../checking/ask.ts";
import type { Checker } from "../checking/checker.ts";
import { placeText } from "../facts/place.ts";
import { scopeOf } from "../facts/refs.ts";
import type { At, Fact, FitLine, WorkBlock } from "../facts/types.ts";
import { type CivilDate, formatDate } from "../quantity/civil-date.ts";
import { engineOf, itemOf, partsFitted } from "../totals/parts.ts";
import { blockReadings, historyKey } from "../totals/place-history.ts";
import { lineOf } from "../workspace/workspace.ts";
import { count, measureText } from "./wording.ts";

export type RecallKind = "instrument" | "batch" | "person" | "part";
export const RECALL_KINDS: readonly RecallKind[] = ["instrument", "batch", "person", "part"];

export interface Touched {
  readonly engine: string;
  /** Job, or `engine:` and the engine for work in service. */
  readonly scope: string;
  /** Block in which it stands, and the line of it (from 0) in its file. */
  readonly ref: string;
  readonly path: string;
  readonly line: number;
  readonly date: CivilDate | undefined;
  readonly what: string;
  /** Whether something rests on it today. */
  readonly stands: boolean;
  /** What to do about it, or what happened to it since. */
  readonly remedy: string;
}

export interface RecalledEngine {
  readonly engine: string;
  readonly type: string;
  readonly owner: string;
  /** Jobs of this engine that were released after something in them was touched. */
  readonly released: readonly string[];
  readonly touched: readonly Touched[];
}

export interface Recall {
  readonly kind: RecallKind;
  readonly name: string;
  readonly since: CivilDate | undefined;
  /** Whether the name is declared, or stands anywhere at all. */
  readonly known: boolean;
  readonly engines: readonly RecalledEngine[];
}

class Gathering {
  readonly found: Touched[] = [];
  readonly #checker: Checker;
  readonly #since: CivilDate | undefined;

  constructor(checker: Checker, since: CivilDate | undefined) {
    this.#checker = checker;
    this.#since = since;
  }

  add(
    block: { readonly ref: string; readonly job: string; readonly engine: string },
    date: CivilDate | undefined,
    fact: Fact,
    what: string,
    stands: boolean,
    then: string,
  ): void {
    // What has no day may be of any day.
    if (this.#since !== undefined && date !== undefined && date < this.#since) return;
    const entry = this.#checker.entryOf(block.ref);
    const scope = block.job !== "" ? block.job : `engine:${block.engine}`;
    this.found.push({
      engine: engineOf(block, this.#checker.ask),
      scope,
      ref: block.ref,
      path: entry?.document.path ?? "",
      line: entry ? lineOf(entry, fact.at) : 0,
      date,
      what,
      stands,
      remedy: then,
    });
  }
}

/** Blocks of work of the whole shop, each name once, in order of scope, date and file. */
function allWork(ask: Ask): WorkBlock[] {
  const scopes = [...ask.jobs().map((job) => job.name), ...ask.engines().map((engine) => `engine:${engine.name}`)];
  return [...new Set(scopes)].flatMap((scope) => ask.work(scope).flatMap((head) => ask.workBlock(head.ref) ?? []));
}

function recallInstrument(name: string, checker: Checker, all: Gathering): void {
  const { ask } = checker;
  for (const block of allWork(ask)) {
    const scope = scopeOf(block);
    const used = block.readings.filter((reading) => reading.instrument === name || reading.standard === name);
    for (const feature of new Set(used.map((reading) => reading.feature))) {
      const history = ask.total(blockReadings, `${historyKey(scope, feature)}|${block.ref}`);
      for (const reading of used.filter((one) => one.feature === feature)) {
        const known = history.find((one) => one.at === reading.at && one.cell === reading.cell);
        const stands =
          reading.result === "value" ||
          reading.result === "below" ||
          reading.result === "go" ||
          reading.result === "no-go"
            ? known?.speaks !== false
            : false;
        const value = reading.measure ? ` ${measureText(reading.measure)}` : "";
        const how = reading.instrument === name ? "" : ` (set on ${name})`;
        all.add(
          block,
          block.date,
          reading,
          `${placeText(reading.feature, reading.path)}${value}${how}`,
          stands,
          stands
            ? "measure again with a gauge that is in calibration"
            : "does not count any more: measured again, replaced or reworked since",
        );
      }
    }
    for (const torque of block.torques) {
      if (torque.instrument !== name) continue;
      const later = ask
        .torques(scope, torque.place.feature)
        .some(
          ({ block: other, fact }) =>
            (other.ref === block.ref ? fact.at > torque.at : (other.date ?? 0) > (block.date ?? 0)) &&
            fact.place.text === torque.place.text &&
            fact.instrument !== name,
        );
      all.add(
        block,
        block.date,
        torque,
        `torque ${torque.place.text} ${measureText(torque.value)}`,
        !later,
        later
          ? "torqued again since with another wrench"
          : "torque again, or check at torque, with a wrench that is in calibration",
      );
    }
    for (const table of block.compressions)
      if (table.instrument === name)
        all.add(
          block,
          block.date,
          table,
          `compression ${table.method}, ${count(table.rows.length, "cylinder")}`,
          true,
          "test again with another set",
        );
    for (const check of block.checks)
      if (check.instrument === name) all.add(block, block.date, check, `check ${check.name}`, true, "check again");
    const channels =
      block.kind === "run"
        ? (ask.stand(block.stand)?.channels.filter((channel) => channel.instrument === name) ?? [])
        : [];
    for (const channel of channels)
      all.add(
        block,
        block.date,
        { at: 0 },
        `run ${block.name}: channel ${channel.place.text}`,
        true,
        "judge the run without this channel, or run again",
      );
  }
}

function addFit(
  fit: FitLine,
  block: { readonly ref: string; readonly job: string; readonly engine: string },
  date: CivilDate | undefined,
  ask: Ask,
  all: Gathering,
): void {
  const engine = engineOf(block, ask);
  const item = itemOf(ask.total(partsFitted, engine), block.ref, fit.at);
  const gone = item?.left;
  const where = item && item.places.length > 0 ? ` at ${item.places.join(", ")}` : "";
  const what = `part ${fit.part}${fit.serial === "" ? "" : ` serial ${fit.serial}`}${fit.quantity === 1 ? "" : `, ${fit.quantity} of them`}${fit.batch === "" ? "" : ` of batch ${fit.batch}`}`;
  const left = gone
    ? `${gone.kind === "scrapped" ? "scrapped" : "out"} since ${gone.date === undefined ? gone.ref : `${formatDate(gone.date)} (${gone.ref})`}: find where it went`
    : "";
  all.add(
    block,
    fit.on ?? date,
    fit,
    what,
    !gone,
    gone
      ? gone.kind === "scrapped"
        ? left.replace(": find where it went", "")
        : left
      : `in the engine${where}: inspect or replace`,
  );
}

function recallParts(wanted: (fit: FitLine) => boolean, checker: Checker, all: Gathering): void {
  const { ask } = checker;
  for (const engine of ask.engines())
    for (const fit of engine.fits)
      if (wanted(fit)) addFit(fit, { ref: engine.ref, job: "", engine: engine.name }, fit.on, ask, all);
  for (const block of allWork(ask))
    for (const fit of block.fits) if (wanted(fit)) addFit(fit, block, block.date, ask, all);
}

function recallBatch(name: string, checker: Checker, all: Gathering): void {
  recallParts((fit) => fit.batch === name, checker, all);
  for (const block of allWork(checker.ask)) {
    for (const one of block.consumables)
      if (one.batch === name)
        all.add(
          block,
          block.date,
          one,
          `consumable ${one.title}, batch ${name}`,
          true,
          "find out what it was used on, and inspect that",
        );
  }
}

function recallPerson(name: string, checker: Checker, all: Gathering): void {
  for (const block of allWork(checker.ask)) {
    const add = (date: CivilDate | undefined, at: At, what: string, then: string): void =>
      all.add(block, date, { at }, what, true, then);
    for (const sign of block.signs) {
      if (sign.person !== name) continue;
      const again = block.signs.some(
        (other) => other.role === sign.role && other.person !== name && other.at > sign.at,
      );
      all.add(
        block,
        sign.on,
        sign,
        `signed as ${sign.role}${sign.seal === "" ? "" : " under a seal"}`,
        !again,
        again
          ? "signed by another in the same role since"
          : `have someone else who holds ${sign.role} examine it and sign in an entry of its own`,
      );
    }
    if (block.by === name)
      add(
        block.date,
        0,
        block.kind === "release" ? "released the job" : `${block.kind} by ${name}`,
        block.kind === "release" ? "have the release examined by someone else who may release" : "judge it again",
      );
    if (block.second === name)
      add(block.date, 0, "stood by at the run", "look whether a second person is needed for it");
    const measured = block.readings.filter((reading) => reading.by === name);
    const [first] = measured;
    if (first) add(block.date, first.at, count(measured.length, "reading"), "measure again what decides");
    for (const torque of block.torques)
      if (torque.by === name) add(block.date, torque.at, `torque ${torque.place.text}`, "check at torque");
    for (const check of block.checks)
      if (check.by === name) add(block.date, check.at, `check ${check.name}`, "check again");
    for (const one of block.accepts)
      if (one.by === name) add(one.on, one.at, `accepted ${one.code} in ${one.ref}`, "judge the finding again");
    for (const one of block.concessions)
      if (one.by === name)
        add(one.on, one.at, `concession ${one.name}`, "have it examined by someone else who may concede");
    for (const one of block.defers)
      if (one.by === name) add(one.on, one.at, `deferred ${one.defect}`, "judge again whether it can wait");
  }
}

/**
 * @param name of an instrument, a batch, a person, or a part number
 * @param since only what is of this day or later; what has no day is always listed
 */
export function recall(checker: Checker, kind: RecallKind, name: string, since?: CivilDate): Recall {
  const { ask } = checker;
  const all = new Gathering(checker, since);
  if (kind === "instrument") recallInstrument(name, checker, all);
  else if (kind === "batch") recallBatch(name, checker, all);
  else if (kind === "part") recallParts((fit) => fit.part === name, checker, all);
  else recallPerson(name, checker, all);
  const engines = [...new Set(all.found.map((one) => one.engine))].sort().map((engine): RecalledEngine => {
    const touched = all.found.filter((one) => one.engine === engine);
    const block = ask.engine(engine);
    const released = [...new Set(touched.map((one) => one.scope))].filter((scope) =>
      ask.work(scope).some((head) => head.kind === "release"),
    );
    return { engine, type: block?.type ?? "", owner: block?.owner ?? "", released, touched };
  });
  const declared =
    kind === "instrument"
      ? ask.instrument(name) !== undefined
      : kind === "person"
        ? ask.person(name) !== undefined
        : false;
  return { kind, name, since, known: declared || all.found.length > 0, engines };
}

/** The recall as text for people. */
export function recallText(found: Recall): string {
  const total = found.engines.reduce((sum, engine) => sum + engine.touched.length, 0);
  const standing = found.engines.reduce((sum, engine) => sum + engine.touched.filter((one) => one.stands).length, 0);
  const since = found.since === undefined ? "" : ` since ${formatDate(found.since)}`;
  const out = [
    `${found.kind} ${found.name}${since}: ${count(total, "line")} in ${count(found.engines.length, "engine")}, ${standing} of them still count${standing === 1 ? "s" : ""}`,
  ];
  for (const engine of found.engines) {
    out.push(
      "",
      `${engine.engine || "no engine"}${engine.type === "" ? "" : ` ${engine.type}`}${engine.owner === "" ? "" : `, ${engine.owner}`}`,
    );
    for (const job of engine.released)
      out.push(`  ${job} is released: tell the owner what is in doubt before the engine runs again`);
    // Lines of one block that say the same of what to do stand together.
    const groups = new Map<string, Touched[]>();
    for (const one of engine.touched) {
      const key = `${one.ref}|${one.stands}|${one.remedy}`;
      const list = groups.get(key);
      if (list) list.push(one);
      else groups.set(key, [one]);
    }
    for (const list of groups.values()) {
      const [first] = list;
      if (!first) continue;
      out.push(
        `  ${first.path}:${first.line + 1}  ${first.ref}${first.date === undefined ? "" : `  ${formatDate(first.date)}`}`,
      );
      for (const one of list.slice(0, 40)) out.push(`      ${one.what}`);
      if (list.length > 40) out.push(`      and ${list.length - 40} more like these`);
      out.push(`    ${first.stands ? "to do" : "since then"}: ${first.remedy}`);
    }
  }
  if (total === 0) out.push("", "Nothing in these records names it.");
  return out.join("\n");
}
