import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { expansionOf, expansionTable, sizeAtReference } from "../../server/calc/reference-temperature.ts";

const warm = {
  reading_mm: 98.03,
  partTemperature_C: 26,
  partExpansion_um_per_m_K: 11.5,
  instrumentTemperature_C: 26,
  instrumentExpansion_um_per_m_K: 11.5,
};

function size(measurement: typeof warm): number {
  const found = sizeAtReference(measurement);
  if (!found.ok) throw new Error(found.refused);
  return found.size_mm;
}

test("steel on steel at one temperature keeps its reading", () => {
  expect(size(warm)).toBe(98.03);
});

test("an aluminium part is smaller at 20 C, a warm instrument reads short", () => {
  // 98.03 mm x (23.6 - 11.5) millionths x 6 K = 0.0071 mm.
  expect(size({ ...warm, partExpansion_um_per_m_K: 23.6 })).toBeCloseTo(98.03 - 0.00712, 4);
  expect(size({ ...warm, partTemperature_C: 20 })).toBeCloseTo(98.03 + 0.00676, 4);
});

test("a cold part is corrected upwards", () => {
  expect(size({ ...warm, partTemperature_C: 10, instrumentTemperature_C: 20 })).toBeGreaterThan(98.03);
});

test("the corrected size, grown again to its temperature, is the reading", () => {
  fc.assert(
    fc.property(
      fc.double({ min: 1, max: 500, noNaN: true }),
      fc.double({ min: -10, max: 60, noNaN: true }),
      fc.constantFrom(...expansionTable),
      (reading_mm, partTemperature_C, { expansion_um_per_m_K }) => {
        const at20 = size({
          reading_mm,
          partTemperature_C,
          partExpansion_um_per_m_K: expansion_um_per_m_K,
          instrumentTemperature_C: 20,
          instrumentExpansion_um_per_m_K: 11.5,
        });
        expect(at20 * (1 + expansion_um_per_m_K * 1e-6 * (partTemperature_C - 20))).toBeCloseTo(reading_mm, 7);
      },
    ),
  );
});

describe("refused", () => {
  test.each([
    ["part too hot", { ...warm, partTemperature_C: 60.1 }],
    ["instrument too cold", { ...warm, instrumentTemperature_C: -10.1 }],
    ["temperature that is none", { ...warm, partTemperature_C: Number.NaN }],
    ["expansion below zero", { ...warm, partExpansion_um_per_m_K: -1 }],
    ["reading of zero", { ...warm, reading_mm: 0 }],
  ])("%s", (_title, measurement) => expect(sizeAtReference(measurement)).toMatchObject({ ok: false }));

  test("an unknown material names the known ones", () => {
    expect(expansionOf("unobtainium")).toMatchObject({ ok: false, refused: expect.stringContaining("grey-iron") });
  });
});

test("every material has a source and is found by its name once", () => {
  expect(new Set(expansionTable.map((entry) => entry.material)).size).toBe(expansionTable.length);
  for (const entry of expansionTable) {
    expect(entry.source).not.toBe("");
    expect(expansionOf(entry.material)).toMatchObject({ ok: true, expansion_um_per_m_K: entry.expansion_um_per_m_K });
  }
});

test("the ends of the temperature range are inside it", () => {
  expect(sizeAtReference({ ...warm, partTemperature_C: -10, instrumentTemperature_C: 60 })).toMatchObject({ ok: true });
  expect(sizeAtReference({ ...warm, partTemperature_C: 60, instrumentTemperature_C: -10 })).toMatchObject({ ok: true });
});

test("the doubt is five hundredths of what was corrected, part and instrument combined", () => {
  const found = sizeAtReference({
    reading_mm: 100,
    partTemperature_C: 30,
    partExpansion_um_per_m_K: 30,
    instrumentTemperature_C: 30,
    instrumentExpansion_um_per_m_K: 40,
  });
  // 0.030 and 0.040 mm make 0.050 mm, of which 5 % is 0.0025 mm.
  expect(found.ok && found.doubt_mm).toBeCloseTo(0.0025, 9);
});

test("the working tells both temperatures and the size at 20 C", () => {
  const found = sizeAtReference({ ...warm, partExpansion_um_per_m_K: 23.6, reading_mm: 97.889 });
  expect(found).toMatchObject({
    steps: [
      "Part at 26 C, 23.6 um/(m K): grown by 13.9 um against 20 C.",
      "Instrument at 26 C, 11.5 um/(m K): scale grown by 6.75 um.",
      "97.889 mm - 0.007106 mm = 97.8818943 mm at 20 C (ISO 1).",
    ],
  });
});

test("the ends of the range of expansions are inside it", () => {
  const ends = { partExpansion_um_per_m_K: 50, instrumentExpansion_um_per_m_K: 0 };
  expect(sizeAtReference({ ...warm, ...ends })).toMatchObject({ ok: true });
  expect(sizeAtReference({ ...warm, partExpansion_um_per_m_K: 50.1 })).toMatchObject({ ok: false });
});
