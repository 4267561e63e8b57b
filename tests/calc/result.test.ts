import { expect, test } from "vitest";
import { answer, refuse, refuseNotPositive, refuseUnusable } from "../../server/calc/result.ts";

test("an answer carries its figures and a refusal its sentence", () => {
  expect(answer({ value: 1 })).toEqual({ ok: true, value: 1 });
  expect(refuse("Too small.")).toEqual({ ok: false, refused: "Too small." });
});

test("the first unusable input is named", () => {
  expect(refuseUnusable({ a: 1, b: -2 })).toBeUndefined();
  expect(refuseUnusable({ a: 1, hours: Number.NaN })?.refused).toBe("The hours is not a number.");
  expect(refuseNotPositive({ a: 1, bore: 0 })?.refused).toBe("The bore must be greater than zero, not 0.");
  expect(refuseNotPositive({ bore: Number.POSITIVE_INFINITY })?.refused).toBe("The bore is not a number.");
});
