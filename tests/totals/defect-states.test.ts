/** What became of a defect: the latest line that speaks of it decides, in its own job by the order of sheets, across jobs by date. */
import { describe, expect, test } from "vitest";
import { decidedBefore, defectStates } from "../../server/totals/defect-states.ts";
import { shopOf } from "../support/shop.ts";

const HEAD = "engine-type Curlew-9\nengine C9-0412 Curlew-9\njob J26-014 engine C9-0412\njob J26-020 engine C9-0412\n";
const FOUND = 'entry E1 2026-02-17 strip job J26-014\n  defect D1 baffle[4] "Cracked"\n';
const states = (text: string, scope = "J26-014") =>
  shopOf({ "job.gudgeon": `${HEAD}${text}` }).checker.ask.total(defectStates, scope);
const standing = (text: string, scope?: string) => states(text, scope).map((one) => [one.name, one.standing]);
const DEFER = '  defer D1 until 2026-12-31 by CNO 2026-02-20 "Cosmetic"\n';

describe("within a job", () => {
  test("open until a line speaks of it", () => {
    expect(standing(FOUND)).toEqual([["D1", "open"]]);
    expect(standing(`${FOUND}${DEFER}`)).toEqual([["D1", "deferred"]]);
    expect(standing(`${FOUND}${DEFER}  rectify D1 "Welded"\n`)).toEqual([["D1", "rectified"]]);
  });

  test("the order of sheets decides, whatever their order in the file; in one sheet the lower line", () => {
    const late = `entry E3 2026-03-03 close job J26-014\n${DEFER}`;
    const early = 'entry E2 2026-03-02 build job J26-014\n  rectify D1 "Welded"\n';
    expect(standing(FOUND + early + late)).toEqual([["D1", "deferred"]]);
    expect(standing(FOUND + late + early)).toEqual([["D1", "deferred"]]);
    expect(standing(`${FOUND}  rectify D1 "Welded"\n${DEFER}`)).toEqual([["D1", "deferred"]]);
  });

  test("how it stood before a sheet", () => {
    const [defect] = states(
      `${FOUND}entry E2 2026-03-02 build job J26-014\n${DEFER}entry E3 2026-03-03 close job J26-014\n  rectify D1 "Welded"\n`,
    );
    expect([0, 1, 2, 3].map((order) => defect && decidedBefore(defect, order)?.standing)).toEqual([
      undefined,
      undefined,
      "deferred",
      "rectified",
    ]);
  });
});

describe("across jobs", () => {
  const later = (day: string, name: string) => `entry E1 ${day} close job J26-020\n  rectify ${name} "Renewed"\n`;

  test("a later job rectifies it by its full name, and not by the short one", () => {
    expect(standing(`${FOUND}${DEFER}${later("2026-06-01", "J26-014/D1")}`)).toEqual([["D1", "rectified"]]);
    expect(standing(`${FOUND}${DEFER}${later("2026-06-01", "D1")}`)).toEqual([["D1", "deferred"]]);
    expect(standing(`${FOUND}${DEFER}${later("2026-06-01", "J26-013/D1")}`)).toEqual([["D1", "deferred"]]);
  });

  test("by date: what its own job says later decides again", () => {
    const own = `entry E4 2026-06-02 review job J26-014\n${DEFER}`;
    expect(standing(`${FOUND}${own}${later("2026-06-01", "J26-014/D1")}`)).toEqual([["D1", "deferred"]]);
    expect(standing(`${FOUND}${own}${later("2026-06-03", "J26-014/D1")}`)).toEqual([["D1", "rectified"]]);
  });

  test("a job of another engine does not", () => {
    const other = `engine C9-0300 Curlew-9\njob J26-030 engine C9-0300\nentry E1 2026-06-01 close job J26-030\n  rectify J26-014/D1 "Renewed"\n`;
    expect(standing(`${FOUND}${other}`)).toEqual([["D1", "open"]]);
  });

  test("work in service has defects of its own, and rectifies those of jobs", () => {
    const service =
      'entry S1 2026-06-01 service engine C9-0412\n  defect D1 cowl[1] "Dented"\n  rectify J26-014/D1 "Renewed"\n';
    expect(standing(`${FOUND}${service}`)).toEqual([["D1", "rectified"]]);
    expect(standing(`${FOUND}${service}`, "engine:C9-0412")).toEqual([["D1", "open"]]);
  });
});
