/** Findings with their places in a file, as its text is now. */
import { locate } from "../workspace/locate.ts";
import type { BlockEntry } from "../workspace/workspace.ts";
import type { Judged, LocatedFinding } from "./finding.ts";

function locateOne(
  entry: BlockEntry,
  judged: Judged,
  entryOf: (ref: string) => BlockEntry | undefined,
): LocatedFinding {
  const place = locate(entry, judged.finding.spot);
  const related = judged.finding.related.flatMap((one) => {
    const other = entryOf(one.ref);
    return other ? [{ path: other.document.path, ...locate(other, one.spot), says: one.says }] : [];
  });
  return { ...judged, path: entry.document.path, ...place, related };
}

/**
 * @param judged findings of one file, each with the block in which it stands
 * @param entryOf the block of a name: related places may be in any file
 * @returns in order of line, column and code
 */
export function locateFindings(
  judged: readonly { readonly entry: BlockEntry; readonly one: Judged }[],
  entryOf: (ref: string) => BlockEntry | undefined,
): LocatedFinding[] {
  return judged
    .map(({ entry, one }) => locateOne(entry, one, entryOf))
    .sort(
      (a, b) =>
        a.line - b.line ||
        a.from - b.from ||
        (a.finding.code < b.finding.code ? -1 : a.finding.code > b.finding.code ? 1 : 0),
    );
}
