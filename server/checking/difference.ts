/** What one list of lines has that another has not, counting repetitions. */

export function subtract(from: readonly string[], what: readonly string[]): string[] {
  const counts = new Map<string, number>();
  for (const line of what) counts.set(line, (counts.get(line) ?? 0) + 1);
  return from.filter((line) => {
    const count = counts.get(line) ?? 0;
    if (count > 0) counts.set(line, count - 1);
    return count === 0;
  });
}
