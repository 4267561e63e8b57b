import { expect, test } from "vitest";
import { torqueApart, torqueWithDrag } from "../../server/calc/prevailing-torque.ts";

test("drag is added to both ends and shown apart", () => {
  expect(torqueWithDrag(38, 42, 1.2)).toMatchObject({
    finalLow_Nm: 39.2,
    finalHigh_Nm: 43.2,
    drag_Nm: 1.2,
    reusable: undefined,
  });
});

test("a nut at its least drag may be used again, below it not", () => {
  expect(torqueWithDrag(38, 42, 1.1, 1.1)).toMatchObject({ reusable: true });
  expect(torqueWithDrag(38, 42, 1.09, 1.1)).toMatchObject({ reusable: false });
});

test("a reading comes apart into drag and clamping torque", () => {
  expect(torqueApart(43.2, 1.2)).toMatchObject({ clamping_Nm: 42, drag_Nm: 1.2, reading_Nm: 43.2 });
  expect(torqueApart(1.2, 1.2)).toMatchObject({ clamping_Nm: 0 });
});

test.each([
  ["crossed limits", () => torqueWithDrag(42, 38, 1)],
  ["a negative drag", () => torqueWithDrag(38, 42, -1)],
  ["no table value", () => torqueWithDrag(0, 42, 1)],
  ["a least drag of zero", () => torqueWithDrag(38, 42, 1, 0)],
  ["a drag above the reading", () => torqueApart(1, 2)],
  ["a negative drag of a reading", () => torqueApart(1, -2)],
])("%s is refused", (_title, run) => expect(run()).toMatchObject({ ok: false }));

test("a table with one figure is no crossed range, and the working shows the drag apart", () => {
  expect(torqueWithDrag(40, 40, 0)).toMatchObject({
    ok: true,
    steps: ["Table 40 to 40 N.m and drag 0 N.m: 40 to 40 N.m at the wrench."],
  });
  const low = torqueWithDrag(38, 42, 1, 1.1);
  expect(low.ok && low.steps[1]).toBe("Drag is below the least of 1.1 N.m: the nut is not used again.");
  const enough = torqueWithDrag(38, 42, 1.2, 1.1);
  expect(enough.ok && enough.steps[1]).toBe("Drag is not below the least of 1.1 N.m.");
});
