/** Structural equality of facts: what decides whether an edit changed anything that others asked about. */

/** Plain data only: objects, arrays, typed arrays, Maps, Sets and primitives. NaN equals NaN, since an empty cell stays an empty cell. */
export function same(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return a !== a && b !== b;
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
  let count = 0;
  for (const key in left) {
    count++;
    if (!same(left[key], right[key])) return false;
  }
  let other = 0;
  for (const key in right) if (key in right) other++;
  return count === other;
}

function sameNumbers(a: Float64Array, b: Float64Array): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (!Object.is(a[i], b[i])) return false;
  return true;
}
