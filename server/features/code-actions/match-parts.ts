/** Moves that put each measured part where every clearance is inside its new limits and the spread is least. */
import { count } from "../../report/wording.ts";
import { matchable, matching } from "../../totals/matching.ts";
import { beforeSigns, insertBelow, sealedTo } from "../edits.ts";
import { leadWord, readLine } from "../under-cursor.ts";
import { type Action, refactor } from "./context.ts";

export const matchParts: Action = ({ ask, path, range, entry, work, scope }) => {
  if (work?.kind !== "entry" || scope === "" || scope.startsWith("engine:") || sealedTo(entry, true) >= 0) return [];
  const word = leadWord(readLine(entry.document.lines[range.start.line] ?? ""));
  if (word !== "entry" && word !== "move") return [];
  return matchable(ask, scope).flatMap((line) => {
    const { figure, assembly, moves } = matching(ask, scope, line);
    if (!assembly.ok || moves.length === 0) return [];
    return refactor(
      path,
      `Match ${figure}: ${count(moves.length, "move")}, clearances ${assembly.least_mm} to ${assembly.greatest_mm} mm`,
      [insertBelow(entry, beforeSigns(entry), moves)],
    );
  });
};
