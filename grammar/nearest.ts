/**
 * How far apart two spellings are, for "did you mean". A swap of two neighbouring letters counts as one slip, as it does for people.
 */

/**
 * Optimal string alignment distance, given up early.
 * @param limit past this the exact figure does not matter
 * @returns the distance, or `limit + 1` when it is greater
 */
export function spellingDistance(a: string, b: string, limit: number): number {
  if (Math.abs(a.length - b.length) > limit) return limit + 1;
  let before: number[] = [];
  let above = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    let least = i;
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let cost = Math.min(above[j] + 1, row[j - 1] + 1, above[j - 1] + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) cost = Math.min(cost, before[j - 2] + 1);
      row.push(cost);
      if (cost < least) least = cost;
    }
    if (least > limit) return limit + 1;
    before = above;
    above = row;
  }
  return Math.min(above[b.length], limit + 1);
}

/** How many slips a word of this length may have and still be taken for another. */
export function slipsAllowed(word: string): number {
  return word.length <= 3 ? 1 : word.length <= 8 ? 2 : 3;
}

/**
 * The candidates nearest to a word, nearest first; case does not count as a slip.
 * @param limit greatest distance; by default what the length of the word allows
 */
export function nearest(word: string, candidates: Iterable<string>, limit: number = slipsAllowed(word)): string[] {
  const found: { candidate: string; distance: number }[] = [];
  const lower = word.toLowerCase();
  for (const candidate of candidates) {
    const distance = spellingDistance(lower, candidate.toLowerCase(), limit);
    if (distance <= limit) found.push({ candidate, distance });
  }
  found.sort((x, y) => x.distance - y.distance || (x.candidate < y.candidate ? -1 : 1));
  return found.map((one) => one.candidate);
}
