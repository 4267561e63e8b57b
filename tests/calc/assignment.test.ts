import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { findBlockade, greatestMatching, leastCostAssignment } from "../../server/calc/assignment.ts";

type Cells = (number | null)[][];

/** All ways to give each row a column of its own: the slow answer that cannot be wrong. */
function bruteForce(cost: Cells): number | undefined {
  const columns = cost[0]?.length ?? 0;
  let best: number | undefined;
  const place = (row: number, used: ReadonlySet<number>, total: number): void => {
    if (row === cost.length) {
      if (best === undefined || total < best) best = total;
      return;
    }
    for (let column = 0; column < columns; column += 1) {
      const price = cost[row]?.[column] ?? null;
      if (price !== null && !used.has(column)) place(row + 1, new Set([...used, column]), total + price);
    }
  };
  place(0, new Set(), 0);
  return best;
}

const tableOf = (cell: fc.Arbitrary<number | null>) =>
  fc.tuple(fc.integer({ min: 1, max: 6 }), fc.integer({ min: 0, max: 2 })).chain(([rows, more]) =>
    fc.array(fc.array(cell, { minLength: rows + more, maxLength: rows + more }), {
      minLength: rows,
      maxLength: rows,
    }),
  );
const price = fc.oneof(
  { arbitrary: fc.integer({ min: -20, max: 20 }), weight: 3 },
  { arbitrary: fc.constant(null), weight: 1 },
);

describe("against brute force", () => {
  test("the total is the least there is, and none is found only where none exists", () => {
    fc.assert(
      fc.property(tableOf(price), (cost) => {
        const best = bruteForce(cost);
        const found = leastCostAssignment(cost);
        expect(found.ok).toBe(best !== undefined);
        if (!found.ok) return;
        expect(found.total).toBe(best);
        expect(new Set(found.columnOfRow).size).toBe(cost.length);
        expect(found.columnOfRow.every((column, row) => cost[row]?.[column] != null)).toBe(true);
      }),
      { numRuns: 500 },
    );
  });

  test("turning the table on its side does not change the total", () => {
    fc.assert(
      fc.property(tableOf(fc.integer({ min: 0, max: 50 })), (cost) => {
        const turned = (cost[0] ?? []).map((_cell, column) => cost.map((row) => row[column] ?? null));
        const upright = leastCostAssignment(cost);
        const lying = leastCostAssignment(turned);
        if (!upright.ok || !lying.ok) throw new Error("refused");
        expect(lying.total).toBe(upright.total);
        expect(lying.columnOfRow.filter((column) => column !== -1).length).toBe(cost.length);
      }),
    );
  });

  test("a blockade is named exactly where no assignment exists, and it is one", () => {
    fc.assert(
      fc.property(tableOf(price), (cost) => {
        const fits = cost.map((row) => row.map((cell) => cell !== null));
        const blockade = findBlockade(fits);
        expect(blockade === undefined).toBe(bruteForce(cost) !== undefined);
        if (blockade === undefined) return;
        const fitted = fits[0]?.flatMap((_cell, column) =>
          blockade.rows.some((row) => fits[row]?.[column]) ? [column] : [],
        );
        expect(blockade.columns).toEqual(fitted);
        expect(blockade.columns.length).toBeLessThan(blockade.rows.length);
        for (const spared of blockade.rows) {
          const rest = blockade.rows.filter((row) => row !== spared);
          const columns = fits[0]?.filter((_cell, column) => rest.some((row) => fits[row]?.[column])).length ?? 0;
          expect(columns).toBeGreaterThanOrEqual(rest.length);
        }
      }),
      { numRuns: 500 },
    );
  });
});

test("a matching grows from a start that no longer fits in full", () => {
  const fits = [
    [false, true],
    [true, true],
  ];
  expect(greatestMatching(fits, [0, 1])).toEqual([1, 0]);
  expect(greatestMatching([[true], [true]])).toEqual([0, -1]);
});

test("a table of 60 by 60 is solved, as good as any exchange of two", () => {
  const cost = Array.from({ length: 60 }, (_row, i) =>
    Array.from({ length: 60 }, (_cell, j) => (i * 7919 + j * 104_729 + i * j * 31) % 1009),
  );
  const found = leastCostAssignment(cost);
  if (!found.ok) throw new Error(found.refused);
  const at = (row: number, column: number): number => cost[row]?.[column] ?? Number.NaN;
  for (const [a, columnA] of found.columnOfRow.entries()) {
    for (const [b, columnB] of found.columnOfRow.entries()) {
      expect(at(a, columnB) + at(b, columnA)).toBeGreaterThanOrEqual(at(a, columnA) + at(b, columnB));
    }
  }
});

test.each([
  ["an empty table", []],
  ["a table without columns", [[]]],
  ["a ragged table", [[1, 2], [1]]],
  ["a cost that is none", [[Number.NaN]]],
])("%s is refused", (_title, cost) => expect(leastCostAssignment(cost)).toMatchObject({ ok: false }));
