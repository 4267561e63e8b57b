import { describe, expect, test } from "vitest";
import { parseLine } from "../../grammar/line-parser.ts";
import { completion } from "../../server/features/completion.ts";
import type { Completion } from "../../server/features/feature.ts";
import { marked, under } from "../support/cursor.ts";
import { INSPECT, INSTRUMENTS, PEOPLE, TYPE, withFile } from "./small-shop.ts";

/** Proposals at the mark, in the order in which an editor shows them. */
function at(files: Record<string, string>): Completion[] {
  const { ctx, path, position } = marked(files);
  return completion(ctx, path, position).sort((a, b) => (a.sort < b.sort ? -1 : a.sort > b.sort ? 1 : 0));
}
const labels = (list: readonly Completion[], kind?: Completion["kind"]): string[] =>
  list.filter((one) => kind === undefined || one.kind === kind).map((one) => one.label);
const line = (text: string): Completion[] => at(withFile(`${INSPECT}  ${text}<|>\n`));

describe("at the beginning of a line", () => {
  test("words of the block come with what they say, and headers after them", () => {
    const words = labels(line(""), "word");
    expect(words).toEqual(expect.arrayContaining(["measure", "torque", "defect", "labour", "labor", "entry", "run"]));
    expect(words.indexOf("measure")).toBeLessThan(words.indexOf("entry"));
    expect(words).not.toContain("calibrated");
    expect(line("").find((one) => one.label === "measure")?.documentation).toContain("One reading.");
  });
  test("words of another block stand in another block", () => {
    const words = labels(at({ ...withFile(""), "instruments.gudgeon": `${INSTRUMENTS}  <|>` }), "word");
    expect(words).toContain("channel");
    expect(words).not.toContain("measure");
  });
  test("an empty file offers headers", () => {
    expect(labels(at(withFile("<|>")), "word").slice(0, 3)).toEqual(["shop", "person", "instrument"]);
  });
  test("a half-typed header still belongs to the block above", () => {
    expect(labels(at(withFile(`${INSPECT}entr<|>`)), "word")).toContain("entry");
    expect(labels(at(withFile(`${INSPECT}entr<|>`)), "snippet")).toContain("entry E3");
  });
});

describe("names", () => {
  test("people who hold the role on the day of the block come first", () => {
    const found = line("sign fitter ");
    expect(labels(found)).toEqual(["ATH", "RPE", "OLD"]);
    expect(found[1]?.detail).toContain("not fitter on 2026-02-19");
    expect(labels(line("sign inspector "))[0]).toBe("RPE");
  });
  test("whoever runs the engine is not offered as the second", () => {
    const files = withFile(`${INSPECT}run R1 2026-04-01 job J26-014 stand TS-1 by ATH second <|>\n`);
    expect(labels(at(files), "name")).not.toContain("ATH");
  });
  test("the roles that the step still wants come first", () => {
    expect(labels(line("sign ")).slice(0, 2)).toEqual(["fitter", "inspector"]);
  });
  test("instruments in calibration whose range fits the limit come first", () => {
    const found = line("measure cylinder.bore[4/head] 98.010 mm with ");
    expect(labels(found).slice(0, 2)).toEqual(["BG-2", "BG-9"]);
    expect(found.find((one) => one.label === "BG-9")?.detail).toContain("calibration lapsed");
    expect(found.find((one) => one.label === "MIC-25")?.detail).toContain("the limit lies outside its range");
    expect(labels(line("torque cylinder.nut[1..9/1..2] 40 N.m oiled with "))[0]).toBe("TW-2");
    expect(labels(line("grid piston.pin/mm with "))[0]).toBe("MIC-25");
  });
  test("of a `with` line the table below says what is measured", () => {
    const files = withFile(`entry E2 2026-02-19 inspect job J26-014\n  with <|>\n  grid piston.pin/mm\n  1 ?\n`);
    expect(labels(at(files))[0]).toBe("MIC-25");
  });
  test("open defects, the next free names, the revisions of the engine's type", () => {
    expect(labels(line("rectify "))).toEqual(["D1"]);
    expect(labels(line("defect "))).toEqual(["D2"]);
    expect(labels(at(withFile(`${INSPECT}entry <|>`)))).toEqual(["E3"]);
    expect(labels(at(withFile("job J9 engine C9-0412 limits <|>")), "name")).toEqual(["C"]);
    expect(labels(at(withFile("job J9 engine <|>")))).toEqual(["C9-0412"]);
  });
  test("the step that comes next first", () => {
    expect(labels(at(withFile(`entry E2 2026-02-19 <|> "Barrels" job J26-014\n`)), "name")[0]).toBe("inspect");
  });
  test("part numbers within their quotes", () => {
    expect(labels(line('fit part "CK'))).toEqual(['"CK-9120"']);
    expect(labels(line('check turning ok "By ha'))).toEqual([]);
  });
});

describe("places, columns, units, dates", () => {
  test("places that nobody has measured come first", () => {
    const found = labels(line("measure "));
    expect(found.slice(0, 2)).toEqual(["cylinder.bore[4/head]", "cylinder.bore[4/skirt]"]);
    expect(found).not.toContain("cylinder.bore[2/head]");
    expect(found).not.toContain("oil.pressure");
  });
  test("fasteners that nobody has torqued", () => {
    expect(labels(line("torque "))[0]).toBe("cylinder.nut[1..9/1..2]");
  });
  test("a heading comes with the unit of the limit, its columns are the places of the type", () => {
    expect(labels(line("grid "))[0]).toBe("cylinder.bore/mm");
    expect(labels(line("grid cylinder.bore/mm "), "place")).toEqual(["head", "skirt"]);
    expect(labels(line("grid cylinder.bore/mm head "), "place")).toEqual(["skirt"]);
  });
  test("units are of the dimension of the limit, its own first", () => {
    const found = labels(line("measure piston.pin[1] 23.995 "), "unit");
    expect(found[0]).toBe("mm");
    expect(found).toContain("in");
    expect(found).not.toContain("psi");
    expect(labels(line("torque cylinder.nut[1..9/1..2] 40 N.m oiled with TW-2 adapter 50 "), "unit")).toEqual([
      "mm",
      "in",
    ]);
    expect(labels(line("labour ATH 3 "), "unit")).toEqual(["h", "min"]);
  });
  test("the day of the block before the day of the check", () => {
    expect(labels(line("sign fitter ATH "))).toEqual(["2026-02-19", "2026-05-01"]);
  });
  test("channels of the stand, those in the heading already left out", () => {
    expect(
      labels(
        at(withFile("run R1 2026-04-01 job J26-014 stand TS-1 by ATH\n  log time crank.speed/rpm <|>\n")),
        "place",
      ),
    ).toEqual(["oil.pressure/psi"]);
  });
  test("keywords of the form follow the values, each once", () => {
    const words = labels(line("measure piston.pin[1] 23.995 mm with MIC-25 "), "word");
    expect(words).toContain("size");
    expect(words).not.toContain("with");
  });
  test("what is typed of the word is what is replaced, also behind letters of other scripts", () => {
    const { ctx, shop, path, position } = marked(withFile(`${INSPECT}  check turning ok "Größe µ ✓" with B<|>\n`));
    const found = completion(ctx, path, position).find((one) => one.label === "BG-2");
    expect(found && under(shop, path, found.range)).toBe("B");
  });
});

describe("snippets", () => {
  const bare = (one: Completion | undefined): string[] =>
    (one?.insert ?? "").replaceAll(/\$\{\d+:([^}]*)\}/gu, "$1").split("\n");
  test("a whole sheet of the step has a cell for each place that nobody has measured", () => {
    const sheet = line("").find((one) => one.label === "sheet of step inspect");
    expect(bare(sheet)).toEqual([
      "grid cylinder.bore/mm head skirt",
      "  4 ? ?",
      "  5 ? ?",
      "  6 ? ?",
      "  7 ? ?",
      "  8 ? ?",
      "  9 ? ?",
      "  grid piston.pin/mm",
      ...[1, 2, 3, 4, 5, 6, 7, 8, 9].map((n) => `  ${n} ?`),
    ]);
    expect(sheet?.insert).toContain("\u0024{1:?}");
  });
  test("every line of a sheet can be read", () => {
    const sheets = line("").filter((one) => one.label.startsWith("sheet of"));
    expect(sheets.length).toBeGreaterThan(2);
    for (const text of sheets.flatMap(bare)) expect(parseLine(text).broken).toBe(-1);
  });
  test("rows of the table above that are not there yet", () => {
    const found = at(
      withFile(
        "entry E2 2026-02-19 inspect job J26-014\n  grid cylinder.bore/mm head skirt with BG-2\n  1 98.031 98.019\n  <|>\n  3 98.030 98.020\n",
      ),
    );
    expect(labels(found).slice(0, 3)).toEqual(["rows 2 to 9", "2 ? ?", "4 ? ?"]);
  });
  test("nobody signs and nothing is measured by a snippet", () => {
    const found = at(withFile("entry E2 2026-02-19 build job J26-014\n  <|>"));
    expect(found.find((one) => one.label === "torque sheet")?.insert).toBe(
      "torque cylinder.nut[1..9/1..2] $1 N.m oiled with $2",
    );
    expect(found.find((one) => one.label === "sign fitter")?.insert).toBe("sign fitter $1 \u0024{2:2026-02-19}");
  });
  test("a run card has the checks before the start and the channels of the stand", () => {
    const card = line("").find((one) => one.label === "run card R1")?.insert ?? "";
    expect(card).toContain("job J26-014 stand TS-1 by ");
    expect(card).toContain("check hydraulic-lock ");
    expect(card).toContain("log time crank.speed/rpm oil.pressure/psi");
  });
});

describe("where nothing is offered", () => {
  test.each([
    ["a comment", "# sign "],
    ["a note", "note sign "],
    ["free text", 'check turning ok "sign '],
  ])("in %s", (_what, text) => {
    expect(line(text)).toEqual([]);
  });
  test("of a file that is not there", () => {
    const { ctx } = marked(withFile("<|>"));
    expect(completion(ctx, "none.gudgeon", { line: 0, character: 0 })).toEqual([]);
    expect(completion(ctx, "work.gudgeon", { line: 99, character: 0 })).toEqual([]);
  });
});

test("references in other files are known by their job", () => {
  const files = {
    "people.gudgeon": PEOPLE,
    "type.gudgeon": TYPE,
    "a.gudgeon": 'job A1 engine C9-0412\nentry E1 2026-01-01 inspect job A1\n  defect D7 baffle[1] "Bent"\n',
    "b.gudgeon": "entry E2 2026-01-02 build job A1\n  rectify <|>\n",
  };
  expect(labels(at(files))).toEqual(["D7"]);
});
