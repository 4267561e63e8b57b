import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { type AnyRule, rule } from "../../server/rules/rule.ts";
import { recordsOf, runRandomEdits } from "./random-edits.ts";

const samples = join(import.meta.dirname, "../../samples");
/** GUDGEON_SEEDS=20 tries more; a failure names its seed. */
const SEEDS = Number(process.env["GUDGEON_SEEDS"] ?? "1");

describe("after every random edit the findings equal a fresh run", () => {
  for (let seed = 1; seed <= SEEDS; seed++) {
    test(`a job half done, 2000 edits, seed ${seed}`, { timeout: 600_000 }, () => {
      const run = runRandomEdits(recordsOf(join(samples, "bench")), seed, 2000);
      expect(run.differences).toEqual([]);
      expect(run.edits).toBe(2000);
    });
    test(`a whole job, 150 edits, seed ${seed}`, { timeout: 600_000 }, () => {
      const run = runRandomEdits(recordsOf(join(samples, "clean")), 1000 + seed, 150);
      expect(run.differences).toEqual([]);
    });
  }
});

test("the comparison can fail: a rule that looks at lines which it does not name goes stale", () => {
  const careless = rule({
    id: "test/careless",
    severity: "hint",
    on: ["entry"],
    reads: ["labour"],
    page: { what: "", why: "", remedy: "", faulty: [], sound: [] },
    check: (entry, _ask, report: (spot: { at: number }, data: number) => void) =>
      report({ at: 0 }, entry.readings.length),
    say: (count: number) => `${count} readings`,
  }) as unknown as AnyRule;
  const run = runRandomEdits(recordsOf(join(samples, "bench")), 7, 2000, [careless]);
  expect(run.differences.length).toBeGreaterThan(1);
});
