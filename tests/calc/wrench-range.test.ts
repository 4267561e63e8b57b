import { expect, test } from "vitest";
import { wrenchRange } from "../../server/calc/wrench-range.ts";

test.each([
  [11, 55, undefined, "inside"],
  [10.9, 55, undefined, "below a fifth"],
  [0.6, 3, undefined, "inside"],
  [55, 55, undefined, "inside"],
  [55.1, 55, undefined, "above its greatest setting"],
  [14, 55, 15, "below its least setting"],
  [15, 55, 15, "inside"],
  [10, 55, 5, "below a fifth"],
] as const)("%s N.m on a wrench to %s N.m from %s: %s", (dial, greatest, least, verdict) => {
  expect(wrenchRange(dial, greatest, least)).toMatchObject({ ok: true, verdict });
});

test.each([
  [0, 55, undefined],
  [10, 0, undefined],
  [10, 55, 60],
  [10, 55, 0],
])("%s, %s, %s is refused", (dial, greatest, least) => {
  expect(wrenchRange(dial, greatest, least)).toMatchObject({ ok: false });
});

test("a fifth of any whole setting is inside", () => {
  for (let greatest = 1; greatest <= 500; greatest += 1) {
    expect(wrenchRange(greatest / 5, greatest)).toMatchObject({ verdict: "inside" });
  }
});

test("the share and its working", () => {
  expect(wrenchRange(34.3, 55)).toMatchObject({
    share: 34.3 / 55,
    steps: ["34.3 N.m on the dial is 62.4 % of the greatest setting 55 N.m: inside the range."],
  });
  expect(wrenchRange(5, 55)).toMatchObject({
    steps: ["5 N.m on the dial is 9.09 % of the greatest setting 55 N.m: below a fifth."],
  });
});
