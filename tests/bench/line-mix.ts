/** What kinds of line a text is made of: the word that leads each, or what else it is. */
import { parseLine } from "../../grammar/line-parser.ts";

/** @returns share of each kind in percent of all lines */
export function lineMix(texts: Iterable<string>): Map<string, number> {
  const counts = new Map<string, number>();
  let total = 0;
  for (const text of texts) {
    for (const line of text.replace(/\n$/u, "").split("\n")) {
      const plan = parseLine(line);
      const kind = plan.kind === "header" || plan.kind === "member" ? (plan.row?.word ?? plan.kind) : plan.kind;
      counts.set(kind, (counts.get(kind) ?? 0) + 1);
      total++;
    }
  }
  return new Map([...counts].map(([kind, count]) => [kind, (100 * count) / total]));
}
