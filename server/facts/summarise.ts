/**
 * The lines of a block to what they say. Pure; a block is summarised alone, so a change of one line costs its block and no more.
 */
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import { canonicalLine } from "../../grammar/canonical.ts";
import { isMistypedHeader } from "../../grammar/document.ts";
import { type Plan, parseLine } from "../../grammar/line-parser.ts";
import { scanned, T } from "../../grammar/tokens.ts";
import type { BlockKind, WordRow } from "../../grammar/words.ts";
import { daysBetween } from "../quantity/civil-date.ts";
import { explainBreak, nearLeading, unknownWord } from "./broken-line.ts";
import { Cursor, unquote } from "./cursor.ts";
import { emptyBlock, type Mutable, push } from "./draft.ts";
import { otherReaders, workReaders } from "./read-records.ts";
import { referenceReaders } from "./read-reference.ts";
import {
  closeLog,
  compressionRow,
  gridRow,
  type Held,
  logRow,
  openCompression,
  openGrid,
  openLog,
  type Table,
} from "./tables.ts";
import type { Block, ShopBlock, WorkBlock } from "./types.ts";

type Draft = Mutable<Block>;

const PLAIN: Readonly<Record<string, string>> = { "\u00b1": "+/-", "\u00d7": "x" };

function isWork(draft: Draft): draft is Mutable<WorkBlock> {
  return draft.kind === "entry" || draft.kind === "run" || draft.kind === "release" || draft.kind === "dispatch";
}

/** Lines that stand between the rows of a table without ending it. */
const PASSES_TABLE = new Set(["note", "date"]);

export class Summariser {
  readonly #cursor = new Cursor();
  #draft: Draft = emptyBlock("preface");
  #order = 0;
  #table: Table | undefined;
  #held: Held = { instrument: "", standard: "", at: 0 };
  #signed = false;
  /** The text up to the last seal, hashed; undefined where none is written yet. */
  #digest: { upTo: number; hash: ReturnType<typeof sha256.create>; empty: boolean } | undefined;
  /** The lines so far: only needed where a seal is written. */
  #lines: { readonly lines: readonly string[]; readonly from: number } = { lines: [], from: 0 };

  /**
   * Begins a block with the line at `from`. A block whose first line is no header is the text before the first header.
   * @param lines the lines of the document; kept until `finish`
   */
  start(lines: readonly string[], from: number): void {
    this.#lines = { lines, from };
    this.#order = 0;
    this.#table = undefined;
    this.#held = { instrument: "", standard: "", at: 0 };
    this.#signed = false;
    this.#digest = undefined;
    const c = this.#cursor;
    c.problems = [];
    const text = lines[from];
    const plan = parseLine(text);
    c.use(text, plan, 0);
    if (plan.kind === "header") {
      this.#draft = emptyBlock(plan.row?.word as BlockKind);
      this.#note(plan);
      readHeader(c, this.#draft);
    } else if (isMistypedHeader(plan, text)) {
      this.#draft = emptyBlock("unnamed");
      unknownWord(c);
    } else {
      this.#draft = emptyBlock("preface");
      this.#order = -1;
      this.line(from);
    }
  }

  /** What is the same for every line: odd characters, unclosed quotes, repeated words, the break. */
  #note(plan: Plan): void {
    const c = this.#cursor;
    if (scanned.odd) oddCharacters(c);
    for (let i = 0; i < scanned.count; i++)
      if (scanned.types[i] === T.OpenText) c.problemAt("unclosed-quote", i, i + 1);
    if (plan.repeated) c.problemAt("repeated-word", plan.repeated.from, plan.repeated.to, plan.repeated.role);
    if (plan.broken >= 0) explainBreak(c);
  }

  /**
   * Adds the line at a position of the document given to `start`.
   * @param plan of that line, when it was the last one parsed
   */
  line(position: number, plan: Plan = parseLine(this.#lines.lines[position])): void {
    const text = this.#lines.lines[position];
    const c = this.#cursor;
    switch (plan.kind) {
      case "blank":
        return;
      case "row":
        this.#order++;
        c.use(text, plan, this.#order);
        this.#row(plan);
        return;
      case "unknown": {
        this.#order++;
        c.use(text, plan, this.#order);
        if (scanned.odd) oddCharacters(c);
        unknownWord(c);
        push(this.#draft, "unread", nearLeading(c.image(0))[0] ?? c.image(0));
        this.#table = { kind: "broken" };
        this.#afterSign();
        return;
      }
      case "header":
      case "member":
        this.#member(text, plan, plan.row as WordRow, position);
    }
  }

  #afterSign(): void {
    if (this.#signed && isWork(this.#draft) && this.#draft.afterSign < 0) this.#draft.afterSign = this.#order;
  }

  #member(text: string, plan: Plan, row: WordRow, position: number): void {
    const c = this.#cursor;
    const draft = this.#draft;
    if (row.word === "note") {
      this.#afterSign();
      return;
    }
    this.#order++;
    c.use(text, plan, this.#order);
    this.#note(plan);
    if (!PASSES_TABLE.has(row.word)) this.#endTable();
    if (row.word !== "sign") this.#afterSign();
    if (plan.broken >= 0) {
      push(draft, "unread", row.word);
      if (row.opensTable) this.#table = { kind: "broken" };
      return;
    }
    if (draft.kind === "unnamed") {
      if (row.opensTable) this.#table = { kind: "broken" };
      return;
    }
    if (!row.blocks.includes(draft.kind as BlockKind)) {
      c.problemAt("wrong-block", 0, 1, row.word, draft.kind, ...row.blocks);
      if (row.opensTable) this.#table = { kind: "broken" };
      return;
    }
    if (!isWork(draft)) {
      if (row.word === "torque" && draft.kind === "limits") torqueLimit(c, draft);
      else (otherReaders[row.word] ?? referenceReaders[row.word])?.(c, draft);
      return;
    }
    switch (row.word) {
      case "with":
        this.#held = { instrument: c.word("with"), standard: c.word("standard"), at: c.at };
        return;
      case "grid":
        this.#table = openGrid(c, this.#held);
        return;
      case "compression":
        this.#table = openCompression(c, this.#held);
        return;
      case "log":
        if (c.has("file"))
          push(draft, "logFiles", {
            at: c.at,
            path: c.quoted("file"),
            digest: c.word("digest").replace(/^sha256:/u, ""),
            maps: [],
          });
        else this.#table = openLog(c);
        return;
      case "date": {
        const date = c.date("date");
        if (this.#table?.kind === "log" && date !== undefined && draft.date !== undefined)
          this.#table.days = daysBetween(draft.date, date);
        return;
      }
      case "sign":
        this.#sign(position);
        return;
      case "check": {
        workReaders.check?.(c, draft, this.#held);
        const rows = draft.logs.reduce((sum, log) => sum + log.rows.length, 0);
        const last = draft.checks.at(-1);
        if (last && rows > 0) draft.checks[draft.checks.length - 1] = { ...last, afterRows: rows };
        return;
      }
      default:
        workReaders[row.word]?.(c, draft, this.#held);
    }
  }

  #sign(position: number): void {
    const c = this.#cursor;
    const draft = this.#draft as Mutable<WorkBlock>;
    const on = c.date("on");
    this.#signed = true;
    if (draft.afterSign >= 0) draft.afterSign = -1; // a later signature covers what stands between
    if (on === undefined) return;
    const seal = c.word("seal");
    const fact = {
      at: c.at,
      role: c.word("role"),
      person: c.word("person"),
      on,
      time: c.time("time"),
      seal,
      textDigest: "",
    };
    if (seal !== "") fact.textDigest = this.#digestAbove(position);
    push(draft, "signs", fact);
  }

  /** The digest of the block's text above a line. Later seals go on from where the last one ended: a block is read once, however many sign. */
  #digestAbove(position: number): string {
    const { lines, from } = this.#lines;
    this.#digest ??= { upTo: from, hash: sha256.create(), empty: true };
    const digest = this.#digest;
    for (let i = digest.upTo; i < position; i++) {
      const text = canonicalLine(lines[i]);
      if (text === "") continue;
      digest.hash.update(utf8ToBytes(digest.empty ? text : `\n${text}`));
      digest.empty = false;
    }
    digest.upTo = position;
    return bytesToHex(digest.hash.clone().digest());
  }

  #row(plan: Plan): void {
    const c = this.#cursor;
    const draft = this.#draft;
    this.#afterSign();
    // Under a heading that is a finding itself nothing more is said, in whichever block it stands.
    if (draft.kind === "unnamed" || this.#table?.kind === "broken") return;
    if (!this.#table || !isWork(draft)) {
      c.problemAt("row-without-table", 0, 1, c.image(0));
      return;
    }
    if (scanned.odd) oddCharacters(c);
    if (plan.broken >= 0) {
      explainBreak(c);
      // What was understood before the break is kept only where every cell is there.
      return;
    }
    switch (this.#table.kind) {
      case "grid":
        if (draft.readings.length === 0) draft.readings = [];
        gridRow(c, this.#table, draft.readings);
        return;
      case "log":
        logRow(c, this.#table);
        return;
      case "compression":
        compressionRow(c, this.#table);
    }
  }

  #endTable(): void {
    const table = this.#table;
    this.#table = undefined;
    if (!table || !isWork(this.#draft)) return;
    if (table.kind === "log") push(this.#draft, "logs", closeLog(table));
    else if (table.kind === "compression") push(this.#draft, "compressions", { ...table.table, rows: table.rows });
  }

  /** Ends the block. */
  finish(): Block {
    this.#endTable();
    const draft = this.#draft;
    if (this.#cursor.problems.length > 0) draft.problems = this.#cursor.problems;
    return draft;
  }
}

function oddCharacters(c: Cursor): void {
  const text = c.text;
  const end = scanned.comment < 0 ? text.length : scanned.comment;
  let token = 0;
  for (let i = 0; i < end; i++) {
    if (text.charCodeAt(i) < 128) continue;
    while (token < scanned.count && scanned.ends[token] <= i) token++;
    const inside = token < scanned.count && scanned.starts[token] <= i;
    const type = inside ? scanned.types[token] : 0;
    if (type === T.Text || type === T.OpenText) {
      const edge = i === scanned.starts[token] || i === scanned.ends[token] - 1;
      if (!edge || /[\p{L}\p{M}\p{N}]/u.test(text[i])) continue;
    }
    const ch = text[i];
    if (/[\p{L}\p{M}\p{N}]/u.test(ch) || (ch >= "\ud800" && ch <= "\udfff")) continue;
    const plain =
      PLAIN[ch] ??
      (/[\p{Zs}\ufeff\u200b]/u.test(ch)
        ? " "
        : /[\u2010-\u2015\u2212]/u.test(ch)
          ? "-"
          : /[\u201c\u201d\u201e\u00ab\u00bb]/u.test(ch)
            ? '"'
            : ch === "\u00b0"
              ? ""
              : undefined);
    if (plain !== undefined && !(i === 0 && ch === "\ufeff")) c.problem("odd-character", i, i + 1, ch, plain);
  }
}

function torqueLimit(c: Cursor, limits: Extract<Draft, { kind: "limits" }>): void {
  const place = c.place("place");
  const bounds = c.bounds("value");
  if (!place || !bounds) return;
  push(limits, "torques", {
    at: c.at,
    place,
    bounds,
    lubrication: c.has("lube") ? c.word("lube") : c.quoted("compound"),
    locking: c.word("locking"),
    retorque: c.has("retorque"),
    reference: c.quoted("ref"),
  });
}

/** A clause that the block cannot do without. */
function wants(c: Cursor, role: string, clause: string): void {
  if (!c.has(role) && c.plan.broken < 0) c.problem("clause-missing", scanned.starts[0], scanned.ends[0], clause);
}

function readHeader(c: Cursor, draft: Draft): void {
  draft.headerBroken = c.plan.broken >= 0;
  draft.name = c.word("name");
  draft.title = c.quoted("title");
  switch (draft.kind) {
    case "shop":
      draft.ref = "shop";
      return;
    case "limits":
      draft.type = c.word("type");
      draft.revision = c.word("revision");
      draft.from = c.date("from");
      draft.name = `${draft.type}/${draft.revision}`;
      draft.ref = `limits/${draft.name}`;
      return;
    case "run-in":
      draft.type = c.word("type");
      draft.name = c.has("variant") ? `${draft.type}/${c.word("variant")}` : draft.type;
      draft.ref = `run-in/${draft.name}`;
      return;
    case "task":
      draft.type = c.word("type");
      draft.every = c.qAll("every");
      draft.first = c.qAll("first");
      draft.tolerance = c.qAll("tolerance");
      draft.sign = c.word("sign");
      draft.independent = c.has("independent");
      draft.about = c.quoted("about");
      break;
    case "bulletin":
      draft.type = c.word("type");
      draft.force = c.has("mandatory") ? "mandatory" : c.has("recommended") ? "recommended" : "optional";
      draft.by = c.date("by");
      draft.within = c.q("within");
      draft.repeat = c.q("repeat");
      draft.serials = c.quoted("serials");
      break;
    case "route":
    case "engine":
      draft.type = c.word("type");
      break;
    case "alert":
      draft.on = c.date("on");
      break;
    case "job":
      draft.engine = c.word("engine");
      draft.route = c.word("route");
      draft.limits = c.word("limits");
      draft.runIn = c.word("run-in");
      break;
    case "account":
      draft.job = c.word("job");
      draft.name = draft.job;
      break;
    case "entry":
    case "run":
    case "release":
    case "dispatch":
      workHeader(c, draft);
      return;
    default:
      break;
  }
  draft.ref = `${draft.kind}/${draft.name}`;
}

function workHeader(c: Cursor, work: Mutable<WorkBlock>): void {
  work.job = c.word("job");
  work.date = c.date("date");
  work.time = c.time("time");
  work.by = c.word("by");
  switch (work.kind) {
    case "entry":
      work.step = c.word("step");
      work.engine = c.word("engine");
      work.atCounter = c.word("at");
      work.atHours = c.q("hours", ["time", "count:cycles", "count:landings", "count:starts"]);
      if (!c.has("engine")) wants(c, "job", "job NAME");
      break;
    case "run":
      work.step = "stand";
      work.stand = c.word("stand");
      work.second = c.word("second");
      work.runIn = c.word("run-in");
      wants(c, "job", "job NAME");
      wants(c, "by", "by PERSON");
      break;
    case "release":
      work.step = "release";
      work.statement = c.quoted("statement");
      work.except = c.words("except");
      work.name = "release";
      break;
    case "dispatch":
      work.step = "pack";
      work.to = c.quoted("to");
      work.by = c.has("by") ? unquote(c.word("by")) : "";
      work.crate = c.quoted("crate");
      work.name = "dispatch";
      break;
  }
  work.ref = `${work.job !== "" ? work.job : `engine:${work.engine}`}/${work.name}`;
}

/**
 * Summarises the lines of one block.
 * @param from the header, or the first line of a text without one
 * @param to one past the last line
 */
export function summarise(
  lines: readonly string[],
  from: number,
  to: number,
  with_: Summariser = new Summariser(),
): Block {
  with_.start(lines, from);
  for (let i = from + 1; i < to; i++) with_.line(i);
  return with_.finish();
}

/** The settings of a folder without a `shop` block. */
export const DEFAULT_SHOP: ShopBlock = emptyBlock("shop") as ShopBlock;
