import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { selectiveAssembly } from "../../server/calc/selective-assembly.ts";

const items = (name: string, sizes_um: readonly number[]) =>
  sizes_um.map((size, index) => ({ name: `${name} ${index + 1}`, size_mm: size / 1000 }));
const limits = { least_mm: 0.105, greatest_mm: 0.142 };

/** Least spread, and least sum of squares at that spread, over every way to match, in whole micrometres. */
function bruteForce(bores: readonly number[], pistons: readonly number[], least: number, greatest: number) {
  let best: { spread: number; squares: number } | undefined;
  const place = (index: number, used: ReadonlySet<number>, chosen: readonly number[]): void => {
    if (index === bores.length) {
      const spread = Math.max(...chosen) - Math.min(...chosen);
      const squares = chosen.reduce((sum, one) => sum + (2 * one - least - greatest) ** 2, 0);
      if (best === undefined || spread < best.spread || (spread === best.spread && squares < best.squares))
        best = { spread, squares };
      return;
    }
    for (const [column, piston] of pistons.entries()) {
      const clearance = (bores[index] ?? 0) - piston;
      if (used.has(column) || clearance < least || clearance > greatest) continue;
      place(index + 1, new Set([...used, column]), [...chosen, clearance]);
    }
  };
  place(0, new Set(), []);
  return best;
}

describe("against brute force", () => {
  const drawn = fc
    .tuple(fc.integer({ min: 1, max: 6 }), fc.integer({ min: 0, max: 1 }))
    .chain(([count, spare]) =>
      fc.tuple(
        fc.array(fc.integer({ min: 98_000, max: 98_022 }), { minLength: count, maxLength: count }),
        fc.array(fc.integer({ min: 97_870, max: 97_905 }), { minLength: count + spare, maxLength: count + spare }),
      ),
    );

  test("spread and sum of squares are the least there are, and a block is named only where there is one", () => {
    let blocked = 0;
    let assembled = 0;
    fc.assert(
      fc.property(drawn, ([bores, pistons]) => {
        const best = bruteForce(bores, pistons, 105, 142);
        const found = selectiveAssembly(items("bore", bores), items("piston", pistons), limits);
        expect(found.ok).toBe(best !== undefined);
        if (!found.ok) {
          blocked += 1;
          if (!("blockedPlaces" in found)) throw new Error(found.refused);
          if (found.fittingParts.length >= found.blockedPlaces.length) throw new Error("what was named is no block");
          return;
        }
        assembled += 1;
        expect(Math.round(found.spread_mm * 1000)).toBe(best?.spread);
        const squares = found.matches.reduce(
          (sum, match) => sum + (2 * Math.round(match.clearance_mm * 1000) - 247) ** 2,
          0,
        );
        expect(squares).toBe(best?.squares);
        expect(new Set(found.matches.map((match) => match.part)).size).toBe(bores.length);
        expect(found.spare.length).toBe(pistons.length - bores.length);
      }),
      { numRuns: 400 },
    );
    expect(blocked).toBeGreaterThan(20);
    expect(assembled).toBeGreaterThan(20);
  });
});

test("a clearance at either limit is inside", () => {
  const found = selectiveAssembly(items("bore", [98_022, 98_000]), items("piston", [97_880, 97_895]), limits, [
    ["bore 1", "piston 2"],
  ]);
  expect(found).toMatchObject({ ok: true, least_mm: 0.105, greatest_mm: 0.142, spread_mm: 0.037 });
});

describe("what blocks", () => {
  test("one bore that no piston fits, with the nearest", () => {
    const found = selectiveAssembly(items("bore", [98_005, 98_050]), items("piston", [97_890, 97_892, 97_885]), limits);
    expect(found).toMatchObject({
      ok: false,
      blockedPlaces: ["bore 2"],
      fittingParts: [],
      nearest: { part: "piston 2", clearance_mm: 0.158, misses_mm: 0.016 },
    });
  });

  test("two bores that share one piston", () => {
    const found = selectiveAssembly(
      items("bore", [98_005, 98_020, 98_021]),
      items("piston", [97_880, 97_870, 97_868]),
      limits,
    );
    expect(found).toMatchObject({
      ok: false,
      blockedPlaces: ["bore 2", "bore 3"],
      fittingParts: ["piston 1"],
      nearest: undefined,
    });
    expect(!found.ok && found.refused).toContain("bore 2, bore 3 fit only piston 1");
  });

  test("forbidden pairs are never made, and can be the block", () => {
    const bores = items("bore", [98_010, 98_010]);
    const pistons = items("piston", [97_890, 97_890]);
    const found = selectiveAssembly(bores, pistons, limits, [["bore 1", "piston 1"]]);
    expect(found.ok && found.matches[0]?.part).toBe("piston 2");
    const all = pistons.map((piston) => ["bore 1", piston.name] as const);
    expect(selectiveAssembly(bores, pistons, limits, all)).toMatchObject({
      ok: false,
      blockedPlaces: ["bore 1"],
      refused: "No part may be used for bore 1.",
    });
  });
});

test("24 bores and 24 pistons are matched", () => {
  const bores = Array.from({ length: 24 }, (_unused, index) => 98_000 + ((index * 7) % 23));
  const pistons = Array.from({ length: 24 }, (_unused, index) => 97_880 + ((index * 5) % 16));
  const found = selectiveAssembly(items("bore", bores), items("piston", pistons), {
    least_mm: 0.1,
    greatest_mm: 0.145,
  });
  expect(found.ok && found.matches.length).toBe(24);
});

test.each([
  ["no place", () => selectiveAssembly([], items("piston", [97_890]), limits)],
  [
    "fewer parts than places",
    () => selectiveAssembly(items("bore", [98_000, 98_001]), items("piston", [97_890]), limits),
  ],
  [
    "a part named twice",
    () =>
      selectiveAssembly(items("bore", [98_000]), [...items("piston", [97_890]), ...items("piston", [97_891])], limits),
  ],
  ["a size of zero", () => selectiveAssembly(items("bore", [0]), items("piston", [97_890]), limits)],
  [
    "crossed limits",
    () => selectiveAssembly(items("bore", [98_000]), items("piston", [97_890]), { least_mm: 1, greatest_mm: 0 }),
  ],
  [
    "a limit that is none",
    () =>
      selectiveAssembly(items("bore", [98_000]), items("piston", [97_890]), { least_mm: Number.NaN, greatest_mm: 1 }),
  ],
])("%s is refused without a block", (_title, run) => {
  const found = run();
  expect(found.ok).toBe(false);
  expect(found).not.toHaveProperty("blockedPlaces");
});

test("the working names every pair and what no other assignment betters", () => {
  const found = selectiveAssembly(items("bore", [98_010, 98_020]), items("piston", [97_900, 97_890]), limits);
  expect(found).toMatchObject({
    steps: [
      "bore 1 takes piston 2: clearance 0.12 mm.",
      "bore 2 takes piston 1: clearance 0.12 mm.",
      "Clearances from 0.12 to 0.12 mm, spread 0 mm: no assignment within 0.105..0.142 mm has less.",
    ],
  });
});
