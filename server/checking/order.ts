/** The order of blocks of one day: those with a time stand in order of time among themselves; those without keep their place in the file. */

export type Order = -1 | 0 | 1;

/**
 * @param order positions, sorted by day and then by file and line
 * @param of day and time of a position
 * @returns the same positions with the timed ones of each day in order of time, in the places that timed ones had
 */
export function byTimeWithinDays(
  order: readonly number[],
  of: (position: number) => { readonly day: number | undefined; readonly time: number | undefined },
): number[] {
  const result = [...order];
  for (let from = 0; from < result.length; ) {
    const { day } = of(result[from]);
    let to = from + 1;
    while (to < result.length && of(result[to]).day === day) to++;
    if (to - from > 1) {
      const places: number[] = [];
      for (let i = from; i < to; i++) if (of(result[i]).time !== undefined) places.push(i);
      if (places.length > 1) {
        const timed = places.map((i) => result[i]);
        timed.sort((a, b) => (of(a).time as number) - (of(b).time as number));
        for (const [n, i] of places.entries()) result[i] = timed[n];
      }
    }
    from = to;
  }
  return result;
}
