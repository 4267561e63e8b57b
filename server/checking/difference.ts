/** How the findings of two runs over the same text differ: they must not. */
import type { LocatedFinding } from "./finding.ts";

function show(one: LocatedFinding): string {
  const place = `${one.path}:${one.line + 1}:${one.from + 1}-${one.to + 1}`;
  return `${place} ${one.severity}${one.quiet ? " (quiet)" : ""} ${one.finding.code} ${one.finding.message}`;
}

/**
 * @param kept what the incremental state says
 * @param fresh what a run from scratch says
 * @returns one line each; empty when they say the same
 */
export function differences(kept: readonly LocatedFinding[], fresh: readonly LocatedFinding[]): string[] {
  const here = kept.map(show);
  const there = fresh.map(show);
  return [
    ...subtract(there, here).map((line) => `missing: ${line}`),
    ...subtract(here, there).map((line) => `stale: ${line}`),
  ];
}

/** What one list has that another has not, counting repetitions. */
function subtract(from: readonly string[], what: readonly string[]): string[] {
  const counts = new Map<string, number>();
  for (const line of what) counts.set(line, (counts.get(line) ?? 0) + 1);
  return from.filter((line) => {
    const count = counts.get(line) ?? 0;
    if (count > 0) counts.set(line, count - 1);
    return count === 0;
  });
}
