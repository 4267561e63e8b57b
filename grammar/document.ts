/**
 * Lines to blocks. A block is a header line and the lines after it, up to the next header; nothing else marks its end.
 *
 * The lead of a line says all that blocks depend on, so a document keeps one number a line and finds its blocks in one pass from the top.
 */
import { type Plan, parseLine, scanned } from "./line-parser.ts";
import { slipsAllowed, spellingDistance } from "./nearest.ts";
import { KEYWORDS, scan, T } from "./tokens.ts";
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

const kept = new Map<string, boolean>();

/** How many tokens of the line can be read when its first word is taken for another. */
function readsAs(text: string, word: string, other: string): number {
  const from = text.indexOf(word);
  const plan = parseLine(other + text.slice(from + word.length));
  return plan.broken < 0 ? Number.POSITIVE_INFINITY : plan.broken;
}

/**
 * Whether a line whose first word leads nowhere is a header with a slip of the pen. Header words and member words within reach are tried; the one with
 * which the line reads furthest wins, then the one with fewer slips, and a tie goes to the header: nothing may join the block above by mistake.
 */
function isMistyped(text: string, word: string): boolean {
  const lower = word.toLowerCase();
  const allowed = slipsAllowed(word);
  const best = (candidates: readonly string[]): { reads: number; slips: number } => {
    let found = { reads: -1, slips: allowed + 1 };
    for (const candidate of candidates) {
      const slips = spellingDistance(lower, candidate, allowed);
      if (slips > allowed) continue;
      const reads = readsAs(text, word, candidate);
      if (reads > found.reads || (reads === found.reads && slips < found.slips)) found = { reads, slips };
    }
    return found;
  };
  const header = best(headerWords);
  if (header.reads < 0) return false;
  const member = best(memberWords);
  return header.reads > member.reads || (header.reads === member.reads && header.slips <= member.slips);
}

/** A line of the right spelling for a member that cannot be read, one letter from a header with which it can: `limit TYPE revision ...`. */
function isShortened(text: string, plan: Plan): boolean {
  const word = plan.row?.word ?? "";
  return headerWords.some(
    (header) => spellingDistance(word, header, 1) === 1 && readsAs(text, word, header) > plan.broken,
  );
}

/** Whether the line just parsed opens a block although its first word is no header word. */
export function isMistypedHeader(plan: Plan, text: string): boolean {
  if (!(plan.kind === "unknown" || (plan.kind === "member" && plan.broken >= 0))) return false;
  const first = scanned.types[0];
  if (plan.kind === "unknown" && (first === T.Text || first === T.OpenText)) return false;
  const seen = kept.get(text);
  if (seen !== undefined) return seen;
  let found: boolean;
  if (plan.kind === "member") found = isShortened(text, plan);
  else {
    const word = text.slice(scanned.starts[0], scanned.ends[0]).replace(/[^\p{L}\d-].*$/u, "");
    found = word !== "" && !known.has(word) && isMistyped(text, word);
  }
  scan(text); // the trials went through the scanner's arrays
  if (kept.size > 4096) kept.clear();
  kept.set(text, found);
  return found;
}

/** The lead of a line that was just parsed. */
export function leadOfPlan(plan: Plan, text: string): Lead {
  switch (plan.kind) {
    case "blank":
      return LEAD_BLANK;
    case "row":
      return LEAD_ROW;
    case "header":
      return plan.word + 1;
    case "member":
      return plan.broken >= 0 && isMistypedHeader(plan, text) ? LEAD_UNKNOWN_HEADER : plan.word + 1;
    case "unknown":
      return isMistypedHeader(plan, text) ? LEAD_UNKNOWN_HEADER : LEAD_UNKNOWN;
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
    const here = leads[i];
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
    const line = lines[i];
    if (line.endsWith("\r")) lines[i] = line.slice(0, -1);
  }
  return lines;
}
