import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { civilDay } from "../../server/calc/csv-cells.ts";
import { type AddMonths, type DueTask, dueState, lifeState, type UsePoint } from "../../server/calc/due.ts";
import type { CivilDate } from "../../server/quantity/civil-date.ts";
import { addMonths as addCivilMonths } from "../../server/quantity/civil-months.ts";
import { figures } from "./check-values/check.ts";

const addMonths: AddMonths = (date, months) => addCivilMonths(date as CivilDate, months);
const day = civilDay;
const state = (task: DueTask, start: UsePoint | undefined, done: readonly UsePoint[], now: UsePoint) =>
  figures(dueState(task, start, done, now, addMonths));
const new_ = { date: day(2026, 1, 1), hours_h: 0, cycles: 0 };

describe("due", () => {
  test("the first interval differs from the repeated one", () => {
    const task: DueTask = { every: { hours_h: 25 }, first: { hours_h: 5 }, anchor: "done" };
    expect(state(task, new_, [], { date: new_.date, hours_h: 4 })).toMatchObject({
      verdict: "ahead",
      neverDone: true,
      governing: { dueAt: 5, left: 1 },
    });
    const done = [{ date: new_.date + 9, hours_h: 6 }];
    expect(state(task, new_, done, { date: new_.date + 20, hours_h: 20 }).governing).toMatchObject({
      dueAt: 31,
      left: 11,
    });
  });

  test("exactly at the due point is due soon, a tenth after it is overdue", () => {
    const task: DueTask = { every: { hours_h: 25 }, anchor: "done" };
    expect(state(task, new_, [], { ...new_, hours_h: 25 }).verdict).toBe("due-soon");
    expect(state(task, new_, [], { ...new_, hours_h: 25.1 }).verdict).toBe("overdue");
    expect(state({ ...task, soon: { hours_h: 5 } }, new_, [], { ...new_, hours_h: 20 }).verdict).toBe("due-soon");
    expect(state({ ...task, soon: { hours_h: 5 } }, new_, [], { ...new_, hours_h: 19.9 }).verdict).toBe("ahead");
  });

  test("binary fractions of hours do not decide: 0.1 + 0.2 is 0.3", () => {
    const done = [{ date: new_.date + 1, hours_h: 0.1 }];
    expect(
      state({ every: { hours_h: 0.2 }, anchor: "done" }, new_, done, { date: new_.date + 2, hours_h: 0.3 }).governing
        ?.left,
    ).toBe(0);
  });

  test("whichever comes first decides", () => {
    const task: DueTask = { every: { hours_h: 50, months: 6, cycles: 100 }, anchor: "done" };
    const at = (hours_h: number, cycles: number, date: number) =>
      state(task, new_, [], { date, hours_h, cycles }).governing?.measure;
    expect(at(49, 10, day(2026, 2, 1))).toBe("hours");
    expect(at(10, 99, day(2026, 2, 1))).toBe("cycles");
    expect(at(10, 10, day(2026, 6, 25))).toBe("calendar");
    expect(at(51, 10, day(2026, 7, 10))).toBe("calendar");
  });

  test("tolerance never moves the next due point of a plan", () => {
    const task: DueTask = { every: { hours_h: 100 }, tolerance: { hours_h: 10 }, anchor: "plan" };
    const late = [108, 205, 309].map((hours_h, index) => ({ date: new_.date + 50 * (index + 1), hours_h }));
    expect(state(task, new_, late, { date: new_.date + 200, hours_h: 310 }).governing?.dueAt).toBe(400);
    expect(
      state({ ...task, anchor: "done" }, new_, late, { date: new_.date + 200, hours_h: 310 }).governing?.dueAt,
    ).toBe(409);
  });

  test("no interval is ever longer than stated, late or early, and a plan is never later than the last done plus one", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 150 }), { maxLength: 8 }), (steps) => {
        let hours_h = 0;
        const done = steps.map((step, index) => {
          hours_h += step;
          return { date: new_.date + index, hours_h };
        });
        const now = { date: new_.date + 100, hours_h };
        const plan = state({ every: { hours_h: 100 }, anchor: "plan" }, new_, done, now).governing?.dueAt ?? Number.NaN;
        const last = state({ every: { hours_h: 100 }, anchor: "done" }, new_, done, now).governing?.dueAt ?? Number.NaN;
        expect(plan).toBeLessThanOrEqual(last);
        expect(plan).toBeLessThanOrEqual(100 * (steps.length + 1));
        expect(last).toBe(hours_h + 100);
      }),
    );
  });

  test("a monthly plan begun on the 31st does not slide to the 28th", () => {
    const start = { date: day(2026, 1, 31) };
    const task: DueTask = { every: { months: 1 }, anchor: "plan" };
    const done = [{ date: day(2026, 2, 28) }];
    expect(state(task, start, done, { date: day(2026, 3, 1) }).governing?.dueAt).toBe(day(2026, 3, 31));
    expect(state(task, start, [], { date: day(2026, 2, 28) })).toMatchObject({
      verdict: "due-soon",
      governing: { left: 0 },
    });
  });

  test("a monthly plan done early runs from the day it was done, done late from the day it was due", () => {
    const task: DueTask = { every: { months: 6 }, anchor: "plan" };
    const start = { date: day(2026, 1, 10) };
    const dueAfter = (done: number) => state(task, start, [{ date: done }], { date: done }).governing?.dueAt;
    expect(dueAfter(day(2026, 6, 20))).toBe(day(2026, 12, 20));
    expect(dueAfter(day(2026, 8, 1))).toBe(day(2027, 1, 10));
  });

  test("never done and nothing to count from; done once; a first time done without a known start", () => {
    const task: DueTask = { every: { months: 6 }, anchor: "done" };
    expect(state(task, undefined, [], new_).verdict).toBe("never-done");
    expect(state({ first: { hours_h: 25 }, anchor: "done" }, new_, [{ ...new_, hours_h: 24 }], new_).verdict).toBe(
      "done",
    );
    expect(state(task, undefined, [{ date: day(2026, 1, 10) }], { date: day(2026, 2, 1) }).governing?.dueAt).toBe(
      day(2026, 7, 10),
    );
  });

  test("an interval is known again from the first time done with its hours written down", () => {
    const task: DueTask = { every: { hours_h: 25 }, first: { hours_h: 5 }, anchor: "done" };
    const unknownStart = { date: new_.date };
    const done = [{ date: new_.date + 5, hours_h: 40 }];
    expect(state(task, unknownStart, done, { date: new_.date + 9, hours_h: 50 }).governing).toMatchObject({
      dueAt: 65,
    });
    const gap = [{ date: new_.date + 1 }, { date: new_.date + 5, hours_h: 40 }];
    expect(state(task, new_, gap, { date: new_.date + 9, hours_h: 50 }).governing).toMatchObject({ dueAt: 65 });
  });

  test("a measure that only the repeated interval names counts from the first time done", () => {
    const task: DueTask = { every: { hours_h: 25 }, first: { months: 1 }, anchor: "done" };
    expect(state(task, new_, [], { ...new_, hours_h: 90 }).measures.map((each) => each.measure)).toEqual(["calendar"]);
    const done = [{ date: new_.date + 20, hours_h: 30 }];
    expect(state(task, new_, done, { date: new_.date + 21, hours_h: 31 }).governing).toMatchObject({ dueAt: 55 });
  });

  test("a life limit has no tolerance and follows the part's own use", () => {
    const part = { date: day(2020, 5, 1), hours_h: 0 };
    expect(
      figures(lifeState({ hours_h: 1000 }, part, { date: day(2026, 1, 1), hours_h: 1000 }, addMonths)).verdict,
    ).toBe("due-soon");
    expect(
      figures(lifeState({ hours_h: 1000 }, part, { date: day(2026, 1, 1), hours_h: 1000.1 }, addMonths)).verdict,
    ).toBe("beyond-tolerance");
  });

  const every = { every: { hours_h: 25 }, anchor: "done" } as const;
  test.each([
    ["hours that nobody counts", dueState(every, { date: 0 }, [], { date: 10 }, addMonths)],
    [
      "cycles that nobody counts",
      dueState({ every: { cycles: 5 }, anchor: "done" }, new_, [], { date: 20_500, hours_h: 5 }, addMonths),
    ],
    ["no interval", dueState({ anchor: "done" }, new_, [], new_, addMonths)],
    ["an interval of zero", dueState({ every: { hours_h: 0 }, anchor: "done" }, new_, [], new_, addMonths)],
    ["half a month", dueState({ every: { months: 0.5 }, anchor: "done" }, new_, [], new_, addMonths)],
    ["months and days", dueState({ every: { months: 1, days: 30 }, anchor: "done" }, new_, [], new_, addMonths)],
    [
      "out of order",
      dueState(
        every,
        new_,
        [
          { date: 20_900, hours_h: 5 },
          { date: 20_800, hours_h: 9 },
        ],
        new_,
        addMonths,
      ),
    ],
    [
      "hours that run back",
      dueState(
        every,
        new_,
        [
          { date: 20_800, hours_h: 9 },
          { date: 20_900, hours_h: 5 },
        ],
        new_,
        addMonths,
      ),
    ],
  ])("refuses: %s", (_name, result) => {
    expect(result).toMatchObject({ ok: false, refused: expect.stringMatching(/\.$/) });
  });
});
