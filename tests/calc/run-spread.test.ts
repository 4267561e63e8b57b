import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cylinderSpread } from "../../server/calc/run-spread.ts";
import { figures } from "./check-values/check.ts";
import { runTable } from "./run-table-for-tests.ts";

describe("spread between cylinders", () => {
  test("equals the greatest difference of any row", () => {
    const cell = fc.oneof(fc.integer({ min: 0, max: 300 }), fc.constant(Number.NaN));
    fc.assert(
      fc.property(fc.array(fc.tuple(cell, cell, cell), { minLength: 1, maxLength: 30 }), (rows) => {
        const table = runTable(
          rows.map((_row, index) => index),
          ...[0, 1, 2].map((column) => rows.map((row) => row[column])),
        );
        const found = cylinderSpread(table, [0, 1, 2]);
        const spreads = rows
          .map((row) => row.filter((value) => !Number.isNaN(value)))
          .filter((row) => row.length > 1)
          .map((row) => Math.max(...row) - Math.min(...row));
        expect(found).toMatchObject(
          spreads.length === 0 ? { ok: false } : { ok: true, greatest: Math.max(...spreads), rows: spreads.length },
        );
      }),
    );
  });

  test("names the hottest and the coldest and counts the time over a limit", () => {
    const table = runTable([0, 10, 20], [150, 160, 160], [155, 150, 158], [800, 1500, 1500]);
    const found = figures(cylinderSpread(table, [0, 1], { limit: 5 }));
    expect(found).toMatchObject({ greatest: 10, greatestAt_s: 10, highest: 0, lowest: 1, over_s: 10 });
    const running = figures(cylinderSpread(table, [0, 1], { while: { column: 2, from: 700, until: 900 } }));
    expect(running).toMatchObject({ greatest: 5, rows: 1 });
  });

  test("refuses a single cylinder", () => {
    expect(cylinderSpread(runTable([0], [1]), [0]).ok).toBe(false);
  });
});
