import { describe, expect, test } from "vitest";
import { countsAsOutside, figures, runCheck } from "./check.ts";
import { collectChecks } from "./collect.ts";

const { checks, unchecked } = await collectChecks();

describe("published checks", () => {
  test.each(checks.map((check) => [`${check.computation}: ${check.what} (${check.kind})`, check] as const))(
    "%s",
    (_title, check) => {
      expect(check.source.length).toBeGreaterThan(0);
      expect(check.tolerance).toBeGreaterThanOrEqual(0);
      expect(runCheck(check).failure).toBeUndefined();
    },
  );

  test("a computation said to have no outside check has none", () => {
    const outside = new Set(checks.filter((check) => countsAsOutside(check.kind)).map((check) => check.computation));
    expect(unchecked.filter((item) => outside.has(item.computation))).toEqual([]);
  });

  test("no two checks of one computation compare the same thing", () => {
    const seen = checks.map((check) => `${check.computation}: ${check.what}: ${check.source}`);
    expect(seen.filter((key, index) => seen.indexOf(key) !== index)).toEqual([]);
  });
});

describe("the check itself", () => {
  const sample = {
    computation: "x",
    group: 1,
    what: "y",
    source: "z",
    kind: "read",
  } as const;

  test("fails a figure outside its tolerance, a refusal and a figure that is none", () => {
    expect(runCheck({ ...sample, expected: 1, tolerance: 0.1, got: () => 1.2 }).failure).toBeDefined();
    expect(runCheck({ ...sample, expected: 1, tolerance: 0, got: () => 1 + 1e-15 }).failure).toBeDefined();
    expect(runCheck({ ...sample, expected: 1, tolerance: 9, got: () => Number.NaN }).failure).toBeDefined();
    const refused = { ok: false, refused: "Too small." } as const;
    expect(
      runCheck({
        ...sample,
        expected: 1,
        tolerance: 9,
        got: () => Object.keys(figures(refused)).length,
      }).failure,
    ).toBe("Too small.");
  });

  test("passes a figure at the edge of its tolerance", () => {
    expect(runCheck({ ...sample, expected: 0.3, tolerance: 0.1, got: () => 0.4 }).failure).toBeUndefined();
  });
});
