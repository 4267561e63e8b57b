/**
 * Small means for writing sample records: a seeded generator, so that files come out the same each time, places spelt out, and tables
 * laid out as a tidy shop would keep them.
 */

/** A seeded source of numbers in [0, 1). The samples must come out byte for byte the same on every machine. Source: the public-domain mulberry32. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** `1..4,6..9` or `front,rear` to its labels, in order. An empty text gives no labels. */
export function labelsOf(rows: string): string[] {
  if (rows === "") return [];
  return rows.split(",").flatMap((part) => {
    const range = /^(\d+)\.\.(\d+)$/u.exec(part);
    if (!range) return [part];
    const from = Number(range[1]);
    return Array.from({ length: Number(range[2]) - from + 1 }, (_, i) => String(from + i));
  });
}

/** A row label as it leads a line: numbers stand bare, names take a colon. */
export function rowLabel(label: string): string {
  return /^\d+$/u.test(label) ? label : `${label}:`;
}

/** Rows of a table with their columns aligned to the right, behind two blanks. */
export function table(rows: readonly (readonly string[])[]): string[] {
  const widths: number[] = [];
  for (const row of rows) for (const [i, cell] of row.entries()) widths[i] = Math.max(widths[i] ?? 0, cell.length);
  return rows.map((row) => {
    const cells = row.map((cell, i) => (i === 0 ? cell.padEnd(widths[i] ?? 0) : cell.padStart(widths[i] ?? 0)));
    return `  ${cells.join("  ")}`.trimEnd();
  });
}

/** Lines whose parts are aligned to the left, behind two blanks: limits, torques, places. */
export function columns(rows: readonly (readonly string[])[]): string[] {
  const widths: number[] = [];
  for (const row of rows) for (const [i, cell] of row.entries()) widths[i] = Math.max(widths[i] ?? 0, cell.length);
  return rows.map((row) => `  ${row.map((cell, i) => cell.padEnd(widths[i] ?? 0)).join("  ")}`.trimEnd());
}

/** Members of a block, two blanks in. Empty texts become empty lines. */
export function members(...lines: (string | readonly string[])[]): string[] {
  return lines.flat().map((line) => (line === "" || line.startsWith(" ") ? line : `  ${line}`));
}
