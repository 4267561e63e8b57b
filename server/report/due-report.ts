/** What falls due on each engine, what is past first. */
import type { Ask } from "../checking/ask.ts";
import { formatDate } from "../quantity/civil-date.ts";
import { type DueItem, dueItems, dueText, leftText } from "../totals/due-items.ts";

const RANK: Readonly<Record<DueItem["verdict"], number>> = {
  "beyond-tolerance": 0,
  overdue: 1,
  "never-done": 2,
  unknown: 3,
  "due-soon": 4,
  ahead: 5,
  done: 6,
};
const SAYS: Readonly<Record<DueItem["verdict"], string>> = {
  "beyond-tolerance": "past its tolerance",
  overdue: "past",
  "never-done": "never done",
  unknown: "not known",
  "due-soon": "within notice",
  ahead: "ahead",
  done: "done",
};

/** Items of an engine in the order in which they want attention. */
export function inOrder(items: readonly DueItem[]): DueItem[] {
  return items
    .filter((item) => item.verdict !== "done")
    .sort((a, b) => RANK[a.verdict] - RANK[b.verdict] || leftShare(a) - leftShare(b) || (a.name < b.name ? -1 : 1));
}

/** What is left of the measure that decides, in its own unit; items without one come last. */
function leftShare(item: DueItem): number {
  return item.governing?.left ?? Number.POSITIVE_INFINITY;
}

/** One item as a line of cells: standing, what, when due, what is left, when last done. */
export function dueRow(item: DueItem): string[] {
  const { governing, last } = item;
  return [
    SAYS[item.verdict],
    item.kind,
    item.name,
    governing ? dueText(governing) : item.reason,
    governing ? `${leftText(governing)} ${governing.left < 0 ? "past" : "left"}` : "",
    last
      ? `last ${formatDate(last.date)}${last.hours_h === undefined ? "" : ` at ${last.hours_h.toFixed(1)} h`}`
      : "not done yet",
  ];
}

function isWithin(item: DueItem, within: { readonly days?: number; readonly hours?: number }): boolean {
  if (item.verdict !== "ahead" && item.verdict !== "due-soon") return true;
  return item.measures.some((measure) => {
    if (measure.measure === "calendar") return within.days !== undefined && measure.left <= within.days;
    return measure.measure === "hours" && within.hours !== undefined && measure.left <= within.hours;
  });
}

/** Columns padded to the widest cell. */
export function columns(rows: readonly (readonly string[])[]): string[] {
  const widths: number[] = [];
  for (const row of rows) for (const [i, cell] of row.entries()) widths[i] = Math.max(widths[i] ?? 0, cell.length);
  return rows.map((row) =>
    row
      .map((cell, i) => (i === row.length - 1 ? cell : cell.padEnd(widths[i] ?? 0)))
      .join("  ")
      .trimEnd(),
  );
}

/** @param within keeps only what is past or this near */
export function dueReport(ask: Ask, within?: { readonly days?: number; readonly hours?: number }): string {
  const out: string[] = [`Due items as of ${formatDate(ask.asOf())}`];
  for (const engine of ask.engines()) {
    const items = inOrder(ask.total(dueItems, engine.name)).filter(
      (item) => within === undefined || isWithin(item, within),
    );
    out.push("", `${engine.name} ${engine.type}${engine.owner === "" ? "" : `, ${engine.owner}`}`);
    if (items.length === 0)
      out.push(within === undefined ? "  nothing is laid down for this type" : "  nothing within that span");
    else out.push(...columns(items.map(dueRow)).map((line) => `  ${line}`));
  }
  if (ask.engines().length === 0) out.push("", "There are no engines in these records.");
  return out.join("\n");
}
