/** Where parts are, after fittings, removals and moves over an engine's own lines, its jobs and its work in service. */
import { describe, expect, test } from "vitest";
import { partsFitted } from "../../server/totals/parts.ts";
import { shopOf } from "../support/shop.ts";

const HEAD = "engine-type Curlew-9\nengine C9-0412 Curlew-9\n";
const JOB = "job J26-014 engine C9-0412\n";
const parts = (text: string) => shopOf({ "job.gudgeon": text }).checker.ask.total(partsFitted, "C9-0412");
const where = (text: string) =>
  parts(text).items.map((item) => [
    item.serial || item.batch,
    item.quantity,
    item.places.join(" "),
    item.left?.kind ?? "",
  ]);

describe("parts of an engine", () => {
  test("a move takes the part along, and two neighbouring moves change places", () => {
    const text = `${HEAD}${JOB}entry E1 2026-02-19 strip job J26-014
  fit "PN-88" serial "P-3" at piston[3]
  fit "PN-88" serial "P-5" at piston[5]
entry E2 2026-02-20 build job J26-014
  move piston[3] to piston[5]
  move piston[5] to piston[3]
`;
    expect(where(text)).toEqual([
      ["P-3", 1, "piston[5]", ""],
      ["P-5", 1, "piston[3]", ""],
    ]);
  });

  test("moves apart are made one after the other: what stood there is not moved", () => {
    const text = `${HEAD}${JOB}entry E1 2026-02-19 strip job J26-014
  fit "PN-88" serial "P-3" at piston[3]
  move piston[3] to piston[4]
  open gear-case
  move piston[4] to piston[5]
`;
    expect(where(text)).toEqual([["P-3", 1, "piston[5]", ""]]);
  });

  test("a batch over places: one is removed, one is replaced", () => {
    const text = `${HEAD}${JOB}entry E1 2026-02-19 build job J26-014
  fit "CV-1" qty 4 batch B77 at valve[1..4]
  remove "CV-1" at valve[2]
  fit "CV-1" batch B80 at valve[3]
`;
    expect(where(text)).toEqual([
      ["B77", 2, "valve[1] valve[4]", ""],
      ["B80", 1, "valve[3]", ""],
    ]);
  });

  test("a removal without place or serial takes from the earliest fitting", () => {
    const text = `${HEAD}${JOB}entry E1 2026-02-19 build job J26-014
  fit "RG-1" qty 4 batch B1
  fit "RG-1" qty 4 batch B2
  remove "RG-1" qty 6 scrapped
`;
    expect(where(text)).toEqual([
      ["B1", 0, "", "scrapped"],
      ["B2", 2, "", ""],
    ]);
  });

  test("a serial is found wherever it is said to be, and fitted again it is one part", () => {
    const text = `engine-type Curlew-9
engine C9-0412 Curlew-9
  fit "MG-44" serial "M-1" at magneto-unit[left] on 2019-05-20
${JOB}entry E1 2026-02-19 strip job J26-014
  fit "MG-44" serial "M-1" at magneto-unit[right]
entry S1 2026-03-19 service engine C9-0412
  remove "MG-44" serial "M-1" at magneto-unit[left]
`;
    expect(where(text)).toEqual([
      ["M-1", 0, "", "fitted-again"],
      ["M-1", 0, "", "removed"],
    ]);
    expect(parts(text).conflicts).toEqual([]);
  });

  test("work in service and a job of the same engine are put in one order by date", () => {
    const text = `${HEAD}${JOB}entry E1 2026-03-19 build job J26-014
  fit "MG-44" serial "M-2" at magneto-unit[left]
entry S1 2026-02-19 service engine C9-0412
  fit "MG-44" serial "M-1" at magneto-unit[left]
`;
    expect(parts(text).conflicts).toMatchObject([
      { ref: "J26-014/E1", place: "magneto-unit[left]", sitting: { serial: "M-1", ref: "engine:C9-0412/S1" } },
    ]);
  });
});
