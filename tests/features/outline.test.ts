import { describe, expect, test } from "vitest";
import { documentLinks } from "../../server/features/document-links.ts";
import { documentSymbols } from "../../server/features/document-symbols.ts";
import type { Context } from "../../server/features/feature.ts";
import { foldingRanges } from "../../server/features/folding.ts";
import { formatDocument, formatRange } from "../../server/features/formatting.ts";
import { selectionRanges } from "../../server/features/selection-ranges.ts";
import { workspaceSymbols } from "../../server/features/workspace-symbols.ts";
import { edited, marked } from "../support/cursor.ts";
import { shopOf } from "../support/shop.ts";
import { INSPECT, SHOP, withFile } from "./small-shop.ts";

const contextOf = (files: Record<string, string>): Context => ({ checker: shopOf(files).checker });

describe("outline", () => {
  test("has the blocks of a file and the items in them", () => {
    const [entry, release] = documentSymbols(
      contextOf(withFile(`# On the bench\n${INSPECT}\n# The end\nrelease 2026-04-20 J26-014 by RPE "Done"\n`)),
      "work.gudgeon",
    );
    expect([entry?.name, entry?.detail, entry?.kind]).toEqual(["E2", "Barrels", "entry"]);
    expect(entry?.range).toEqual({ start: { line: 1, character: 0 }, end: { line: 8, character: 9 } });
    expect(entry?.children.map((one) => [one.name, one.detail, one.range.start.line, one.range.end.line])).toEqual([
      ["cylinder.bore/mm", "grid", 2, 5],
      ["D1", "defect Cracked at the lower lug", 6, 6],
    ]);
    expect(release?.name).toBe("release J26-014");
  });
  test("of the reference side", () => {
    const names = documentSymbols(contextOf(SHOP), "type.gudgeon").map((one) => `${one.kind} ${one.name}`);
    expect(names).toEqual([
      "engine-type Curlew-9",
      "limits limits Curlew-9 revision C",
      "run-in Curlew-9",
      "task strainer-clean",
      "bulletin B-07",
      "alert A-3",
      "route top-overhaul",
    ]);
  });
  test("of an empty file and of none", () => {
    expect(documentSymbols(contextOf({ "a.gudgeon": "" }), "a.gudgeon")).toEqual([]);
    expect(documentSymbols(contextOf({}), "none.gudgeon")).toEqual([]);
  });
  test("a block that cannot be read has a place in it too", () => {
    expect(
      documentSymbols(contextOf({ "a.gudgeon": "entri E1 2026-01-01 inspect\n  measure a 1 mm\n" }), "a.gudgeon")[0]
        ?.name,
    ).toBe("(cannot be read)");
  });
  test("the whole shop is searched by name and by title, letters in order", () => {
    const ctx = contextOf(withFile(INSPECT));
    const names = (query: string): string[] => workspaceSymbols(ctx, query).map((one) => one.name);
    expect(names("ada")).toEqual(["ATH"]);
    expect(names("26-014/e2")).toEqual(["J26-014/E2"]);
    expect(names("cracked")).toEqual(["J26-014/D1"]);
    expect(names("ósk")).toEqual(["OLD"]);
    expect(names("revisionC")).toEqual(["Curlew-9 revision C", "B-07"]);
    expect(names("zzz")).toEqual([]);
    expect(names("").length).toBeGreaterThan(15);
  });
});

describe("folding", () => {
  test("of blocks, tables and comments", () => {
    const text = `# One\n# Two\n${INSPECT}\n# About the next\nentry E3 2026-02-20 inspect job J26-014\n  air 20 C\n`;
    expect(foldingRanges(contextOf(withFile(text)), "work.gudgeon")).toEqual([
      { start: 0, end: 1, kind: "comment" },
      { start: 2, end: 7, kind: "block" },
      { start: 3, end: 6, kind: "table" },
      { start: 10, end: 11, kind: "block" },
    ]);
  });
  test("a comment inside a table does not end it", () => {
    const text =
      "entry E3 2026-02-20 inspect job J26-014\n  grid piston.pin/mm\n  1 ?\n  # cold\n\n  2 ?\n  air 20 C\n";
    expect(foldingRanges(contextOf(withFile(text)), "work.gudgeon")).toContainEqual({
      start: 1,
      end: 5,
      kind: "table",
    });
  });
});

describe("links", () => {
  test("lead to photos, logs and the blocks that are named", () => {
    const text =
      'run R1 2026-04-01 job J26-014 stand TS-1 by ATH second RPE\n  photo "photos/stand.png" "As run"\n  log from "runs/R1.csv"\n';
    const found = documentLinks(contextOf(withFile(text)), "work.gudgeon").map((one) => [one.path, one.line]);
    expect(found).toEqual([
      ["job.gudgeon", 0],
      ["instruments.gudgeon", 22],
      ["people.gudgeon", 0],
      ["people.gudgeon", 4],
      ["photos/stand.png", undefined],
      ["runs/R1.csv", undefined],
    ]);
  });
  test("cover the path within its quotes, also behind letters of other scripts", () => {
    const text = 'entry E3 2026-02-20 inspect "Größe ✓" job J26-014\n  photo "bilder/größe.png" "µ"\n';
    const link = documentLinks(contextOf(withFile(text)), "work.gudgeon").find(
      (one) => one.path === "bilder/größe.png",
    );
    expect(text.split("\n")[1]?.slice(link?.range.start.character, link?.range.end.character)).toBe("bilder/größe.png");
  });
  test.each(['"../secret.png"', '"/etc/passwd"', '"https://example.org/x.png"', '"C:\\x.png"', '""'])(
    "never leave the shop: %s",
    (path) => {
      const text = `entry E3 2026-02-20 inspect job J26-014\n  photo ${path} "x"\n`;
      expect(documentLinks(contextOf(withFile(text)), "work.gudgeon").filter((one) => one.line === undefined)).toEqual(
        [],
      );
    },
  );
});

describe("selection", () => {
  test("grows from the word to the file", () => {
    const { ctx, path, position } = marked(withFile(INSPECT.replace("98.083", "98.0<|>83")));
    const [ranges] = selectionRanges(ctx, path, [position]);
    expect(ranges?.map((one) => [one.start.line, one.start.character, one.end.line, one.end.character])).toEqual([
      [3, 4, 3, 10],
      [3, 2, 3, 17],
      [3, 0, 3, 17],
      [1, 0, 4, 7],
      [0, 0, 5, 48],
      [0, 0, 6, 0],
    ]);
  });
  test("takes the text within its quotes first, then a field of several words", () => {
    const { ctx, path, position } = marked(withFile(`${INSPECT}  check turning ok "By ha<|>nd"\n`));
    expect(selectionRanges(ctx, path, [position])[0]?.slice(0, 2)).toEqual([
      { start: { line: 6, character: 20 }, end: { line: 6, character: 27 } },
      { start: { line: 6, character: 19 }, end: { line: 6, character: 28 } },
    ]);
    const measure = marked(withFile(`${INSPECT}  measure piston.pin[1] 23.<|>995 mm\n`));
    expect(selectionRanges(measure.ctx, measure.path, [measure.position])[0]?.[1]).toEqual({
      start: { line: 6, character: 24 },
      end: { line: 6, character: 33 },
    });
  });
  test("of an empty file is the file", () => {
    const { ctx, path, position } = marked(withFile("<|>"));
    expect(selectionRanges(ctx, path, [position])).toEqual([
      [{ start: { line: 0, character: 0 }, end: { line: 0, character: 0 } }],
    ]);
    expect(selectionRanges(ctx, "none.gudgeon", [position])).toEqual([[]]);
  });
});

describe("layout", () => {
  const MESSY =
    "entry   E2 2026-02-19 inspect job J26-014\ngrid cylinder.bore/mm   head skirt with BG-2\n1 98.031 98.019\n10 9.5  ?\n  air 20 C\n";
  const TIDY =
    "entry E2 2026-02-19 inspect job J26-014\n  grid cylinder.bore/mm head skirt with BG-2\n  1  98.031 98.019\n  10    9.5      ?\n  air 20 C\n";
  test("of a file touches only the lines that are not laid out", () => {
    const ctx = contextOf(withFile(MESSY));
    const edits = formatDocument(ctx, "work.gudgeon");
    expect(edited(MESSY, edits)).toBe(TIDY);
    expect(edits.map((edit) => edit.range.start.line)).toEqual([0, 1, 2, 3]);
    expect(edits[0]).toEqual({ range: { start: { line: 0, character: 6 }, end: { line: 0, character: 8 } }, text: "" });
    expect(formatDocument(contextOf(withFile(TIDY)), "work.gudgeon")).toEqual([]);
  });
  test("of a range leaves the rest alone; a line that the range only touches is not in it", () => {
    const edits = formatRange(contextOf(withFile(MESSY)), "work.gudgeon", {
      start: { line: 1, character: 0 },
      end: { line: 2, character: 0 },
    });
    expect(edited(MESSY, edits)).toBe(MESSY.replace("grid cylinder.bore/mm   head", "  grid cylinder.bore/mm head"));
  });
  test("of an empty file", () => {
    expect(formatDocument(contextOf({ "a.gudgeon": "" }), "a.gudgeon")).toEqual([]);
    expect(
      formatRange(contextOf({ "a.gudgeon": "" }), "a.gudgeon", {
        start: { line: 0, character: 0 },
        end: { line: 0, character: 0 },
      }),
    ).toEqual([]);
  });
});
