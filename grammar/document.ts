/**
 * Lines to blocks. A block is a header line and the lines after it, up to the next header; nothing else marks its end.
 *
 * The lead of a line says all that blocks depend on, so a document keeps one number a line and finds its blocks in one pass from the top.
 */
import { parseLine, type Plan, scanned } from "./line-parser.ts";
import { slipsAllowed, spellingDistance } from "./nearest.ts";
import { KEYWORDS } from "./tokens.ts";
import { WORDS } from "./words.ts";

/** What a line's first word makes of it. A position in the table of words plus one, or one of the values below. */
export type Lead = number;
export const LEAD_BLANK = 0;
export const LEAD_ROW = 256;
/** An unknown first word: the line is a finding and stays in its block. */
export const LEAD_UNKNOWN = 257;
/** An unknown first word that is nearly a header: it opens a block without a name, so that its lines never join the block above. */
export const LEAD_UNKNOWN_HEADER = 258;

const headerWords = WORDS.filter((row) => row.kind === "header").map((row) => row.word);
const memberWords = WORDS.filter((row) => row.kind === "member").flatMap((row) => [row.word, ...(row.also ?? [])]);
const known = new Set(KEYWORDS);

const nearKept = new Map<string, boolean>();

/** Whether a first word that is not known is nearer to a header word than to any member word (a tie goes to the header: nothing may join the block above by mistake). */
export function isNearHeader(word: string): boolean {
  let near = nearKept.get(word);
  if (near === undefined) {
    near = judgeNear(word.toLowerCase());
    if (nearKept.size > 4096) nearKept.clear();
    nearKept.set(word, near);
  }
  return near;
}

function judgeNear(word: string): boolean {
  const allowed = slipsAllowed(word);
  let header = allowed + 1;
  for (const candidate of headerWords) header = Math.min(header, spellingDistance(word, candidate, allowed));
  if (header > allowed) return false;
  for (const candidate of memberWords) if (spellingDistance(word, candidate, header) < header) return false;
  return true;
}

/** The lead of a line that was just parsed. */
export function leadOfPlan(plan: Plan, text: string): Lead {
  switch (plan.kind) {
    case "blank":
      return LEAD_BLANK;
    case "row":
      return LEAD_ROW;
    case "header":
    case "member":
      return plan.word + 1;
    case "unknown": {
      const word = text.slice(scanned.starts[0], scanned.ends[0]).replace(/[^\p{L}\d-].*$/u, "");
      return !known.has(word) && isNearHeader(word) ? LEAD_UNKNOWN_HEADER : LEAD_UNKNOWN;
    }
  }
}

/** Parses a line and tells its lead; the tokens stay in `scanned` until the next line is scanned. */
export function leadOf(text: string): Lead {
  return leadOfPlan(parseLine(text), text);
}

/** Whether a line with this lead opens a block. */
export function opensBlock(lead: Lead): boolean {
  return lead === LEAD_UNKNOWN_HEADER || (lead > 0 && lead < LEAD_ROW && WORDS[lead - 1]?.kind === "header");
}

/** Lines `from` up to but not including `to`. The lines before the first header form a span whose lead is blank. */
export interface BlockSpan {
  readonly from: number;
  readonly to: number;
  readonly lead: Lead;
}

/** The blocks of a document, from the leads of its lines; together they hold every line once. */
export function blocksOf(leads: ArrayLike<Lead>): BlockSpan[] {
  const spans: BlockSpan[] = [];
  let from = 0;
  let lead: Lead = LEAD_BLANK;
  for (let i = 0; i < leads.length; i++) {
    const here = leads[i] as Lead;
    if (!opensBlock(here)) continue;
    if (i > from) spans.push({ from, to: i, lead });
    from = i;
    lead = here;
  }
  if (leads.length > from) spans.push({ from, to: leads.length, lead });
  return spans;
}

/** Splits text into lines; LF and CRLF end a line, and a text that ends with a line end has no empty line after it but keeps one for the cursor. */
export function splitLines(text: string): string[] {
  const lines = text.split("\n");
  for (let i = 0; i < lines.length; i++) {
    const line = lines[i] as string;
    if (line.endsWith("\r")) lines[i] = line.slice(0, -1);
  }
  return lines;
}
