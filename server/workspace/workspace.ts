/**
 * The files of a shop as lines, blocks and facts. An edit costs the lines that changed and the block around them.
 *
 * Knows nothing of disks: a host gives it text by path. Paths are relative to the shop's folder, with forward slashes.
 */
import { canonicalBlock } from "../../grammar/canonical.ts";
import {
  type BlockSpan,
  blocksOf,
  LEAD_BLANK,
  type Lead,
  leadOf,
  leadOfPlan,
  opensBlock,
  splitLines,
} from "../../grammar/document.ts";
import { importPlans, parseLine } from "../../grammar/line-parser.ts";
import { PLANS, PLANS_FINGERPRINT } from "../../grammar/plans.ts";
import { WORDS } from "../../grammar/words.ts";
import { reuseMembers } from "../facts/same.ts";
import { Summariser, summarise } from "../facts/summarise.ts";
import type { At, Block } from "../facts/types.ts";

/** A block in its file. The object lives as long as the block does; lines and facts are replaced. */
export interface BlockEntry {
  readonly document: ShopDocument;
  /** First line, counted from 0. */
  from: number;
  /** One past the last line. */
  to: number;
  facts: Block;
}

export interface ShopDocument {
  readonly path: string;
  readonly lines: string[];
  readonly leads: Lead[];
  blocks: BlockEntry[];
}

/** What an edit did to the blocks. */
export interface Change {
  readonly added: readonly BlockEntry[];
  readonly removed: readonly BlockEntry[];
  readonly changed: readonly { readonly entry: BlockEntry; readonly before: Block }[];
  /** Blocks that stayed and whose lines were read again, whether or not a fact changed: a note may have. */
  readonly touched?: readonly BlockEntry[];
}

const NOTE = WORDS.findIndex((row) => row.word === "note") + 1;
const NO_CHANGE: Change = { added: [], removed: [], changed: [] };

let plansLoaded = false;

/** Once a program: lines of usual shapes are then read without building the parser for them. */
function loadPlans(): void {
  if (plansLoaded) return;
  plansLoaded = true;
  importPlans(JSON.parse(PLANS) as readonly unknown[], PLANS_FINGERPRINT);
}

export class Workspace {
  readonly #documents = new Map<string, ShopDocument>();

  constructor() {
    loadPlans();
  }

  readonly #summariser = new Summariser();

  get documents(): ReadonlyMap<string, ShopDocument> {
    return this.#documents;
  }

  document(path: string): ShopDocument | undefined {
    return this.#documents.get(path);
  }

  /** Adds a file, or replaces its text; a replaced file keeps the blocks that did not change. */
  setText(path: string, text: string): Change {
    const lines = splitLines(text);
    const present = this.#documents.get(path);
    if (present) {
      let start = 0;
      const shorter = Math.min(lines.length, present.lines.length);
      while (start < shorter && lines[start] === present.lines[start]) start++;
      let end = 0;
      while (end < shorter - start && lines[lines.length - 1 - end] === present.lines[present.lines.length - 1 - end])
        end++;
      if (start === lines.length && lines.length === present.lines.length) return NO_CHANGE;
      return this.edit(path, start, present.lines.length - end - start, lines.slice(start, lines.length - end));
    }
    const document: ShopDocument = { path, lines, leads: new Array<Lead>(lines.length), blocks: [] };
    this.#documents.set(path, document);
    this.#read(document);
    return { added: document.blocks, removed: [], changed: [] };
  }

  /** First reading of a whole file: each line is parsed once. */
  #read(document: ShopDocument): void {
    const { lines, leads } = document;
    const summariser = this.#summariser;
    let from = 0;
    let open = false;
    for (let i = 0; i < lines.length; i++) {
      const text = lines[i];
      const plan = parseLine(text);
      const lead = leadOfPlan(plan, text);
      leads[i] = lead;
      if (opensBlock(lead) || !open) {
        if (open) document.blocks.push({ document, from, to: i, facts: summariser.finish() });
        from = i;
        open = true;
        summariser.start(lines, i);
      } else if (lead !== LEAD_BLANK) summariser.line(i, plan);
    }
    if (open) document.blocks.push({ document, from, to: lines.length, facts: summariser.finish() });
  }

  /**
   * Replaces lines.
   * @param from first line replaced
   * @param count how many lines go
   * @param lines what stands there instead
   */
  edit(path: string, from: number, count: number, lines: readonly string[]): Change {
    const document = this.#documents.get(path);
    if (!document) return this.setText(path, lines.join("\n"));
    const newLeads = lines.map(leadOf);
    splice(document.lines, from, count, lines);
    splice(document.leads, from, count, newLeads);
    const shift = lines.length - count;

    // Blocks wholly above and wholly below the edit stay as they are. A block that ends where the edit begins may grow.
    const old = document.blocks;
    let above = 0;
    while (above < old.length && old[above].to < from) above++;
    if (above > 0 && above === old.length) above--;
    let below = old.length;
    while (below > above && old[below - 1].from >= from + count && old[below - 1].from > from) below--;
    const first = above < old.length ? old[above].from : 0;
    const last = below < old.length ? old[below].from + shift : document.lines.length;

    const spans = spansBetween(document.leads, first, last);
    const touched = old.slice(above, below);
    const added: BlockEntry[] = [];
    const removed: BlockEntry[] = [];
    const changed: { entry: BlockEntry; before: Block }[] = [];
    const fresh = spans.map((span) => summarise(document.lines, span.from, span.to, this.#summariser));
    const entries: BlockEntry[] = [];
    // Blocks keep their identity while the sequence of their names is the same; otherwise the whole stretch is taken as new.
    const keep =
      touched.length === fresh.length &&
      touched.every((entry, i) => entry.facts.ref === fresh[i].ref && entry.facts.kind === fresh[i].kind);
    for (const [i, span] of spans.entries()) {
      const facts = fresh[i];
      if (keep) {
        const entry = touched[i];
        entry.from = span.from;
        entry.to = span.to;
        const next = reuseMembers(entry.facts, facts);
        if (next !== entry.facts) {
          changed.push({ entry, before: entry.facts });
          entry.facts = next;
        }
        entries.push(entry);
      } else {
        const entry = { document, from: span.from, to: span.to, facts };
        added.push(entry);
        entries.push(entry);
      }
    }
    if (!keep) removed.push(...touched);
    for (let i = below; i < old.length; i++) {
      const entry = old[i];
      entry.from += shift;
      entry.to += shift;
    }
    if (keep) for (let i = 0; i < entries.length; i++) old[above + i] = entries[i];
    else document.blocks = [...old.slice(0, above), ...entries, ...old.slice(below)];
    return { added, removed, changed, touched: keep ? entries : [] };
  }

  remove(path: string): Change {
    const document = this.#documents.get(path);
    if (!document) return NO_CHANGE;
    this.#documents.delete(path);
    return { added: [], removed: document.blocks, changed: [] };
  }
}

/** `Array.prototype.splice` without spreading a long list into arguments. */
function splice<T>(list: T[], from: number, count: number, items: readonly T[]): void {
  if (items.length < 10_000) {
    list.splice(from, count, ...items);
    return;
  }
  const tail = list.slice(from + count);
  list.length = from;
  for (const item of items) list.push(item);
  for (const item of tail) list.push(item);
}

function spansBetween(leads: readonly Lead[], from: number, to: number): BlockSpan[] {
  return blocksOf(leads.slice(from, to)).map((span) => ({ ...span, from: span.from + from, to: span.to + from }));
}

/** The position in the document of the line that a fact names, or the block's first line when the fact is older than the text. */
export function lineOf(entry: BlockEntry, at: At): number {
  const { leads } = entry.document;
  let order = -1;
  for (let i = entry.from; i < entry.to; i++) {
    const lead = leads[i];
    if (lead === LEAD_BLANK || lead === NOTE) continue;
    order++;
    if (order === at) return i;
  }
  return entry.from;
}

/** The `at` of a line of the document, or undefined for blank lines and notes. */
export function atOf(entry: BlockEntry, line: number): At | undefined {
  const { leads } = entry.document;
  let order = -1;
  for (let i = entry.from; i <= line && i < entry.to; i++) {
    const lead = leads[i];
    if (lead === LEAD_BLANK || lead === NOTE) {
      if (i === line) return undefined;
      continue;
    }
    order++;
  }
  return order;
}

/** The canonical text of a block as it stands: what digests are taken over. */
export function canonicalTextOf(entry: BlockEntry): string {
  return canonicalBlock(entry.document.lines.slice(entry.from, entry.to));
}

/** The block in which a line stands. */
export function blockAt(document: ShopDocument, line: number): BlockEntry | undefined {
  let low = 0;
  let high = document.blocks.length - 1;
  while (low <= high) {
    const middle = (low + high) >> 1;
    const entry = document.blocks[middle];
    if (line < entry.from) high = middle - 1;
    else if (line >= entry.to) low = middle + 1;
    else return entry;
  }
  return undefined;
}
