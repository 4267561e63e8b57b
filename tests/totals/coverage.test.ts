/** Coverage counts every place that the limits ask for, once. */
import { describe, expect, test } from "vitest";
import { coverage } from "../../server/totals/coverage.ts";
import { torqueCoverage } from "../../server/totals/torque-coverage.ts";
import { shopOf } from "../support/shop.ts";

const HEAD = `person CNO "Clara Northam"
  role certifier from 2024-01-01
engine-type Curlew-9
  places cylinder.bore[1..3/head,skirt]
limits Curlew-9 revision C from 2025-11-01
  limit cylinder.bore[1..3] new 98.000..98.022 mm wear max 98.070 mm
  limit cylinder.bore[1..3] size +0.5 mm new 98.500..98.522 mm wear max 98.570 mm
  limit taper cylinder.bore wear max 0.030 mm
  limit oil.pressure min 55 psi while crank.speed 1400..2300 rpm
  torque cylinder.nut[1..3/1..4] 38..42 N.m
engine C9-0412 Curlew-9
job J1 engine C9-0412 limits C
`;
const bores = (text: string) => {
  const { ask } = shopOf({ "job.gudgeon": HEAD + text }).checker;
  const total = ask.total(coverage, "J1");
  expect(total.lines.length).toBe(1);
  return { ...total.lines[0], total };
};
const E1 = "entry E1 2026-02-19 inspect job J1\n";

describe("measured places", () => {
  test("six are expected: three barrels at two levels, whatever their size; running limits and statistics ask for none", () => {
    expect(bores("")).toMatchObject({
      expected: 6,
      measured: 0,
      missing: ["1/head", "1/skirt", "2/head", "2/skirt", "3/head", "3/skirt"],
    });
  });
  test("a figure, a ?, a - and nothing are told apart", () => {
    expect(bores(`${E1}  grid cylinder.bore/mm head skirt\n  1 98.010 ?\n  2 - 98.040\n`)).toMatchObject({
      measured: 2,
      notApplicable: 1,
      todo: ["1/skirt"],
      missing: ["3/head", "3/skirt"],
      isNew: 1,
      isIn: 1,
      isOut: 0,
      total: { expected: 5, measured: 2, todo: 1, missing: 2 },
    });
  });
  test("a part that was changed is to be measured again, and then is measured", () => {
    const fitted = `${E1}  grid cylinder.bore/mm head skirt\n  1 98.010 98.011\n  fit "CB-1" serial "7" source "stock" at cylinder[1]\n`;
    expect(bores(fitted)).toMatchObject({ measured: 0, again: ["1/head", "1/skirt"] });
    expect(bores(`${fitted}  measure cylinder.bore[1/head] 98.005 mm\n`)).toMatchObject({
      measured: 1,
      again: ["1/skirt"],
    });
  });
  test("readings go with the part that moves", () => {
    expect(
      bores(`${E1}  grid cylinder.bore/mm head skirt\n  1 98.010 98.011\n  move cylinder[1] to cylinder[3]\n`),
    ).toMatchObject({
      measured: 2,
      missing: ["1/head", "1/skirt", "2/head", "2/skirt"],
    });
  });
  test("what is out of limit and conceded is measured and out", () => {
    const conceded = `${E1}  grid cylinder.bore/mm head skirt\n  1 98.080 98.011\n  concession N1 of E1 cylinder.bore[1] by CNO 2026-02-19 "0.010 over"\n`;
    expect(bores(conceded)).toMatchObject({ measured: 2, isOut: 1, isNew: 1 });
  });
});

test("torques: a part taken off takes those of its fasteners along", () => {
  const of = (text: string) => shopOf({ "job.gudgeon": HEAD + text }).checker.ask.total(torqueCoverage, "J1");
  const all = `${E1}  torque cylinder.nut[1..3/1..4] 40 N.m\n`;
  expect(of(all)).toMatchObject({ expected: 12, torqued: 12, missing: 0 });
  expect(of(`${all}  remove "CB-1" at cylinder[2]\n`)).toMatchObject({ torqued: 8, missing: 4 });
  expect(of(`${all}  remove "CB-1" at cylinder[2]\n  torque cylinder.nut[2/1..2] 40 N.m\n`)).toMatchObject({
    torqued: 10,
    missing: 2,
  });
});
