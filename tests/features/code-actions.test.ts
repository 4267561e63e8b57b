import { describe, expect, test } from "vitest";
import { codeActions, fixAll } from "../../server/features/code-actions.ts";
import type { CodeAction } from "../../server/features/feature.ts";
import { edited, marked, textIn } from "../support/cursor.ts";
import { INSPECT, PEOPLE, SHOP, TYPE, withFile } from "./small-shop.ts";

interface Offered {
  readonly actions: readonly CodeAction[];
  /** The marked file after the action with this title. @throws Error when it is not offered */
  readonly after: (title: RegExp) => string;
}

function offered(files: Record<string, string>): Offered {
  const { ctx, shop, path, range } = marked(files);
  const actions = codeActions(ctx, path, range);
  return {
    actions,
    after: (title) => {
      const action = actions.find((one) => title.test(one.title));
      if (!action) throw new Error(`not offered: ${title}; only ${actions.map((one) => one.title).join(", ")}`);
      return edited(textIn(shop, path), action.edits[path] ?? []);
    },
  };
}
const titles = (files: Record<string, string>): string[] => offered(files).actions.map((one) => one.title);

describe("repairs of findings", () => {
  test("the nearest name", () => {
    const files = withFile(INSPECT.replace("with BG-2", "with BG<|>-22"));
    expect(offered(files).after(/BG-2"?$/u)).toBe(INSPECT);
  });
  test("a comma between digits is a point or nothing, never decided for the writer", () => {
    const files = withFile(`${INSPECT}  measure piston.pin[1] 23,<|>995 mm\n`);
    const found = offered(files);
    expect(found.after(/23\.995/u)).toContain("piston.pin[1] 23.995 mm");
    expect(found.actions.filter((one) => /23/u.test(one.title)).map((one) => one.grade)).toEqual(["review", "review"]);
  });
  test("a missing blank before the unit is safe", () => {
    const found = offered(withFile(`${INSPECT}  measure piston.pin[1] 23.9<|>95mm\n`));
    expect(found.after(/23\.995 mm/u)).toContain("piston.pin[1] 23.995 mm");
    expect(found.actions.find((one) => /23\.995 mm/u.test(one.title))?.grade).toBe("safe");
  });
  test("come with the finding, and with its page", () => {
    const { actions } = offered(withFile(INSPECT.replace("98.083", "98.0<|>83")));
    expect(actions.find((one) => /Record it as defect D2/u.test(one.title))?.finding?.finding.code).toBe(
      "limit/out-of-limit",
    );
    expect(actions.find((one) => one.title === "Explain limit/out-of-limit")?.opens).toBe("limit/out-of-limit");
  });
  test("of text under a seal are not offered", () => {
    const sealed = `${INSPECT.replace("with BG-2", "with BG<|>-22")}  sign fitter ATH 2026-02-19 seal 1:${"0".repeat(64)}\n`;
    expect(titles(withFile(sealed)).filter((one) => one.endsWith("BG-2"))).toEqual([]);
  });
  test("nothing is offered for an error of a guarded family by way of acceptance", () => {
    expect(
      titles(withFile(INSPECT.replace("98.083", "98.0<|>83"))).filter((one) =>
        one.startsWith("Accept limit/out-of-limit"),
      ),
    ).toEqual([]);
  });
});

describe("laying out", () => {
  test("rows that a table lacks go each in its place", () => {
    const text =
      "entry E2 2026-02-19 inspect job J26-014\n  grid piston.pin/mm with MIC-25\n  1 23.<|>995\n  4 23.996\n  9 23.995\n  air 20 C\n";
    expect(offered(withFile(text)).after(/^Add 6 rows/u)).toBe(
      "entry E2 2026-02-19 inspect job J26-014\n  grid piston.pin/mm with MIC-25\n  1 23.995\n  2 ?\n  3 ?\n  4 23.996\n  5 ?\n  6 ?\n  7 ?\n  8 ?\n  9 23.995\n  air 20 C\n",
    );
  });
  test("tables of what the step still has to measure stand above the signatures", () => {
    const text = "entry E2 2026-02-19 in<|>spect job J26-014\n  air 20 C\n  sign fitter ATH 2026-02-19\n\n# next\n";
    const after = offered(withFile(text)).after(/^Lay out what step inspect/u);
    expect(after).toContain("  air 20 C\n  grid cylinder.bore/mm head skirt\n  1 ? ?\n");
    expect(after).toContain("  grid piston.pin/mm\n  1 ?\n");
    expect(after.endsWith("  9 ?\n  sign fitter ATH 2026-02-19\n\n# next\n")).toBe(true);
  });
  test("pistons go to the bores that they fit best", () => {
    const type = TYPE.replace(
      "  limit taper",
      "  limit piston.fit[1..9] = greatest cylinder.bore - greatest piston.skirt new 0.105..0.142 mm\n  limit taper",
    );
    const text =
      "entry E<|>7 2026-02-19 build job J26-014\n  measure cylinder.bore[1/head] 98.020 mm\n  measure cylinder.bore[2/head] 98.000 mm\n  measure piston.skirt[1] 97.880 mm\n  measure piston.skirt[2] 97.895 mm\n";
    expect(
      offered({ ...withFile(text), "type.gudgeon": type }).after(
        /^Match piston\.fit: 2 moves, clearances 0\.12 to 0\.125 mm/u,
      ),
    ).toContain("  move piston[2] to piston[1]\n  move piston[1] to piston[2]\n");
  });

  test("torques leave the figure and the wrench open", () => {
    const text = "entry E2 2026-02-19 bu<|>ild job J26-014\n  air 20 C\n";
    expect(offered(withFile(text)).after(/^Lay out the torques of 18 fasteners/u)).toBe(
      "entry E2 2026-02-19 build job J26-014\n  air 20 C\n  torque cylinder.nut[1..9/1..2] ? N.m oiled with ?\n",
    );
  });
  test("a line to sign leaves open who signs", () => {
    const people = `${PEOPLE}person JWB "Jos Webber"\n  role fitter from 2022-09-05\n`;
    const text = "entry E2 2026-02-19 bu<|>ild job J26-014\n  air 20 C\n";
    expect(offered({ ...withFile(text), "people.gudgeon": people }).after(/^Add a line for fitter to sign/u)).toBe(
      "entry E2 2026-02-19 build job J26-014\n  air 20 C\n  sign fitter ? 2026-02-19\n",
    );
  });
});

describe("what was signed stays", () => {
  const SIGNED = `${INSPECT}  sign fitter ATH 2026-02-19\n  sign inspector RPE 2026-02-19\n`;
  test("a row is corrected in a new entry that amends the old one", () => {
    const after = offered(withFile(SIGNED.replace("1 98.031", "1 98.0<|>31"))).after(/amends E2/u);
    expect(after).toBe(
      `${SIGNED}\nentry E3 2026-05-01 inspect "Corrects E2" job J26-014\n  amends E2 ""\n  grid cylinder.bore/mm head skirt with BG-2\n  1 98.031 98.019\n`,
    );
  });
  test("a line of an entry that nobody signed is changed where it stands", () => {
    expect(titles(withFile(INSPECT.replace("1 98.031", "1 98.0<|>31"))).filter((one) => /amends/u.test(one))).toEqual(
      [],
    );
  });
  test("a finding is accepted in a later entry that is open, by whom and why left open", () => {
    const warned =
      "entry E2 2026-02-19 inspect job J26-014\n  measure cylinder.bore[1/head] 98.0<|>69 mm with BG-2\nentry E3 2026-02-25 review job J26-014\n  air 20 C\n";
    expect(offered(withFile(warned)).after(/^Accept limit\/not-proven, with a reason, in E3/u)).toContain(
      '  air 20 C\n  accept limit/not-proven E2 cylinder.bore[1/head] by ? 2026-05-01 ""\n',
    );
  });
  test("or in a new entry where none is open", () => {
    const warned = "entry E2 2026-02-19 inspect job J26-014\n  measure cylinder.bore[1/head] 98.0<|>69 mm with BG-2\n";
    expect(offered(withFile(warned)).after(/^Accept limit\/not-proven, with a reason, in a new entry E3/u)).toContain(
      '\nentry E3 2026-05-01 review "Findings looked at" job J26-014\n  accept limit/not-proven E2 cylinder.bore[1/head] by ? 2026-05-01 ""\n',
    );
  });
});

describe("all safe repairs at once", () => {
  const fixed = (text: string): { once: string; twice: string } => {
    const run = (one: string): string => {
      const { ctx, shop, path } = marked(withFile(`${one}<|>`));
      return edited(textIn(shop, path), fixAll(ctx, path));
    };
    const once = run(text);
    return { once, twice: run(once) };
  };
  test("put right what has one reading only", () => {
    const { once, twice } = fixed(
      "entry E2 2026-02-19 inspect job J26-014\n  measure piston.pin[1] 23.995mm with\u00a0MIC-25\n  measure piston.pin[2] .5 mm\n  measure piston.pin[3] 23,995 mm\n",
    );
    expect(once).toContain("piston.pin[1] 23.995 mm with MIC-25");
    expect(once).toContain("piston.pin[2] 0.5 mm");
    expect(once).toContain("piston.pin[3] 23,995 mm");
    expect(twice).toBe(once);
  });
  test("leave signed text alone", () => {
    const text =
      "entry E2 2026-02-19 inspect job J26-014\n  measure piston.pin[1] 23.995mm\n  sign fitter ATH 2026-02-19\n  measure piston.pin[2] 23.995mm\n";
    expect(fixed(text).once).toBe(text.replace("[2] 23.995mm", "[2] 23.995 mm"));
  });
  test("find nothing in a sound file, an empty one and none", () => {
    const { ctx } = marked({ ...SHOP, "a.gudgeon": "<|>" });
    expect([fixAll(ctx, "type.gudgeon"), fixAll(ctx, "a.gudgeon"), fixAll(ctx, "none.gudgeon")]).toEqual([[], [], []]);
  });
});
