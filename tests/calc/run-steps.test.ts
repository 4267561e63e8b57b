import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { matchRunIn, type RunInStep } from "../../server/calc/run-steps.ts";
import { figures } from "./check-values/check.ts";
import { runTable } from "./run-table-for-tests.ts";

const step = (name: string, least_s: number, from_rpm: number, until_rpm: number, max?: number): RunInStep => ({
  name,
  least_s,
  from_rpm,
  until_rpm,
  bounds: max === undefined ? [] : [{ column: 1, max }],
});

/** Speed in a staircase of flat pieces, a sample every 10 s. */
function staircase(pieces: readonly (readonly [rpm: number, samples: number])[]) {
  const speed = pieces.flatMap(([rpm, samples]) => Array.from({ length: samples }, () => rpm));
  return runTable(
    speed.map((_rpm, index) => index * 10),
    speed,
    speed.map((rpm) => rpm / 10),
  );
}

const verdicts = (table: ReturnType<typeof staircase>, steps: readonly RunInStep[]) =>
  figures(matchRunIn(table, 0, steps)).steps.map((match) => match.verdict);

describe("run-in steps", () => {
  const steps = [step("1", 60, 700, 900), step("2", 120, 1000, 1400)];

  test("done in order", () => {
    const found = figures(
      matchRunIn(
        staircase([
          [0, 3],
          [800, 8],
          [1200, 14],
          [0, 3],
        ]),
        0,
        steps,
      ),
    );
    expect(found.steps.map((match) => match.verdict)).toEqual(["done", "done"]);
    expect(found.complete).toBe(true);
    // 7 gaps of 10 s at 800 rpm, and the parts of the two ramps between 700 and 900 rpm.
    expect(found.steps[0].counted_s).toBeCloseTo(70 + 10 / 8 + 2.5, 6);
  });

  test("exactly the least time is done; a second less is short", () => {
    expect(verdicts(staircase([[800, 7]]), [step("1", 60, 800, 800)])).toEqual(["done"]);
    expect(verdicts(staircase([[800, 7]]), [step("1", 61, 800, 800)])).toEqual(["short"]);
  });

  test("missed, short and out of order are told apart", () => {
    expect(
      verdicts(
        staircase([
          [800, 8],
          [500, 8],
        ]),
        steps,
      ),
    ).toEqual(["done", "missed"]);
    expect(
      verdicts(
        staircase([
          [800, 8],
          [1200, 5],
          [500, 3],
        ]),
        steps,
      ),
    ).toEqual(["done", "short"]);
    expect(
      verdicts(
        staircase([
          [1200, 14],
          [800, 8],
          [0, 2],
        ]),
        steps,
      ),
    ).toEqual(["done", "out-of-order"]);
  });

  test("one stretch may serve two steps, but not with the same seconds", () => {
    const both = [step("1", 60, 700, 900), step("2", 60, 750, 1000)];
    expect(verdicts(staircase([[800, 13]]), both)).toEqual(["done", "done"]);
    expect(verdicts(staircase([[800, 12]]), both)).toEqual(["done", "short"]);
  });

  test("a dip ends a stretch unless it is bridged, and its seconds do not count", () => {
    const table = staircase([
      [800, 5],
      [600, 1],
      [800, 5],
    ]);
    const one = [step("1", 80, 700, 900)];
    expect(figures(matchRunIn(table, 0, one)).steps[0].verdict).toBe("short");
    const bridged = figures(matchRunIn(table, 0, one, { bridge_s: 15 })).steps[0];
    expect(bridged.verdict).toBe("done");
    expect(bridged.counted_s).toBeCloseTo(90, 6);
    expect(bridged.end_s - bridged.start_s).toBeCloseTo(100, 6);
  });

  test("a bound is checked while its step runs, not in the next one; equal is inside", () => {
    const table = staircase([
      [800, 8],
      [1200, 14],
    ]);
    const bounded = [step("1", 60, 700, 900, 80), step("2", 120, 1000, 1400, 119)];
    const found = figures(matchRunIn(table, 0, bounded)).steps;
    expect(found[0].boundsBroken).toEqual([]);
    expect(found[1].boundsBroken).toEqual([
      { column: 1, bound: "max", limit: 119, worst: 120, worstAt_s: 80, samples: 14 },
    ]);
  });

  test("agrees with a search over every second", () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.constantFrom(600, 800, 950, 1200), fc.integer({ min: 1, max: 8 })), {
          minLength: 1,
          maxLength: 10,
        }),
        (pieces) => {
          // Speed as a staircase without ramps: two samples at each change carry no time between them.
          const times: number[] = [];
          const speeds: number[] = [];
          let now = 0;
          for (const [rpm, length] of pieces) {
            times.push(now, now + length * 10);
            speeds.push(rpm, rpm);
            now += length * 10;
          }
          const wanted = [step("1", 30, 700, 1000), step("2", 40, 900, 1300)];
          const found = figures(matchRunIn(runTable(times, speeds), 0, wanted));
          // By brute force: step 1 ends at the earliest second with 30 s behind it, step 2 must fit after that.
          const at = (second: number) => {
            let passed = 0;
            for (const [rpm, length] of pieces) {
              passed += length * 10;
              if (second < passed) return rpm;
            }
            return 0;
          };
          const earliest = (after: number, each: RunInStep) => {
            let run = 0;
            for (let second = after; second < now; second++) {
              run = at(second) >= each.from_rpm && at(second) <= each.until_rpm ? run + 1 : 0;
              if (run >= each.least_s) return second + 1;
            }
            return undefined;
          };
          const first = earliest(0, wanted[0]);
          const second = first === undefined ? undefined : earliest(first, wanted[1]);
          expect(found.steps[0].verdict === "done").toBe(first !== undefined);
          fc.pre(first !== undefined);
          expect(found.steps[1].verdict === "done").toBe(second !== undefined);
        },
      ),
      { numRuns: 300 },
    );
  });

  test("refuses a step without time and a range upside down", () => {
    const table = staircase([[800, 8]]);
    expect(matchRunIn(table, 0, [step("1", 0, 700, 900)]).ok).toBe(false);
    expect(matchRunIn(table, 0, [step("1", 60, 900, 700)]).ok).toBe(false);
    expect(matchRunIn(table, 9, [step("1", 60, 700, 900)]).ok).toBe(false);
  });
});
