/** The command as people and their scripts meet it: what it prints, where, and with which exit code. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { gudgeon } from "../support/command.ts";

const folders: string[] = [];
function folderWith(files: Readonly<Record<string, string>>): string {
  const folder = mkdtempSync(join(tmpdir(), "gudgeon-cli-"));
  folders.push(folder);
  for (const [name, text] of Object.entries(files)) {
    mkdirSync(join(folder, name, ".."), { recursive: true });
    writeFileSync(join(folder, name), text);
  }
  return folder;
}
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

const SHOP = `shop "Works"
  language 1

person AB "Ada"
  role fitter from 2024-01-01
`;
const BROKEN = `${SHOP}  role inspector frm 2024-01-01\n`;

describe("check", () => {
  test("says that there is nothing, with exit code 0", () => {
    const folder = folderWith({ "shop.gudgeon": `shop "Works"\n  language 1\n` });
    expect(gudgeon(["check"], folder)).toEqual({ code: 0, out: "No findings in 1 file, 3 lines.\n", err: "" });
  });

  test("prints file, line and column, the line, and a caret under the place", () => {
    const folder = folderWith({ "shop.gudgeon": BROKEN });
    const ran = gudgeon(["check", "--severity", "error"], folder);
    expect(ran.code).toBe(1);
    expect(ran.out.split("\n").slice(0, 4)).toEqual([
      expect.stringMatching(/^shop\.gudgeon:6:18: error syntax\/unexpected: /u),
      "      role inspector frm 2024-01-01",
      "                     ^^^",
      "",
    ]);
    expect(ran.out).toContain("1 error, 1 information in 1 file, 7 lines.");
  });

  test("the caret stands right after tabs and wide letters", () => {
    const folder = folderWith({ "shop.gudgeon": `${SHOP}\trole Prüfer frm 2024-01-01\n` });
    const lines = gudgeon(["check", "--severity", "error"], folder).out.split("\n");
    expect(lines[0]).toMatch(/^shop\.gudgeon:6:14: error/u);
    expect(lines[2]?.indexOf("^")).toBe(lines[1]?.indexOf("frm"));
  });

  test("gives JSON with places that count from 1", () => {
    const folder = folderWith({ "shop.gudgeon": BROKEN });
    const ran = gudgeon(["check", "--format", "json"], folder);
    const report = JSON.parse(ran.out) as { version: number; errors: number; findings: Record<string, unknown>[] };
    expect(report).toMatchObject({ version: 1, errors: 1, warnings: 0 });
    expect(report.findings.find((one) => one["code"] === "syntax/unexpected")).toMatchObject({
      file: "shop.gudgeon",
      line: 6,
      column: 18,
      endColumn: 21,
      severity: "error",
    });
  });

  test("more warnings than allowed are exit code 1", () => {
    const files = { "a.gudgeon": `${SHOP}\nengine E1 T1\n  owner "x"\nengine-type T1\n` };
    const folder = folderWith(files);
    const warnings = (JSON.parse(gudgeon(["check", "--format", "json"], folder).out) as { warnings: number }).warnings;
    expect(warnings).toBeGreaterThan(0);
    expect(gudgeon(["check"], folder).code).toBe(0);
    expect(gudgeon(["check", "--max-warnings", String(warnings)], folder).code).toBe(0);
    expect(gudgeon(["check", "--max-warnings", String(warnings - 1)], folder).code).toBe(1);
  });

  test("a file is checked with its shop, and only its own findings are shown", () => {
    const folder = folderWith({
      "shop.gudgeon": SHOP,
      "jobs/b.gudgeon": "engine E1 Nowhere\n",
      "jobs/c.gudgeon": "engine E2 Nowhere\n",
    });
    const out = gudgeon(["check", "jobs/b.gudgeon"], folder).out;
    expect(out).toContain("jobs/b.gudgeon:1:11: error name/unknown");
    expect(out).not.toContain("c.gudgeon");
    expect(out).not.toContain("shop/none-declared");
  });

  test.each([
    [["check", "nowhere"], "There is no file or folder nowhere."],
    [["check", "--as-of", "2026-02-30"], '--as-of wants a day such as 2026-05-02, not "2026-02-30".'],
    [["check", "--format", "yaml"], "--format wants"],
    [["check", "--severity", "bad"], "--severity wants one of"],
    [["check", "--max-warnings", "-1"], "--max-warnings"],
    [["check", "--colour"], "--colour"],
    [["chekc"], 'There is no command "chekc".'],
    [["explain", "limit/out-of-limt"], "Did you mean limit/out-of-limit"],
    [["due", "--within", "soon"], "--within wants days or hours"],
    [["new", "wheel", "X"], "Usage: gudgeon new"],
  ])("%j could not run: exit code 2 and one line on standard error", (args, says) => {
    const ran = gudgeon(args, folderWith({ "shop.gudgeon": SHOP }));
    expect(ran.code).toBe(2);
    expect(ran.out).toBe("");
    expect(ran.err).toContain(says);
    expect(ran.err.trim().split("\n")).toHaveLength(1);
  });

  test("an empty folder is said, not passed over", () => {
    const ran = gudgeon(["check"], folderWith({ "readme.txt": "" }));
    expect(ran).toMatchObject({ code: 2, out: "" });
    expect(ran.err).toContain("no .gudgeon files");
  });

  test("no colours where nobody looks, whatever the environment asks", () => {
    const folder = folderWith({ "shop.gudgeon": BROKEN });
    expect(gudgeon(["check"], folder, { FORCE_COLOR: "1" }).out).not.toContain("\u001b");
  });

  test("text from a record cannot give orders to the terminal", () => {
    const folder = folderWith({ "a.gudgeon": `shop "x"\n  langu\u001b[31mage\u0007 1\n` });
    const { out } = gudgeon(["check"], folder);
    expect(out).not.toMatch(/[\u0000-\u0009\u000b-\u001f]/u);
    expect(out).toContain("\\u001b");
  });

  test("a link out of the folder is not read", () => {
    const outside = folderWith({ "secret.gudgeon": "engine SECRET T\n" });
    const folder = folderWith({ "shop.gudgeon": SHOP });
    symlinkSync(join(outside, "secret.gudgeon"), join(folder, "link.gudgeon"));
    symlinkSync(folder, join(folder, "loop"));
    const ran = gudgeon(["check"], folder);
    expect(ran.code).toBe(2);
    expect(ran.err).toContain("the link leads outside the folder");
    expect(ran.out).not.toContain("SECRET");
  });
});

describe("format", () => {
  const crooked = `shop   "Works"\n      language 1   # first\n`;
  const straight = `shop "Works"\n  language 1  # first\n`;

  test("--check names what would change and changes nothing", () => {
    const folder = folderWith({ "a.gudgeon": crooked, "b.gudgeon": straight });
    const ran = gudgeon(["format", "--check"], folder);
    expect(ran.code).toBe(1);
    expect(ran.out).toContain("would change");
    expect(ran.out).toContain("2 files, 1 would change.");
    expect(readFileSync(join(folder, "a.gudgeon"), "utf8")).toBe(crooked);
  });

  test("formats once; a second run finds nothing to do; line ends stay", () => {
    const folder = folderWith({ "a.gudgeon": crooked.replaceAll("\n", "\r\n") });
    expect(gudgeon(["format"], folder).code).toBe(0);
    expect(readFileSync(join(folder, "a.gudgeon"), "utf8")).toBe(straight.replaceAll("\n", "\r\n"));
    expect(gudgeon(["format", "--check"], folder)).toMatchObject({ code: 0, out: "1 file, 0 would change.\n" });
  });
});

describe("explain, totals, due", () => {
  test("explain prints the page of a rule", () => {
    const ran = gudgeon(["explain", "limit/out-of-limit"]);
    expect(ran.code).toBe(0);
    for (const part of [
      "# limit/out-of-limit",
      "## Why it matters",
      "## What to do",
      "## Raised by",
      "## Not raised by",
    ])
      expect(ran.out).toContain(part);
  });

  test("totals of one engine and one job of the sample", () => {
    const engine = gudgeon(["totals", "C9-0412", "samples/clean", "--as-of", "2026-05-02"]);
    expect(engine.code).toBe(0);
    expect(engine.out).toContain("since new (tsn)");
    expect(engine.out).toContain("strainer-clean");
    const job = gudgeon(["totals", "J26-014", "samples/clean", "--as-of", "2026-05-02"]);
    expect(job.out).toContain("3 h 49 min 40 s in 3 runs");
    expect(gudgeon(["totals", "NONE", "samples/clean"]).code).toBe(2);
  });

  test("due lists what is past first, and keeps to the span asked for", () => {
    const all = gudgeon(["due", "samples/clean", "--as-of", "2027-01-15"]).out;
    const near = gudgeon(["due", "samples/clean", "--as-of", "2026-05-02", "--within", "22h"]).out;
    expect(all.indexOf("past")).toBeGreaterThan(0);
    expect(all.indexOf("past")).toBeLessThan(all.lastIndexOf("ahead"));
    expect(near).toContain("strainer-clean");
    expect(near).not.toContain("magneto-points ");
  });
});

describe("new", () => {
  test("a shop, an engine and a job that check without an error", () => {
    const folder = folderWith({ "x.txt": "" });
    expect(gudgeon(["new", "shop", 'North "Bay" Works'], folder).code).toBe(0);
    const shop = join(folder, "north-bay-works");
    expect(gudgeon(["check", "--severity", "warning"], shop)).toMatchObject({ code: 0 });
    writeFileSync(join(shop, "type.gudgeon"), "engine-type Plover-3\n  layout inline 3\n");
    expect(gudgeon(["new", "engine", "P3-001"], shop).out).toBe("wrote engine-P3-001.gudgeon\n");
    expect(gudgeon(["new", "job", "J1"], shop).out).toBe("wrote job-J1.gudgeon\n");
    const report = JSON.parse(gudgeon(["check", "--format", "json"], shop).out) as { errors: number };
    expect(report.errors).toBe(0);
  });

  test("never writes over anything", () => {
    const folder = folderWith({
      "shop.gudgeon": SHOP,
      "t.gudgeon": "engine-type T1\n",
      "engine-E1.gudgeon": "# mine\n",
    });
    const ran = gudgeon(["new", "engine", "E1"], folder);
    expect(ran.code).toBe(2);
    expect(ran.err).toContain("is there already; nothing was written");
    expect(readFileSync(join(folder, "engine-E1.gudgeon"), "utf8")).toBe("# mine\n");
    expect(gudgeon(["new", "engine", "../E2"], folder).code).toBe(2);
  });
});

test("match says which part goes where, which place is blocked, and what can be matched", () => {
  const all = gudgeon(["match", "J26-021", "samples/bench"]);
  expect(all.code).toBe(0);
  expect(all.out).toContain("No part fits cylinder[1] within 0.085..0.122 mm");
  expect(all.out).toContain("The maker's data and whoever builds the engine decide");
  const wrong = gudgeon(["match", "J26-021", "piston.colour", "samples/bench"]);
  expect(wrong.code).toBe(2);
  expect(wrong.err).toContain("Figures: piston.fit");
});
