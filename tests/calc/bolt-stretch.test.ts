import fc from "fast-check";
import { expect, test } from "vitest";
import {
  coarserMethod,
  preloadFromStretch,
  stretchFromPreload,
  threadStressArea,
} from "../../server/calc/bolt-stretch.ts";

const segment = fc.record({ length_mm: fc.integer({ min: 5, max: 200 }), area_mm2: fc.integer({ min: 10, max: 400 }) });

test("stretch and preload are each other's way back", () => {
  fc.assert(
    fc.property(
      fc.array(segment, { minLength: 1, maxLength: 4 }),
      fc.integer({ min: 100, max: 90_000 }),
      (segments, preload) => {
        const there = stretchFromPreload(preload, segments, 205_000);
        if (!there.ok) throw new Error(there.refused);
        const back = preloadFromStretch(there.stretch_mm, segments, 205_000);
        expect(back.ok && back.preload_N).toBeCloseTo(preload, 6);
      },
    ),
  );
});

test("a bolt cut into lengths of one area stretches as the whole does", () => {
  const whole = stretchFromPreload(25_000, [{ length_mm: 60, area_mm2: 58 }], 205_000);
  const cut = stretchFromPreload(
    25_000,
    [20, 40].map((length_mm) => ({ length_mm, area_mm2: 58 })),
    205_000,
  );
  expect(whole.ok && cut.ok && cut.stretch_mm - whole.stretch_mm).toBeCloseTo(0, 12);
});

test("the stress is that of the thinnest part", () => {
  const waisted = stretchFromPreload(
    10_000,
    [
      { length_mm: 20, area_mm2: 80 },
      { length_mm: 30, area_mm2: 50 },
    ],
    205_000,
  );
  expect(waisted).toMatchObject({ stress_MPa: 200 });
});

test("torque where stretch is asked draws a warning, the other way round none", () => {
  expect(coarserMethod("stretch", "torque")).toContain("25 %");
  expect(coarserMethod("stretch", "angle")).toContain("15 %");
  expect(coarserMethod("torque", "stretch")).toBeUndefined();
  expect(coarserMethod("torque", "torque")).toBeUndefined();
});

test.each([
  ["no segment", () => stretchFromPreload(1, [], 205_000)],
  ["a preload of zero", () => stretchFromPreload(0, [{ length_mm: 1, area_mm2: 1 }], 205_000)],
  ["a stretch of zero", () => preloadFromStretch(0, [{ length_mm: 1, area_mm2: 1 }], 205_000)],
  ["an area of zero", () => stretchFromPreload(1, [{ length_mm: 1, area_mm2: 0 }], 205_000)],
  ["no modulus", () => stretchFromPreload(1, [{ length_mm: 1, area_mm2: 1 }], 0)],
  ["a pitch too coarse", () => threadStressArea(10, 3, "metric")],
  ["no pitch", () => threadStressArea(10, 0, "metric")],
])("%s is refused", (_title, run) => expect(run()).toMatchObject({ ok: false }));

test("the working goes from stiffness to stretch to stress", () => {
  expect(stretchFromPreload(25_000, [{ length_mm: 50, area_mm2: 58 }], 205_000)).toMatchObject({
    steps: [
      "Stiffness: 1 / sum of length / (area x E) = 237800 N/mm.",
      "Stretch: 25000 N / 237800 N/mm = 0.1051 mm.",
      "Stress in the thinnest part: 431 MPa. Good only below the yield of the bolt; the maker's stretch goes first.",
    ],
  });
});
