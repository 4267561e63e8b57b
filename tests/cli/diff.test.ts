// `gudgeon diff` on a small repository made for it: what a reviewer has to see is there, and the work tree is left as it was.

import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { changeMarkdown } from "../../server/report/compare-states.ts";
import { shopFolder } from "./run-command.ts";

const BASE = `shop "Saltmarsh"
person ATH "Ada Thorne"
  role fitter from 2024-01-08
engine-type Curlew-9
  places cylinder.bore[1..9]
limits Curlew-9 revision C from 2025-11-01
  limit cylinder.bore[1..9] wear max 98.070 mm ref "4-2"
engine C9-0412 Curlew-9
  hours tsn 812 h on 2026-01-05
task oil-change Curlew-9 every 6 months
job J26-014 engine C9-0412 limits C
`;
const sha = (text: string): string => createHash("sha256").update(text).digest("hex");
const TEXT = "entry E1 2026-02-19 inspect job J26-014\nmeasure cylinder.bore[1] 98.001 mm";
const ENTRY = `entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[1] 98.001 mm\n  sign fitter ATH 2026-02-19 seal 1:${sha(TEXT)}\nentry E2 2026-02-20 inspect job J26-014\n  measure cylinder.bore[2] 98.002 mm\n`;
const DONE = `entry S1 2026-03-01 service engine C9-0412 at tsn 820 h\n  done oil-change\n`;

const repository = shopFolder({
  "shop/base.gudgeon": BASE,
  "shop/job.gudgeon": ENTRY,
  "shop/service.gudgeon": DONE,
  "shop/photos/a.png": "picture",
  "README.md": "not ours",
});
afterAll(() => repository.remove());
const shop = join(repository.path, "shop");
const git = (...args: readonly string[]): string =>
  execFileSync(
    "git",
    [
      "-c",
      "user.name=x",
      "-c",
      "user.email=x@example.org",
      "-c",
      "commit.gpgsign=false",
      "-c",
      "init.defaultBranch=main",
      ...args,
    ],
    { cwd: repository.path, encoding: "utf8", stdio: ["ignore", "pipe", "ignore"] },
  );
git("init", "-q");
git("add", ".");
git("commit", "-q", "-m", "one");
// A digit in a sealed line, a reading out of its limit, a task taken away, layout everywhere.
writeFileSync(
  join(shop, "job.gudgeon"),
  ENTRY.replace("98.001", "98.003")
    .replace("98.002 mm", "98.095 mm\n  measure cylinder.bore[3] 98.004 mm\n  sign fitter ATH 2026-02-20")
    .replaceAll("  measure", "\t measure  "),
);
writeFileSync(join(shop, "service.gudgeon"), DONE.replace("  done oil-change\n", ""));
git("add", ".");
git("commit", "-q", "-m", "two");

const diff = (...args: readonly string[]) =>
  repository.run("diff", ...args, "--folder", "shop", "--as-of", "2026-05-01");

/** Every file below a folder with its time of change and content. */
function stateOf(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: "utf8" })
    .map((name) => join(folder, name))
    .filter((path) => statSync(path).isFile())
    .map((path) => `${path} ${statSync(path).mtimeMs} ${sha(readFileSync(path, "latin1"))}`)
    .sort();
}

describe("two commits", () => {
  const before = stateOf(repository.path);
  const said = diff("HEAD~1", "HEAD");
  test("nothing on disk is touched, git's own files included", () => expect(stateOf(repository.path)).toEqual(before));
  test("a broken seal and a new error end with 1", () => expect(said.code).toBe(1));
  test("what matters first: broken seals, then figures, then findings", () => {
    expect(said.err).toBe("");
    const heads = said.out.split("\n").filter((line) => /^[A-Z]/u.test(line));
    expect(heads).toEqual([
      "Seals and signatures broken",
      "Readings that read differently",
      "New findings",
      "Newly due",
      "Findings gone",
      "New readings",
      "Signatures added",
    ]);
    expect(said.out).toContain("  J26-014/E1: ATH as fitter, 2026-02-19");
    expect(said.out).toContain("  J26-014/E1 cylinder.bore[1]: 98.001 mm -> 98.003 mm");
    expect(said.out).toContain("limit/out-of-limit in J26-014/E2");
    expect(said.out).toMatch(/C9-0412 oil-change: never done/u);
    expect(said.out).toContain("  J26-014/E2: cylinder.bore[3] 98.004 mm");
  });
  test("the other way round the same things are gone", () => {
    const back = diff("HEAD", "HEAD~1").out;
    expect(back).toContain("Readings gone");
    expect(back).toContain("Signatures taken away");
    expect(back).toContain("Findings gone");
    expect(back).not.toContain("Seals and signatures broken");
  });
  test("a commit and itself", () => {
    const same = diff("HEAD", "HEAD");
    expect(same).toMatchObject({ code: 0, out: "0 readings differ; 0 findings new, 0 gone; 0 items newly due\n" });
  });
  test("JSON holds the same", () => {
    const json = JSON.parse(diff("HEAD~1", "HEAD", "--format", "json").out) as {
      signs: unknown[];
      readings: unknown[];
      due: { name: string }[];
    };
    expect(json.signs).toContainEqual({
      ref: "J26-014/E1",
      role: "fitter",
      person: "ATH",
      on: "2026-02-19",
      change: "broken",
    });
    expect(json.readings).toContainEqual({
      ref: "J26-014/E1",
      place: "cylinder.bore[1]",
      before: "98.001 mm",
      after: "98.003 mm",
    });
    expect(json.due.map((one) => one.name)).toEqual(["oil-change"]);
  });
});

test("a commit and the files as they are", () => {
  writeFileSync(join(shop, "job.gudgeon"), readFileSync(join(shop, "job.gudgeon"), "utf8").replace("98.004", "98.005"));
  expect(diff("HEAD").out).toContain("cylinder.bore[3]: 98.004 mm -> 98.005 mm");
});

test.each([["--output=x"], ["nothing-of-this-name"], ["HEAD:shop"], ["$(touch hacked)"], ["HEAD; touch hacked"]])(
  "%s is refused as a revision",
  (revision) => {
    const refused = repository.run("diff", "--folder", "shop", "--", revision);
    expect(refused.code).toBe(2);
    expect(refused.err).toContain("gudgeon:");
    expect(
      existsSync(join(repository.path, "hacked")) || existsSync(join(shop, "hacked")) || existsSync(join(shop, "x")),
    ).toBe(false);
  },
);

test("Markdown of a review comment: text of a record makes no link, no picture, no mention and no HTML", () => {
  const evil = "![x](http://e) @team <img src=x> `code` [a](b) &lt; # head";
  const text = changeMarkdown({
    blocksAdded: [],
    blocksRemoved: [],
    readings: [],
    signs: [],
    due: [],
    findingsGone: [],
    findingsNew: [{ code: "a/b", severity: "error", ref: "E1", place: "", message: evil }],
  });
  const line = text.split("\n").find((one) => one.includes("team")) ?? "";
  expect(line).toContain(
    "\\!\\[x\\]\\(http://e\\) @\u200bteam \\<img src=x\\> \\`code\\` \\[a\\]\\(b\\) &amp;lt; \\# head",
  );
});
