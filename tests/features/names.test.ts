import { describe, expect, test } from "vitest";
import { definition } from "../../server/features/definition.ts";
import { highlights } from "../../server/features/highlights.ts";
import { references } from "../../server/features/references.ts";
import { prepareRename, rename } from "../../server/features/rename.ts";
import { edited, marked, textIn, under } from "../support/cursor.ts";
import { ENGINE, INSPECT, JOB, PEOPLE, SHOP, TYPE, withFile } from "./small-shop.ts";

/** `path:line text` of each place, lines counted from 1. */
function goTo(files: Record<string, string>): string[] {
  const { ctx, shop, path, position } = marked(files);
  return definition(ctx, path, position).map(
    (one) => `${one.path}:${one.range.start.line + 1} ${under(shop, one.path, one.range)}`,
  );
}

describe("definition", () => {
  test.each([
    ["a person", "  sign fitter A<|>TH 2026-02-19", "people.gudgeon:1 ATH"],
    ["an instrument", "  with BG<|>-2", "instruments.gudgeon:1 BG-2"],
    ["a task", "  done strainer-<|>clean", "type.gudgeon:21 strainer-clean"],
    ["a bulletin", "  embodied B-<|>07", "type.gudgeon:22 B-07"],
    ["a batch that an alert names", '  fit part "CG-1102" batch B7<|>1', 'type.gudgeon:24 suspect "CG-1102" batch B71'],
    ["a defect", '  rectify D<|>1 "Welded"', "work.gudgeon:6 D1"],
    ["an entry of the job in another file", '  amends E<|>1 "Digits"', "job.gudgeon:4 E1"],
    ["an entry by its full name", '  amends J26-014/E<|>1 "Digits"', "job.gudgeon:4 E1"],
    ["the job of a full name", '  amends J26<|>-014/E1 "Digits"', "job.gudgeon:1 J26-014"],
  ])("of %s", (_what, line, expected) => {
    expect(goTo(withFile(`${INSPECT}${line}\n`))).toEqual([expected]);
  });
  test("of the names of a job's header", () => {
    const at = (mark: string): string[] => goTo({ ...SHOP, "job.gudgeon": JOB.replace(mark.replace("<|>", ""), mark) });
    expect(at("C9-<|>0412")).toEqual(["engine.gudgeon:1 C9-0412"]);
    expect(at("top-<|>overhaul")).toEqual(["type.gudgeon:25 top-overhaul"]);
    expect(at("limits <|>C")).toEqual(["type.gudgeon:12 C"]);
    expect(at('rec<|>eive "Rec')).toEqual(["type.gudgeon:26 receive"]);
  });
  test("of a place: where the type lays it down and what limits it", () => {
    expect(
      goTo(withFile(INSPECT.replace("cylinder.bore", "cylinder<|>.bore"))).map((one) =>
        one.split(" ").slice(0, 3).join(" "),
      ),
    ).toEqual(["type.gudgeon:8 cylinder.bore", "type.gudgeon:13 cylinder.bore", "type.gudgeon:14 cylinder.bore"]);
  });
  test("of a reading: the limit by which it is judged", () => {
    expect(goTo(withFile(INSPECT.replace("98.083", "98.0<|>83")))[0]).toContain(
      "type.gudgeon:13 limit cylinder.bore[1..9]",
    );
  });
  test("of nothing", () => {
    expect(goTo(withFile("<|>"))).toEqual([]);
    expect(goTo(withFile("entry E2 2026-02-19 inspect job J26-014\n  note A<|>TH\n"))).toEqual([]);
    expect(goTo(withFile(INSPECT.replace("BG-2", "BG-7<|>7")))).toEqual([]);
  });
});

describe("references", () => {
  const find = (files: Record<string, string>, declaration = true): string[] => {
    const { ctx, path, position } = marked(files);
    return references(ctx, path, position, declaration).map((one) => `${one.path}:${one.range.start.line + 1}`);
  };
  test("stand in every file, with or without the declaration", () => {
    const files = {
      ...SHOP,
      "work.gudgeon": `${INSPECT}  labour ATH 2 h inspect\n`,
      "people.gudgeon": PEOPLE.replace("ATH", "A<|>TH"),
    };
    expect(find(files)).toEqual(["job.gudgeon:5", "job.gudgeon:6", "people.gudgeon:1", "work.gudgeon:7"]);
    expect(find(files, false)).toEqual(["job.gudgeon:5", "job.gudgeon:6", "work.gudgeon:7"]);
  });
  test("tell entries of two jobs apart", () => {
    const files = {
      ...SHOP,
      "a.gudgeon":
        'job A1 engine C9-0412\nentry E1 2026-01-01 receive job A1\nentry E2 2026-01-02 receive job A1\n  amends E<|>1 "x"\n',
    };
    expect(find(files)).toEqual(["a.gudgeon:2", "a.gudgeon:4"]);
  });
  test("highlights of one file tell the declaration from its uses", () => {
    const { ctx, path, position } = marked(withFile(`${INSPECT}  rectify D<|>1 "Welded"\n`));
    expect(highlights(ctx, path, position)).toEqual([
      { range: { start: { line: 5, character: 9 }, end: { line: 5, character: 11 } }, kind: "write" },
      { range: { start: { line: 6, character: 10 }, end: { line: 6, character: 12 } }, kind: "read" },
    ]);
  });
});

describe("rename", () => {
  /** Every file that changes, after the change. */
  function renamed(files: Record<string, string>, to: string): Record<string, string> | string {
    const { ctx, shop, path, position } = marked(files);
    const result = rename(ctx, path, position, to);
    if ("refused" in result) return result.refused;
    return Object.fromEntries(
      Object.entries(result.edits).map(([one, edits]) => [one, edited(textIn(shop, one), edits)]),
    );
  }
  test("changes a name in every file and nothing else", () => {
    expect(renamed({ ...SHOP, "people.gudgeon": PEOPLE.replace("ATH", "A<|>TH") }, "ADT")).toEqual({
      "people.gudgeon": PEOPLE.replace("ATH", "ADT"),
      "job.gudgeon": JOB.replaceAll("ATH", "ADT"),
    });
  });
  test("changes the entry within a full name, and the job within it", () => {
    const work = 'job B2 engine C9-0412\nentry E9 2026-03-01 build job B2\n  rectify J26-014/D1 "Welded"\n';
    const files = { ...SHOP, "a.gudgeon": INSPECT, "b.gudgeon": work };
    expect(renamed({ ...files, "a.gudgeon": INSPECT.replace("defect D1", "defect D<|>1") }, "D11")).toMatchObject({
      "b.gudgeon": work.replace("D1 ", "D11 "),
    });
    expect(renamed({ ...files, "job.gudgeon": JOB.replace("J26", "J<|>26") }, "J26-015")).toEqual({
      "a.gudgeon": INSPECT.replaceAll("J26-014", "J26-015"),
      "b.gudgeon": work.replace("J26-014", "J26-015"),
      "job.gudgeon": JOB.replaceAll("J26-014", "J26-015"),
    });
  });
  test("of a type takes the schedule that goes by its name along", () => {
    const after = renamed({ ...SHOP, "engine.gudgeon": ENGINE.replace("Curlew-9", "Curlew<|>-9") }, "Curlew-10");
    expect(after).toEqual({
      "engine.gudgeon": ENGINE.replace("Curlew-9", "Curlew-10"),
      "type.gudgeon": TYPE.replaceAll("Curlew-9", "Curlew-10"),
    });
  });
  test("of a step changes the route and the entries of its jobs", () => {
    const after = renamed({ ...SHOP, "work.gudgeon": INSPECT.replace("inspect", "ins<|>pect") }, "survey");
    expect(after).toEqual({
      "work.gudgeon": INSPECT.replace("inspect", "survey"),
      "type.gudgeon": TYPE.replace("step inspect", "step survey").replace("after inspect", "after survey"),
    });
  });
  test.each([
    ["a keyword", "until", /is a word of the language/u],
    ["two words", "two words", /has no blanks/u],
    ["a number", "42", /is no name/u],
    ["a place", "a[1]", /is no name/u],
    ["nothing", "", /not empty/u],
    ["a name that is taken", "RPE", /RPE is declared already\./u],
    ["a name that differs only in case", "rpe", /would differ from it only in case/u],
  ])("to %s is refused", (_what, to, why) => {
    expect(renamed({ ...SHOP, "people.gudgeon": PEOPLE.replace("ATH", "A<|>TH") }, to)).toMatch(why);
  });
  test("to another case of itself is possible", () => {
    expect(renamed({ ...SHOP, "people.gudgeon": PEOPLE.replace("ATH", "A<|>TH") }, "Ath")).toMatchObject({
      "people.gudgeon": PEOPLE.replace("ATH", "Ath"),
    });
  });

  const SEALED = `${INSPECT}  sign fitter ATH 2026-02-19 seal 1:${"0".repeat(64)}\n`;
  test("that would change text under a seal is refused, and says which", () => {
    expect(
      renamed({ ...SHOP, "work.gudgeon": SEALED, "people.gudgeon": PEOPLE.replace("ATH", "A<|>TH") }, "ADT"),
    ).toMatch(/ATH stands in text that is sealed \(J26-014\/E2\)/u);
    const { ctx, path, position } = marked({ ...SHOP, "work.gudgeon": SEALED.replace("BG-2", "BG<|>-2") });
    expect(prepareRename(ctx, path, position)).toHaveProperty("refused");
  });
  test("of what stands in no sealed text is possible beside one", () => {
    expect(
      renamed({ ...SHOP, "work.gudgeon": SEALED, "type.gudgeon": TYPE.replace("B-07", "B<|>-07") }, "B-08"),
    ).toEqual({ "type.gudgeon": TYPE.replace("B-07", "B-08") });
  });
  test("of text that a sealed release relies on is refused", () => {
    const release = `release 2026-04-20 J26-014 by ATH "Done"\n  sign certifier ATH 2026-04-20 seal 1:${"0".repeat(64)}\n`;
    expect(
      renamed(
        {
          ...SHOP,
          "work.gudgeon": release,
          "type.gudgeon": TYPE.replace("route top-overhaul", "route top-over<|>haul"),
        },
        "whole",
      ),
    ).toMatch(/sealed/u);
  });
  test("of a place, a role, a name that nobody declares is refused with the reason", () => {
    const why = (line: string): unknown => {
      const { ctx, path, position } = marked(withFile(`${INSPECT}${line}\n`));
      return prepareRename(ctx, path, position);
    };
    expect(why("  measure cylinder<|>.bore[4/head] 98.01 mm")).toHaveProperty("refused");
    expect(why("  sign fit<|>ter ATH 2026-02-19")).toHaveProperty("refused");
    expect(why("  with BG-7<|>7")).toHaveProperty("refused");
    expect(why("  note B<|>G-2")).toBeUndefined();
    expect(why("  with BG-<|>2")).toMatchObject({ name: "BG-2" });
  });
});
