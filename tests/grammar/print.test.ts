import fc from "fast-check";
import { expect, test } from "vitest";
import { canonicalLine } from "../../grammar/canonical.ts";
import { formatLines, formatRange } from "../../grammar/print.ts";
import { scan } from "../../grammar/tokens.ts";
import { allLines, anyLine, sampleFiles } from "./lines.ts";

/** The tokens of a line as they are written, with their types. */
function images(line: string): string[] {
  const { count, types, starts, ends } = scan(line);
  return Array.from({ length: count }, (_, i) => `${types[i]} ${line.slice(starts[i], ends[i])}`);
}

test("formatting changes neither a token nor the canonical text, keeps the count of lines, and once is enough", () => {
  fc.assert(
    fc.property(fc.array(anyLine, { maxLength: 12 }), (lines) => {
      const once = formatLines(lines);
      expect(once.length).toBe(lines.length);
      for (const [i, line] of lines.entries()) {
        expect(images(once[i])).toEqual(images(line));
        expect(canonicalLine(once[i])).toBe(canonicalLine(line));
      }
      expect(formatLines(once)).toEqual(once);
    }),
    { seed: 20260301, numRuns: 3000 },
  );
});

test("a block is laid out: header at the margin, members two blanks in, cells right-aligned, comments after two blanks", () => {
  const typed = [
    "# Day book",
    '   entry E3   2026-02-19 inspect "Barrels  and pistons" job J26-014 # bench two',
    "air 24 C",
    "\tgrid cylinder.bore/mm a b c with BG-2",
    "1 98.012 98.015 -",
    "",
    "      # second row",
    "2 98.010 ?  98.0225   # by lamp",
    "10: go 1 2 3",
    "note   Kept   as it  is # all of it",
    "measure  piston.skirt[1]\u00a0 97.889 mm",
    "measure piston.skirt[2],  ",
    "  mesure  x",
    "entri  E4",
  ];
  expect(formatLines(typed)).toEqual([
    "# Day book",
    'entry E3 2026-02-19 inspect "Barrels  and pistons" job J26-014  # bench two',
    "  air 24 C",
    "  grid cylinder.bore/mm a b c with BG-2",
    "  1   98.012 98.015       -",
    "",
    "  # second row",
    "  2   98.010      ? 98.0225  # by lamp",
    "  10:     go      1       2 3",
    "  note Kept   as it  is # all of it",
    "  measure piston.skirt[1]\u00a0 97.889 mm",
    "  measure piston.skirt[2],",
    "  mesure  x",
    "entri  E4",
  ]);
});

test("wide characters and marks count as they are drawn", () => {
  const rows = ["grid a/mm b c", "1 日本 2", "2 e\u0301 3", "3 1.25 4"];
  expect(formatLines(rows).slice(1)).toEqual(["  1 日本 2", "  2    e\u0301 3", "  3 1.25 4"]);
});

test("a cell of a million characters pads no other row", () => {
  const rows = [
    "grid a/mm b c",
    `1 ${"9".repeat(1_000_000)} 2`,
    ...Array.from({ length: 50 }, (_, i) => `${i + 2} 1.25 4`),
  ];
  const out = formatLines(rows);
  expect(out[2]).toBe("  2  1.25 4");
  expect(out.join("").length).toBeLessThan(1_002_000);
});

test("a byte-order mark stays first, a CR goes", () => {
  expect(formatLines(['\ufeffshop "S"\r', "language   1\r"])).toEqual(['\ufeffshop "S"', "  language 1"]);
});

test("formatting a part gives what formatting the whole gives there", () => {
  fc.assert(
    fc.property(fc.array(anyLine, { maxLength: 14 }), fc.nat(14), fc.nat(14), (lines, a, b) => {
      const from = Math.min(a, b);
      const to = Math.max(a, b);
      expect(formatRange(lines, from, to)).toEqual(formatLines(lines).slice(from, to));
    }),
    { seed: 20260306, numRuns: 1500 },
  );
});

test("every sample file keeps its tokens and its canonical text", () => {
  expect(sampleFiles.length).toBeGreaterThan(10);
  for (const lines of sampleFiles) {
    const out = formatLines(lines);
    expect(out.map(canonicalLine)).toEqual(lines.map(canonicalLine));
    expect(out.map(images)).toEqual(lines.map(images));
    expect(formatLines(out)).toEqual(out);
  }
});

test("the examples stand as the formatter leaves them, but for their indentation", () => {
  for (const line of allLines) expect(images(formatLines([line])[0])).toEqual(images(line));
});
