/** Structural equality of facts: what decides whether an edit changed anything that others asked about. */

/** Plain data only: objects, arrays, typed arrays, Maps, Sets and primitives. NaN equals NaN, since an empty cell stays an empty cell. */
export function same(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null)
    return Number.isNaN(a) && Number.isNaN(b);
  if (Array.isArray(a)) {
    if (!Array.isArray(b) || a.length !== b.length) return false;
    for (let i = 0; i < a.length; i++) if (!same(a[i], b[i])) return false;
    return true;
  }
  if (Array.isArray(b)) return false;
  if (ArrayBuffer.isView(a)) return ArrayBuffer.isView(b) && sameNumbers(a as Float64Array, b as Float64Array);
  if (a instanceof Map)
    return (
      b instanceof Map && a.size === b.size && [...a].every(([key, value]) => b.has(key) && same(value, b.get(key)))
    );
  if (a instanceof Set) return b instanceof Set && a.size === b.size && [...a].every((value) => b.has(value));
  const left = a as Record<string, unknown>;
  const right = b as Record<string, unknown>;
  for (const key in left) if (!(key in right) || !same(left[key], right[key])) return false;
  for (const key in right) if (!(key in left)) return false;
  return true;
}

function sameNumbers(a: Float64Array, b: Float64Array): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (!Object.is(a[i], b[i])) return false;
  return true;
}

/**
 * The next version of some facts with every part that did not change taken from the last one, so that what compares them later sees at a glance
 * what is the same.
 * @param next plain data that nobody else holds yet: equal parts of it are replaced
 * @returns `last` when the two are equal, else `next`
 */
export function reuse<T>(last: T, next: T): T {
  if (last === next) return last;
  if (typeof last !== "object" || typeof next !== "object" || last === null || next === null)
    return same(last, next) ? last : next;
  if (Array.isArray(last) && Array.isArray(next)) {
    let equal = last.length === next.length;
    const shared = Math.min(last.length, next.length);
    for (let i = 0; i < shared; i++) {
      // Elements are facts of a line: taken over whole or not at all.
      if (same(last[i], next[i])) next[i] = last[i];
      else equal = false;
    }
    return equal ? last : next;
  }
  return same(last, next) ? last : next;
}

/** `reuse` for each member of a block. @returns the last block when nothing in it changed */
export function reuseMembers<B extends object>(last: B, next: B): B {
  const old = last as Record<string, unknown>;
  const made = next as Record<string, unknown>;
  let equal = true;
  for (const key in made) {
    made[key] = reuse(old[key], made[key]);
    if (!Object.is(made[key], old[key])) equal = false;
  }
  for (const key in old) if (!(key in made)) equal = false;
  return equal ? last : next;
}
