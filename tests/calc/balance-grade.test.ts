import fc from "fast-check";
import { expect, test } from "vitest";
import { balanceGrades_mm_per_s, permissibleUnbalance } from "../../server/calc/balance-grade.ts";

test("grades stand about 2.5 apart", () => {
  const ratios = balanceGrades_mm_per_s.slice(1).map((grade, index) => grade / balanceGrades_mm_per_s[index]);
  for (const ratio of ratios) expect(ratio).toBeCloseTo(2.5, 0);
});

test("the mass centre of a rotor at its permissible unbalance moves at the speed of its grade", () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...balanceGrades_mm_per_s),
      fc.integer({ min: 1, max: 200 }),
      fc.integer({ min: 100, max: 20_000 }),
      (grade, mass, speed) => {
        const found = permissibleUnbalance(grade, mass, speed, 2);
        if (!found.ok) throw new Error(found.refused);
        const offset_mm = found.specific_g_mm_per_kg / 1000;
        expect((offset_mm * speed * 2 * Math.PI) / 60 / grade).toBeCloseTo(1, 9);
        expect(found.perPlane_g_mm * 2).toBeCloseTo(found.total_g_mm, 9);
      },
    ),
  );
});

test.each([
  [5, 8, 2700],
  [6.3, 0, 2700],
  [6.3, 8, 0],
])("G %s, %s kg, %s rpm is refused", (grade, mass, speed) => {
  expect(permissibleUnbalance(grade, mass, speed, 1)).toMatchObject({ ok: false });
});

test("the working goes from speed to grade to rotor to plane", () => {
  expect(permissibleUnbalance(6.3, 8, 2700, 2)).toMatchObject({
    steps: [
      "2700 rpm is 282.7 rad/s.",
      "G 6.3: 1000 x 6.3 / 282.7 = 22.28 g.mm for each kilogram (ISO 21940-11).",
      "For 8 kg: 178.3 g.mm, half in each plane: 89.13 g.mm.",
    ],
  });
});
