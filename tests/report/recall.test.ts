// What a recall finds in a small shop where everything that it should find was put there by hand.

import { describe, expect, test } from "vitest";
import { recall, recallText } from "../../server/report/recall.ts";
import { day, shopOf } from "../support/shop.ts";

const { checker } = shopOf({
  "base.gudgeon": `person ATH "Ada Thorne"
  role fitter from 2024-01-08
person RPE "Ruth Pell"
  role inspector from 2024-01-08
instrument BG-2 "Bore gauge"
instrument BG-3 "Bore gauge"
instrument RG-98 "Setting ring"
instrument TW-1 "Wrench"
instrument TC-4 "Probe"
stand TS-1 "North bay"
  channel cht[1] with TC-4
engine-type Curlew-9
  places cylinder.bore[1..9] piston[1..9]
engine C9-0412 Curlew-9
  owner "Fenland Flying Museum"
engine C9-0500 Curlew-9
  owner "A. Miller"
  fit part "CV-2201-B" qty 1 batch B77
job J1 engine C9-0412
job J2 engine C9-0500
`,
  "j1.gudgeon": `entry E1 2026-02-19 inspect job J1
  measure cylinder.bore[1] 98.001 mm with BG-2 set on RG-98
  measure cylinder.bore[2] 98.002 mm with BG-2
  sign fitter ATH 2026-02-19
entry E2 2026-03-01 inspect job J1
  amends E1 "Read again on the other gauge"
  measure cylinder.bore[2] 98.003 mm with BG-3
  torque cylinder.nut[1] 40 N.m with TW-1
  fit part "CV-2201-B" serial "V7" batch B77 at piston[5]
  consumable "Sealant" batch B77 expires 2026-12-31
  sign inspector RPE 2026-03-01
entry E3 2026-03-05 inspect job J1
  remove part "CV-2201-B" serial "V7" scrapped "Batch recalled"
  torque cylinder.nut[1] 40 N.m
run R1 2026-03-10 job J1 stand TS-1 by ATH second RPE
release 2026-03-20 J1 by RPE "Carried out"
`,
  "j2.gudgeon": `entry E1 2026-04-01 inspect job J2
  measure cylinder.bore[1] 98.010 mm with BG-2
`,
});
const lines = (kind: Parameters<typeof recall>[1], name: string, since?: string): string[] =>
  recall(checker, kind, name, since === undefined ? undefined : day(since)).engines.flatMap((engine) =>
    engine.touched.map(
      (one) => `${engine.engine} ${one.ref} ${one.path}:${one.line + 1} ${one.what} ${one.stands ? "stands" : "past"}`,
    ),
  );

describe("instrument", () => {
  test("readings by engine; the one that was taken again does not count any more", () => {
    expect(lines("instrument", "BG-2")).toEqual([
      "C9-0412 J1/E1 j1.gudgeon:2 cylinder.bore[1] 98.001 mm stands",
      "C9-0412 J1/E1 j1.gudgeon:3 cylinder.bore[2] 98.002 mm past",
      "C9-0500 J2/E1 j2.gudgeon:2 cylinder.bore[1] 98.010 mm stands",
    ]);
  });
  test("since a day", () => expect(lines("instrument", "BG-2", "2026-03-01")).toHaveLength(1));
  test("a setting standard, a wrench used again by another, a channel of the stand", () => {
    expect(lines("instrument", "RG-98")).toEqual([
      "C9-0412 J1/E1 j1.gudgeon:2 cylinder.bore[1] 98.001 mm (set on RG-98) stands",
    ]);
    expect(lines("instrument", "TW-1")).toEqual(["C9-0412 J1/E2 j1.gudgeon:8 torque cylinder.nut[1] 40 N.m past"]);
    expect(lines("instrument", "TC-4")).toEqual(["C9-0412 J1/R1 j1.gudgeon:15 run R1: channel cht[1] stands"]);
  });
});

test("batch: what is in an engine, what was scrapped, and the consumable", () => {
  expect(lines("batch", "B77")).toEqual([
    "C9-0412 J1/E2 j1.gudgeon:9 part CV-2201-B serial V7 of batch B77 past",
    "C9-0412 J1/E2 j1.gudgeon:10 consumable Sealant, batch B77 stands",
    "C9-0500 engine/C9-0500 base.gudgeon:18 part CV-2201-B of batch B77 stands",
  ]);
  expect(lines("part", "CV-2201-B")).toHaveLength(2);
});

test("person: signatures, releases, runs", () => {
  expect(lines("person", "RPE")).toEqual([
    "C9-0412 J1/E2 j1.gudgeon:11 signed as inspector stands",
    "C9-0412 J1/R1 j1.gudgeon:15 stood by at the run stands",
    "C9-0412 J1/release j1.gudgeon:16 released the job stands",
  ]);
});

test("in words: engine, owner, what was released, what to do", () => {
  const text = recallText(recall(checker, "instrument", "BG-2"));
  expect(text.split("\n")[0]).toBe("instrument BG-2: 3 lines in 2 engines, 2 of them still count");
  expect(text).toContain("C9-0412 Curlew-9, Fenland Flying Museum\n  J1 is released: tell the owner");
  expect(text).toContain("to do: measure again with a gauge that is in calibration");
  expect(recall(checker, "instrument", "BG-9").known).toBe(false);
  expect(recall(checker, "instrument", "BG-3").known).toBe(true);
});
