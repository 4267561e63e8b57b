/** The rows that a table of readings or compressions wants, from the engine type. */
import type { Ask } from "../checking/ask.ts";
import { parsePlace, pathsOf } from "../facts/place.ts";
import { placesOfType } from "../totals/coverage.ts";
import { cylinderNumbers } from "../totals/engine-shape.ts";
import type { BlockEntry, ShopDocument } from "../workspace/workspace.ts";
import { headingOf, leadWord, type ReadLine, readLine } from "./under-cursor.ts";

export interface WantedTable {
  /** Line of the heading. */
  readonly heading: number;
  /** Row labels in order. */
  readonly labels: readonly string[];
  /** Cells behind each label. */
  readonly cells: number;
}

function shapeOf(ask: Ask, type: string, heading: ReadLine): Omit<WantedTable, "heading"> | undefined {
  const word = leadWord(heading);
  if (word === "compression") return { labels: cylinderNumbers(ask.engineType(type)).map(String), cells: 1 };
  if (word !== "grid") return undefined;
  const place = parsePlace((heading.tokens[1]?.text ?? "").replace(/\/[^\]]*$/u, ""));
  if (!place) return undefined;
  const prefix = place.levels.length > 0 ? `${pathsOf(place)[0]}/` : "";
  const depth = prefix.split("/").length - 1;
  const paths = placesOfType(type, place.feature, ask).filter((path) => path.startsWith(prefix));
  const labels = [...new Set(paths.map((path) => path.split("/")[depth] ?? ""))].filter((label) => label !== "");
  return { labels, cells: Math.max(1, heading.plan.fields.filter((field) => field.role === "cell").length) };
}

/** The table to which a line belongs, as its heading or as one of its rows. @param type of the engine */
export function tableAt(
  ask: Ask,
  type: string,
  document: ShopDocument,
  entry: BlockEntry,
  line: number,
): WantedTable | undefined {
  const own = readLine(document.lines[line] ?? "");
  const heading = own.plan.row?.opensTable ? { line, read: own } : headingOf(document, entry, line);
  const shape = heading && shapeOf(ask, type, heading.read);
  return shape && { heading: heading.line, ...shape };
}

/** Labels of the rows below a heading. @param leaveOut a line that is being typed and does not count, -1 for none */
export function labelsIn(lines: readonly string[], heading: number, leaveOut = -1): ReadonlyMap<string, number> {
  const labels = new Map<string, number>();
  for (let i = heading + 1; i < lines.length; i++) {
    if (i === leaveOut) continue;
    const read = readLine(lines[i] ?? "");
    if (read.plan.kind === "blank" || leadWord(read) === "note") continue;
    if (read.plan.kind !== "row") break;
    labels.set((read.tokens[0]?.text ?? "").replace(/:$/u, ""), i);
  }
  return labels;
}
