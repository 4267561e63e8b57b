import fc from "fast-check";
import { expect, test } from "vitest";
import { clearance, clearanceRange, clearancesByPlace } from "../../server/calc/clearance.ts";

test("a clearance equal to its limit is exactly that", () => {
  expect(clearance(98.031, 97.889)).toMatchObject({
    ok: true,
    clearance_mm: 0.142,
    interference_mm: 0,
    kind: "clearance",
  });
});

test("an interference is negative and shown apart", () => {
  expect(clearance(25, 25.02)).toMatchObject({ clearance_mm: -0.02, interference_mm: 0.02, kind: "interference" });
  expect(clearance(25, 25)).toMatchObject({ clearance_mm: 0, kind: "size to size" });
});

test("limits of hole and shaft give a kind of fit", () => {
  const of = (hole: [number, number], shaft: [number, number]) =>
    clearanceRange({
      holeLeast_mm: hole[0],
      holeGreatest_mm: hole[1],
      shaftLeast_mm: shaft[0],
      shaftGreatest_mm: shaft[1],
    });
  expect(of([50, 50.025], [49.95, 49.975])).toMatchObject({ least_mm: 0.025, greatest_mm: 0.075, kind: "clearance" });
  expect(of([50, 50.025], [50.002, 50.018])).toMatchObject({
    least_mm: -0.018,
    greatest_mm: 0.023,
    kind: "transition",
  });
  expect(of([50, 50.025], [50.026, 50.042])).toMatchObject({
    least_mm: -0.042,
    greatest_mm: -0.001,
    kind: "interference",
  });
  expect(of([50, 50.025], [49.984, 50])).toMatchObject({ least_mm: 0, kind: "clearance" });
  expect(of([50.025, 50], [49, 49.1])).toMatchObject({ ok: false });
  expect(of([50, 50.025], [49.1, 49])).toMatchObject({ ok: false });
});

test("places are matched by name and a missing one is refused by name", () => {
  const found = clearancesByPlace(
    new Map([
      ["1", 98.012],
      ["2", null],
      ["3", 98.02],
    ]),
    new Map([
      ["1", 97.889],
      ["2", 97.89],
      ["4", 97.888],
    ]),
  );
  expect(found.map(({ place, clearance: one }) => [place, one.ok ? one.clearance_mm : one.refused])).toEqual([
    ["1", 0.123],
    ["2", "The hole at 2 is not measured."],
    ["3", "The shaft at 3 is not measured."],
    ["4", "The hole at 4 is not measured."],
  ]);
});

test("hole and shaft exchanged change the sign and nothing else", () => {
  const um = fc.integer({ min: 1, max: 500_000 });
  fc.assert(
    fc.property(um, um, (hole, shaft) => {
      const one = clearance(hole / 1000, shaft / 1000);
      const other = clearance(shaft / 1000, hole / 1000);
      if (!one.ok || !other.ok) throw new Error("refused");
      expect(one.clearance_mm + other.clearance_mm).toBe(0);
      expect(Math.max(one.clearance_mm, 0)).toBe(other.interference_mm);
    }),
  );
});

test("sizes that are not greater than zero are refused", () => {
  expect(clearance(0, 1)).toMatchObject({ ok: false });
  expect(clearance(1, Number.NaN)).toMatchObject({ ok: false });
});

test("limits that at most touch are an interference", () => {
  const touching = { holeLeast_mm: 50, holeGreatest_mm: 50.025, shaftLeast_mm: 50.025, shaftGreatest_mm: 50.042 };
  expect(clearanceRange(touching)).toMatchObject({ greatest_mm: 0, kind: "interference" });
});

test("size to size has no interference, not even a negative zero", () => {
  const equal = clearance(25, 25);
  expect(equal.ok && Object.is(equal.interference_mm, 0)).toBe(true);
});

test("the working names hole and shaft", () => {
  expect(clearance(25, 25.02)).toMatchObject({
    steps: ["Hole less shaft: 25 mm - 25.02 mm = -0.02 mm, an interference."],
  });
});
