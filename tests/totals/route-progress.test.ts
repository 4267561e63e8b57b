/** Steps of a route: what each needs, what is there, what comes next. */
import { describe, expect, test } from "vitest";
import { routeProgress } from "../../server/totals/route-progress.ts";
import { stepNameOf, stepsAfter } from "../../server/totals/route-steps.ts";
import { shopOf } from "../support/shop.ts";

const TEXT = `engine-type Curlew-9
  places cylinder[1..2]
limits Curlew-9 revision C from 2025-11-01
  limit cylinder.bore[1..2] new 98.000..98.022 mm wear max 98.070 mm
  torque cylinder.nut[1..2/1..3] 38..42 N.m oiled
  torque gear-case.nut[1..4] 18..22 N.m dry
engine C9-0412 Curlew-9
route overhaul
  step inspect needs limits wear cylinder; photo 1; sign fitter; sign inspector independent
  step build after inspect needs torque all; sign fitter
  step close after build needs torque gear-case; tool-count; sign fitter
  step release after close needs no open defect; sign certifier
job J26-014 engine C9-0412 route overhaul limits C
`;
const INSPECT = `entry E1 2026-02-19 inspect job J26-014
  measure cylinder.bore[1] 98.010 mm
  photo "photos/a.png" "Barrel"
  sign fitter ATH 2026-02-19
`;
const BUILD = `entry E2 2026-02-27 build job J26-014
  torque cylinder.nut[1..2/1..3] 40 N.m oiled
  torque gear-case.nut[1..4] 20 N.m dry
  sign fitter ATH 2026-02-27
`;

const progress = (text: string) =>
  shopOf({ "job.gudgeon": `${TEXT}${text}` }).checker.ask.total(routeProgress, "J26-014");
const missing = (text: string, step: string) =>
  Object.fromEntries(
    (progress(text).steps.find((one) => one.name === step)?.needs ?? []).map((need) => [need.text, need.missing]),
  );

describe("progress along a route", () => {
  test("nothing done: the first step is next", () => {
    const { steps, stepsDone, next } = progress("");
    expect(steps.map((step) => [step.name, step.started, step.done])).toEqual([
      ["inspect", false, false],
      ["build", false, false],
      ["close", false, false],
      ["release", false, false],
    ]);
    expect([stepsDone, next]).toEqual([0, "inspect"]);
  });

  test("a step wants what is not there", () => {
    expect(missing(INSPECT, "inspect")).toEqual({
      "limits wear cylinder": ["1 of cylinder.bore"],
      "photo 1": [],
      "sign fitter": [],
      "sign inspector independent": ["inspector in J26-014/E1"],
    });
  });

  test("a step is done when every need is met, and the next one follows", () => {
    const done = INSPECT.replace("bore[1] 98", "bore[1..2] 98").concat("  sign inspector RPE 2026-02-20\n");
    expect(progress(done)).toMatchObject({ stepsDone: 1, next: "build" });
    expect(progress(done + BUILD)).toMatchObject({ stepsDone: 2, next: "close" });
  });

  test("opening takes a torque away from the step that follows, not from the step before", () => {
    const opened = `${INSPECT}${BUILD}entry E3 2026-04-14 after-run job J26-014\n  open gear-case\n`;
    expect(missing(opened, "build")["torque all"]).toEqual([]);
    expect(missing(opened, "close")["torque gear-case"]).toEqual(["4 of gear-case.nut"]);
    const closed = `${opened}entry E4 2026-04-15 close job J26-014\n  torque gear-case.nut[1..3] 20 N.m dry\n`;
    expect(missing(closed, "close")["torque gear-case"]).toEqual(["1 of gear-case.nut"]);
  });

  test("an open defect stands in the way of the release", () => {
    const defect = `${BUILD}  defect D1 baffle[4] "Cracked"\n`;
    expect(missing(defect, "release")["no open defect"]).toEqual(["defect D1"]);
    expect(
      missing(`${defect}  defer D1 until 2026-12-31 by CNO 2026-02-27 "Cosmetic"\n`, "release")["no open defect"],
    ).toEqual([]);
  });
});

describe("which step a block serves", () => {
  const route = (...steps: readonly { name: string; needs?: "run-in" | "no-open-defect" }[]) => ({
    steps: steps.map(({ name, needs }) => ({
      at: 1,
      name,
      after: [],
      needs:
        needs === "run-in" ? [{ kind: "run-in" as const, type: "Curlew-9" }] : needs ? [{ kind: needs } as const] : [],
    })),
  });

  test.each([
    ["run", "stand", route({ name: "stand" }, { name: "run" }), "stand"],
    ["run", "stand", route({ name: "run" }, { name: "proving", needs: "run-in" }), "run"],
    ["run", "stand", route({ name: "proving", needs: "run-in" }), "proving"],
    ["run", "stand", route({ name: "build" }), ""],
    ["release", "release", route({ name: "sign-off", needs: "no-open-defect" }), "sign-off"],
    ["dispatch", "pack", route({ name: "pack" }, { name: "dispatch" }), "pack"],
    ["dispatch", "pack", route({ name: "dispatch" }), "dispatch"],
    ["entry", "wash", route({ name: "strip" }), ""],
  ] as const)("%s of step %s", (kind, step, of, wanted) => {
    expect(stepNameOf({ kind, step }, of)).toBe(wanted);
  });
});

test("steps that come after one, through others and in a ring", () => {
  const steps = [
    { name: "a", after: [] },
    { name: "b", after: ["a"] },
    { name: "c", after: ["b", "x"] },
    { name: "x", after: ["c"] },
    { name: "alone", after: [] },
  ];
  expect([...stepsAfter(steps, "a")].sort()).toEqual(["b", "c", "x"]);
  expect([...stepsAfter(steps, "alone")]).toEqual([]);
});
