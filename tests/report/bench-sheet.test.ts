import { describe, expect, test } from "vitest";
import { parseLine } from "../../grammar/line-parser.ts";
import {
  featuresToMeasure,
  gridLines,
  inspectionSheet,
  logColumns,
  nextName,
  rolesToSign,
  torquesToDo,
} from "../../server/report/bench-sheet.ts";
import { shopOf } from "../support/shop.ts";

const SHOP = `engine-type Tern-4
  layout opposed 4
  places barrel[1..2/head,skirt] guide[1..2/1..2] pump[pressure,scavenge] gap[1..2/inlet,exhaust] end-float odd[1/a,b] odd[2/a]
limits Tern-4 revision A from 2025-01-01
  limit barrel[1..2] max 95.10 mm
  limit guide[1..2] max 8.05 mm
  limit pump[pressure,scavenge] max 0.15 mm
  limit gap[1..2] 0.20..0.30 mm cold
  limit end-float max 0.2 mm
  limit odd[1..2] max 1 in
  limit oil.temp max 90 C
  torque nut[1..2/1..3] 20..24 N.m oiled
  torque plug[1..2] 24..30 N.m compound "graphite grease"
instrument TC-1 "Thermometer"
  range 0..150 C
stand TS-2 "South bay"
  channel oil.temp with TC-1
route service
  step inspect needs limits wear barrel, guide; sign fitter; sign inspector independent
  step build after inspect needs torque nut
engine T4-1 Tern-4
job J1 engine T4-1 route service limits A
`;
const shopWith = (work: string) => shopOf({ "a.gudgeon": SHOP, "b.gudgeon": work }, { rules: [] });
const EMPTY = "entry E1 2026-02-19 inspect job J1\n";
const { ask } = shopWith(EMPTY).checker;

describe("tables", () => {
  test.each([
    ["a row each first label, a column each word behind it", "barrel", ["grid barrel/mm head skirt", "1 ? ?", "2 ? ?"]],
    [
      "numbers behind the label are rows of a table of their own",
      "guide",
      ["grid guide[1]/mm", "1 ?", "2 ?", "grid guide[2]/mm", "1 ?", "2 ?"],
    ],
    ["labels that are words have a colon", "pump", ["grid pump/mm", "pressure: ?", "scavenge: ?"]],
    ["the state of the limit is that of the table", "gap", ["grid gap/mm inlet exhaust cold", "1 ? ?", "2 ? ?"]],
    ["a place without labels is one line", "end-float", ["measure end-float ?"]],
    [
      "rows with fewer places stand apart, and no cell asks for what is not there",
      "odd",
      ["grid odd/in a b", "1 ? ?", "grid odd/in a", "2 ?"],
    ],
    ["nothing for what no limit names", "none", []],
  ])("%s", (_what, feature, lines) => {
    expect(gridLines("J1", feature, ask)).toEqual(lines);
    for (const line of lines) expect(parseLine(line).broken).toBe(-1);
  });
  test("places that are measured or laid out are not asked for again", () => {
    const work = `${EMPTY}  grid barrel/mm head skirt\n  1 95.01 ?\n`;
    expect(gridLines("J1", "barrel", shopWith(work).checker.ask)).toEqual(["grid barrel/mm head skirt", "2 ? ?"]);
  });
  test("the sheet holds what the step asks for; channels of the stand are on none", () => {
    expect(inspectionSheet("J1", "inspect", ask).filter((line) => line.startsWith("grid"))).toEqual([
      "grid barrel/mm head skirt",
      "grid guide[1]/mm",
      "grid guide[2]/mm",
    ]);
    expect(featuresToMeasure("J1", "inspect", ask).map((one) => one.feature)).not.toContain("oil.temp");
    expect(inspectionSheet("J1", "build", ask)).toEqual([]);
  });
});

test("fasteners without a torque that counts, by the lines of the limits", () => {
  expect(torquesToDo("J1", "build", ask)).toEqual([
    { place: "nut[1..2/1..3]", unit: "N.m", lubrication: "oiled", missing: 6, bounds: "20..24 N.m" },
  ]);
  const some = shopWith(
    "entry E1 2026-02-19 build job J1\n  torque nut[1/1..3] 22 N.m oiled\n  torque nut[2/2] 22 N.m oiled\n",
  ).checker.ask;
  expect(torquesToDo("J1", "build", some).map((one) => one.place)).toEqual(["nut[2/1,3]"]);
  expect(torquesToDo("J1", "inspect", ask).map((one) => one.place)).toEqual(["nut[1..2/1..3]", "plug[1..2]"]);
});

test("roles that a block still wants", () => {
  const roles = (work: string): string[] => {
    const shop = shopWith(work).checker.ask;
    const block = shop.workBlock("J1/E1");
    return block ? rolesToSign(block, shop) : [];
  };
  expect(roles(EMPTY)).toEqual(["fitter", "inspector"]);
  expect(roles(`${EMPTY}  sign fitter ATH 2026-02-19\n`)).toEqual(["inspector"]);
});

test("columns of a log have the unit of the limit", () => {
  expect(logColumns("TS-2", "J1", ask)).toEqual(["oil.temp/C"]);
  expect(logColumns("none", "J1", ask)).toEqual([]);
});

test("the next free name follows the greatest number, not the count", () => {
  expect(nextName("E", ["E1", "E12", "E3", "X99", "E1b"])).toBe("E13");
  expect(nextName("D", [])).toBe("D1");
});
