import { expect, test } from "vitest";
import { uncertaintyRatio } from "../../server/calc/uncertainty-ratio.ts";

test("exactly four is enough, just below is not", () => {
  expect(uncertaintyRatio(98, 98.024, 0.003)).toMatchObject({ ratio: 4, enough: true });
  expect(uncertaintyRatio(98, 98.0239, 0.003)).toMatchObject({ enough: false });
});

test("limits without a span and no uncertainty are refused", () => {
  expect(uncertaintyRatio(98, 98, 0.003)).toMatchObject({ ok: false });
  expect(uncertaintyRatio(98.022, 98, 0.003)).toMatchObject({ ok: false });
  expect(uncertaintyRatio(98, 98.022, 0)).toMatchObject({ ok: false });
});
