import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { boreGeometry } from "../../server/calc/bore-geometry.ts";

const levels = ["head", "mid", "skirt"];
const axes = ["thrust", "axial"];
const whole = {
  levels,
  axes,
  diameter_mm: [
    [98.012, 98.015],
    [98.016, 98.017],
    [98.021, 98.024],
  ],
};

function geometry(grid: Parameters<typeof boreGeometry>[0]) {
  const result = boreGeometry(grid);
  if (!result.ok) throw new Error(result.refused);
  return result;
}

describe("a whole grid", () => {
  const result = geometry(whole);

  test("has out-of-round per level and the greatest of them", () => {
    expect(result.levels.map((level) => level.outOfRound)).toEqual([
      { ok: true, value_mm: 0.003 },
      { ok: true, value_mm: 0.001 },
      { ok: true, value_mm: 0.003 },
    ]);
    expect(result.outOfRound).toEqual({ ok: true, value_mm: 0.003, level: "head" });
  });

  test("has taper per axis, saying where it is wide and where narrow", () => {
    expect(result.taper).toEqual({ ok: true, value_mm: 0.009, axis: "thrust", wideAt: "skirt", narrowAt: "head" });
    expect(result.axes[1]?.taper).toMatchObject({ value_mm: 0.009, axis: "axial" });
  });

  test("has mean, range, greatest and least", () => {
    expect(result.mean).toEqual({ ok: true, value_mm: 98.0175 });
    expect(result.range).toEqual({ ok: true, value_mm: 0.012 });
    expect(result.greatest).toEqual({ value_mm: 98.024, level: "skirt", axis: "axial" });
    expect(result.least).toEqual({ value_mm: 98.012, level: "head", axis: "thrust" });
    expect(result.method).toBe("two-point");
    expect(result.steps.length).toBe(7);
  });
});

describe("a grid with a missing cell", () => {
  const result = geometry({
    ...whole,
    diameter_mm: [
      [98.01, 98.011],
      [98.016, null],
      [98.021, 98.024],
    ],
  });

  test("refuses every figure that the cell could change, and no other", () => {
    expect(result.missing).toEqual([{ level: "mid", axis: "axial" }]);
    expect(result.mean.ok).toBe(false);
    expect(result.range.ok).toBe(false);
    expect(result.levels.map((level) => level.outOfRound.ok)).toEqual([true, false, true]);
    expect(result.axes.map((axis) => axis.taper.ok)).toEqual([true, false]);
    expect(result.outOfRound).toMatchObject({
      ok: false,
      refused: expect.stringContaining("mid has no reading on axial"),
    });
    expect(result.taper).toMatchObject({ ok: false, refused: expect.stringContaining("axial has no reading at mid") });
  });

  test("still knows greatest and least of what was measured", () => {
    expect(result.greatest.value_mm).toBe(98.024);
    expect(result.measured).toBe(5);
  });
});

test("one axis has no out-of-round and one level no taper", () => {
  const oneAxis = geometry({ levels, axes: ["thrust"], diameter_mm: [[98], [98.001], [98.002]] });
  expect(oneAxis.outOfRound).toMatchObject({ ok: false, refused: expect.stringContaining("one axis only") });
  const oneLevel = geometry({ levels: ["mid"], axes, diameter_mm: [[98, 98.001]] });
  expect(oneLevel.taper).toMatchObject({ ok: false, refused: expect.stringContaining("one level only") });
});

test.each([
  ["no levels", { levels: [], axes, diameter_mm: [] }],
  ["a ragged grid", { levels, axes, diameter_mm: [[98, 98], [98], [98, 98]] }],
  ["no reading", { levels: ["mid"], axes, diameter_mm: [[null, null]] }],
  ["a diameter of zero", { levels: ["mid"], axes, diameter_mm: [[98, 0]] }],
])("%s is refused", (_title, grid) => {
  expect(boreGeometry(grid).ok).toBe(false);
});

test("out-of-round and taper do not change when the whole bore is larger, nor with the order of levels", () => {
  const cell = fc.integer({ min: 98_000, max: 98_100 });
  const rows = fc.array(fc.tuple(cell, cell), { minLength: 2, maxLength: 5 });
  fc.assert(
    fc.property(rows, fc.integer({ min: 0, max: 500 }), (um, larger) => {
      const names = um.map((_row, index) => `level ${index}`);
      const at = (shift: number, order: typeof um) =>
        geometry({
          levels: names,
          axes,
          diameter_mm: order.map((row) => row.map((value) => (value + shift) / 1000)),
        });
      const plain = at(0, um);
      for (const other of [at(larger, um), at(0, [...um].reverse())]) {
        if (!plain.outOfRound.ok || !other.outOfRound.ok || !plain.taper.ok || !other.taper.ok)
          throw new Error("refused");
        expect(other.outOfRound.value_mm).toBe(plain.outOfRound.value_mm);
        expect(other.taper.value_mm).toBe(plain.taper.value_mm);
        expect(plain.range.ok && plain.range.value_mm).toBeGreaterThanOrEqual(plain.taper.value_mm);
      }
    }),
  );
});

test("a lone reading of a small bore, with the first cell missing, is greatest and least at once", () => {
  const lone = geometry({ levels: ["mid"], axes, diameter_mm: [[null, 0.8]] });
  expect(lone.greatest).toEqual({ value_mm: 0.8, level: "mid", axis: "axial" });
  expect(lone.least).toEqual(lone.greatest);
  expect(lone.measured).toBe(1);
});

test("the working is told level by level and axis by axis", () => {
  expect(geometry(whole).steps).toEqual([
    "6 of 6 diameters measured, by the two-point method.",
    "Greatest 98.024 mm at skirt axial; least 98.012 mm at head thrust.",
    "Out-of-round at head: greatest less least of the axes = 0.003 mm.",
    "Out-of-round at mid: greatest less least of the axes = 0.001 mm.",
    "Out-of-round at skirt: greatest less least of the axes = 0.003 mm.",
    "Taper on thrust: skirt less head = 0.009 mm.",
    "Taper on axial: skirt less head = 0.009 mm.",
  ]);
});
