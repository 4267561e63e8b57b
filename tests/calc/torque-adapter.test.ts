import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dialSetting, fastenerTorque } from "../../server/calc/torque-adapter.ts";

const wrench = { wrenchLength_mm: 300, adapterLength_mm: 50, angle_deg: 0 };

test("dial and fastener are told apart in the answer", () => {
  const found = dialSetting(40, wrench);
  if (!found.ok) throw new Error(found.refused);
  expect(found.fastener_Nm).toBe(40);
  expect(found.dial_Nm).toBeCloseTo(34.2857, 4);
  expect(found.effectiveLength_mm).toBe(350);
  expect(found.steps.join(" ")).toContain("at the fastener");
});

describe("angles", () => {
  test.each([90, -90])("at %s degrees nothing changes, exactly", (angle_deg) => {
    expect(dialSetting(40, { ...wrench, angle_deg })).toMatchObject({ dial_Nm: 40, factor: 1 });
  });
  test("folded back the dial is set higher", () => {
    expect(dialSetting(40, { ...wrench, angle_deg: 180 })).toMatchObject({ dial_Nm: 48 });
  });
  test("left and right are the same", () => {
    const left = dialSetting(40, { ...wrench, angle_deg: -37 });
    expect(left).toMatchObject({ ok: true });
    expect(left.ok && left.dial_Nm).toBeCloseTo((40 * 300) / (300 + 50 * Math.cos((37 * Math.PI) / 180)), 12);
  });
});

const anyWrench = fc.record({
  wrenchLength_mm: fc.integer({ min: 100, max: 1000 }),
  adapterLength_mm: fc.integer({ min: 0, max: 99 }),
  angle_deg: fc.integer({ min: -180, max: 180 }),
});

test("there and back again gives the torque that was wanted", () => {
  fc.assert(
    fc.property(anyWrench, fc.double({ min: 1, max: 500, noNaN: true }), (one, wanted) => {
      const there = dialSetting(wanted, one);
      if (!there.ok) throw new Error(there.refused);
      const back = fastenerTorque(there.dial_Nm, one);
      expect(back.ok && back.fastener_Nm).toBeCloseTo(wanted, 9);
    }),
  );
});

test("a longer adapter straight on always lowers the dial setting", () => {
  fc.assert(
    fc.property(anyWrench, (one) => {
      const short = dialSetting(40, { ...one, angle_deg: 0 });
      const long = dialSetting(40, { ...one, adapterLength_mm: one.adapterLength_mm + 1, angle_deg: 0 });
      if (!short.ok || !long.ok) throw new Error("refused");
      expect(long.dial_Nm).toBeLessThan(short.dial_Nm);
      expect(short.dial_Nm).toBeLessThanOrEqual(40);
    }),
  );
});

test.each([
  ["a torque of zero", () => dialSetting(0, wrench)],
  ["a dial of zero", () => fastenerTorque(0, wrench)],
  ["a wrench without length", () => dialSetting(40, { ...wrench, wrenchLength_mm: 0 })],
  ["a negative adapter", () => dialSetting(40, { ...wrench, adapterLength_mm: -50 })],
  ["an angle beyond half a turn", () => dialSetting(40, { ...wrench, angle_deg: 181 })],
  [
    "an adapter folded back past the grip",
    () => dialSetting(40, { wrenchLength_mm: 100, adapterLength_mm: 100, angle_deg: 180 }),
  ],
])("%s is refused", (_title, run) => expect(run()).toMatchObject({ ok: false }));
