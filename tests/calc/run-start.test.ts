import { describe, expect, test } from "vitest";
import { loadedBeforeWarm, startDelays } from "../../server/calc/run-start.ts";
import { figures } from "./check-values/check.ts";
import { runTable } from "./run-table-for-tests.ts";

const delays = (time: readonly number[], speed: readonly number[], pressure: readonly number[], within_s = 30) =>
  figures(startDelays(runTable(time, speed, pressure), 0, 400, 1, 40, within_s)).starts;

describe("delay after start", () => {
  test("in time, and exactly the allowed time is in time", () => {
    const [start] = delays([0, 10, 10, 40], [0, 0, 800, 800], [0, 0, 0, 40]);
    expect(start).toMatchObject({ start_s: 10, reached_s: 40, delay_s: 30, verdict: "in-time" });
  });

  test("late and never are told apart, and every start is seen", () => {
    const found = delays(
      [0, 10, 50, 60, 70, 80, 200, 210],
      [0, 800, 800, 0, 0, 800, 800, 800],
      [0, 0, 60, 0, 0, 0, 0, 0],
    );
    expect(found.map((start) => start.verdict)).toEqual(["late", "never"]);
    expect(found[0].start_s).toBe(5);
  });

  test("an engine stopped in time without pressure was stopped, as it should be", () => {
    expect(delays([0, 10, 20, 30], [0, 800, 800, 0], [0, 0, 5, 0])[0].verdict).toBe("stopped");
  });

  test("a missing channel is unknown, not in time and not late", () => {
    const [start] = delays([0, 10, 20, 100], [0, 800, 800, 800], [0, Number.NaN, Number.NaN, Number.NaN]);
    expect(start.verdict).toBe("unknown");
    expect(start.delay_s).toBeNaN();
  });

  test("pressure from pre-oiling counts from the start", () => {
    expect(delays([0, 10, 20], [0, 800, 800], [45, 50, 55])[0]).toMatchObject({ delay_s: 0, verdict: "in-time" });
  });

  test("an engine that runs in the first row was not seen to start", () => {
    expect(delays([0, 10], [800, 800], [0, 50])).toEqual([]);
  });

  test("says how closely the answer is known", () => {
    expect(delays([0, 60, 120], [0, 800, 800], [0, 0, 80])[0].spacing_s).toBe(60);
  });

  test("refuses a running speed of nothing", () => {
    expect(startDelays(runTable([0, 1], [0, 1], [0, 1]), 0, 0, 1, 40, 30).ok).toBe(false);
  });
});

describe("loaded before warm", () => {
  const table = runTable([0, 60, 120, 180, 240], [800, 1300, 1300, 1300, 1300], [20, 35, 39, 40, Number.NaN]);

  test("counts the cold time, the lowest value and the unknown rest", () => {
    expect(figures(loadedBeforeWarm(table, 0, 1200, 1, 40))).toEqual({
      ok: true,
      cold_s: 120,
      unknown_s: 0,
      first_s: 60,
      lowest: 35,
      lowestAt_s: 60,
      samples: 2,
    });
  });

  test("exactly warm and exactly the speed: loaded, and warm", () => {
    const exact = runTable([0, 60], [1200, 1200], [40, 40]);
    expect(figures(loadedBeforeWarm(exact, 0, 1200, 1, 40)).samples).toBe(0);
    expect(figures(loadedBeforeWarm(exact, 0, 1200, 1, 40.1)).cold_s).toBe(60);
  });

  test("never loaded leaves nothing to say", () => {
    expect(figures(loadedBeforeWarm(table, 0, 2000, 1, 40))).toMatchObject({ cold_s: 0, samples: 0 });
  });
});
