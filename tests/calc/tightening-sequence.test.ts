import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { TighteningPlan, TighteningStep } from "../../server/calc/tightening-sequence.ts";
import { checkTightening } from "../../server/calc/tightening-sequence.ts";

const plan: TighteningPlan = {
  order: ["1", "5", "3", "7"],
  stages: [
    { by: "torque", low_Nm: 18, high_Nm: 22 },
    { by: "angle", low_deg: 85, high_deg: 95 },
  ],
};
const stageOne = (fastener: string): TighteningStep => ({ stage: 1, fastener, torque_Nm: 20 });
const stageTwo = (fastener: string): TighteningStep => ({ stage: 2, fastener, angle_deg: 90 });
const sound = [...plan.order.map(stageOne), ...plan.order.map(stageTwo)];

function faults(done: readonly TighteningStep[], to = plan) {
  const found = checkTightening(to, done);
  if (!found.ok) throw new Error(found.refused);
  return found.findings.map(({ fault, stage, fastener, step }) => [fault, stage, fastener, step]);
}

test("the plan fulfilled has no findings", () => {
  expect(checkTightening(plan, sound)).toMatchObject({ ok: true, complete: true, findings: [] });
});

describe("departures", () => {
  test("one left out is missing", () => {
    expect(faults(sound.filter((_step, index) => index !== 2))).toEqual([
      ["stage begun early", 2, "1", 3],
      ["missing", 1, "3", undefined],
    ]);
  });
  test("two exchanged are out of order", () => {
    expect(faults([stageOne("5"), stageOne("1"), ...sound.slice(2)])).toEqual([["out of order", 1, "1", 1]]);
  });
  test("a fastener twice in a stage", () => {
    expect(faults([...sound.slice(0, 4), stageOne("7"), ...sound.slice(4)])).toEqual([["done twice", 1, "7", 4]]);
  });
  test("a stage begun before the one before it is done", () => {
    expect(
      faults([stageOne("1"), stageTwo("1"), stageOne("5"), stageOne("3"), stageOne("7"), ...sound.slice(5)]),
    ).toEqual([["stage begun early", 2, "1", 1]]);
  });
  test("below and above the limits, which belong to the range", () => {
    const at = (torque_Nm: number) => [{ stage: 1, fastener: "1", torque_Nm }, ...sound.slice(1)];
    expect(faults(at(18))).toEqual([]);
    expect(faults(at(22))).toEqual([]);
    expect(faults(at(17.9))).toEqual([["below its stage", 1, "1", 0]]);
    expect(faults(at(22.1))).toEqual([["above its stage", 1, "1", 0]]);
  });
  test("a torque where an angle is asked", () => {
    expect(faults([...sound.slice(0, 7), { stage: 2, fastener: "7", torque_Nm: 40 }])).toEqual([
      ["wrong measure", 2, "7", 7],
    ]);
  });
  test("unknown fasteners and stages", () => {
    expect(faults([...sound, stageOne("9"), { stage: 3, fastener: "1", torque_Nm: 20 }])).toEqual([
      ["unknown fastener", 1, "9", 8],
      ["unknown stage", 3, "1", 9],
    ]);
  });
});

test("any other order of a stage is found", () => {
  fc.assert(
    fc.property(fc.shuffledSubarray([...plan.order], { minLength: 4 }), (order) => {
      const found = faults([...order.map(stageOne), ...plan.order.map(stageTwo)]).filter(
        ([fault]) => fault === "out of order",
      );
      expect(found.length > 0).toBe(order.join() !== plan.order.join());
    }),
  );
});

test.each([
  ["no fasteners", { ...plan, order: [] }],
  ["no stages", { ...plan, stages: [] }],
  ["a fastener twice", { ...plan, order: ["1", "1"] }],
  ["crossed limits", { ...plan, stages: [{ by: "torque", low_Nm: 22, high_Nm: 18 }] as const }],
  ["an angle of zero", { ...plan, stages: [{ by: "angle", low_deg: 0, high_deg: 90 }] as const }],
])("a plan with %s is refused", (_title, faulty) => expect(checkTightening(faulty, [])).toMatchObject({ ok: false }));

test("small limits are limits, and the working says how it went", () => {
  const light: TighteningPlan = { order: ["a"], stages: [{ by: "torque", low_Nm: 0.4, high_Nm: 0.6 }] };
  expect(checkTightening(light, [{ stage: 1, fastener: "a", torque_Nm: 0.5 }])).toMatchObject({
    complete: true,
    steps: [
      "1 fasteners in 1 stages, in the order a.",
      "Every fastener was tightened in every stage, in order and within its limits.",
    ],
  });
  expect(checkTightening(light, [])).toMatchObject({
    complete: false,
    findings: [{ says: "a was not tightened in stage 1." }],
    steps: [expect.any(String), "1 departures from the plan."],
  });
});
