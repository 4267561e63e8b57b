// `gudgeon photos` on files on disk; digests computed once more with Node's own SHA-256.

import { createHash } from "node:crypto";
import { mkdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, describe, expect, test } from "vitest";
import { repinned } from "../../server/report/named-photos.ts";
import { type ShopFolder, shopFolder } from "./run-command.ts";

const sha = (text: string): string => createHash("sha256").update(text).digest("hex");
const JOB = `engine-type Curlew-9
engine C9-0412 Curlew-9
job J1 engine C9-0412
entry E1 2026-02-19 inspect job J1
  photo "photos/a.png" "Crack" sha256:${sha("aaa")}  # by the door
  photo "photos/b.png" "Lug"
entry E2 2026-02-20 inspect job J1
  photo "photos/c.png" "Sealed" sha256:${sha("ccc")}
  sign fitter ATH 2026-02-20 seal 1:${"0".repeat(64)}
`;
let folder: ShopFolder;
const make = (): ShopFolder => {
  folder = shopFolder({
    "job.gudgeon": JOB,
    "photos/a.png": "aaa",
    "photos/b.png": "bbb",
    "photos/c.png": "ccc",
    "photos/spare.png": "ddd",
    "notes.txt": "x",
  });
  return folder;
};
const record = (): string => readFileSync(join(folder.path, "job.gudgeon"), "utf8");
afterEach(() => folder.remove());

describe("photos", () => {
  test("lists and verifies", () => {
    const ran = make().run("photos");
    expect(ran.code).toBe(0);
    expect(
      ran.out
        .trimEnd()
        .split("\n")
        .map((line) => line.split(/ {2,}/u).slice(0, 2).join(": ")),
    ).toEqual([
      "as pinned: photos/a.png",
      "not pinned: photos/b.png",
      "as pinned: photos/c.png",
      "not named: photos/spare.png",
    ]);
    writeFileSync(join(folder.path, "photos/a.png"), "aab");
    const changed = folder.run("photos");
    expect(changed.code).toBe(1);
    expect(changed.out).toMatch(/^changed {5}photos\/a\.png/u);
    expect(record()).toBe(JOB);
  });
  test("pins what has no digest, and nothing else", () => {
    expect(make().run("photos", "--pin").out).toContain("1 of 1 lines changed");
    expect(record()).toBe(JOB.replace('"Lug"', `"Lug" sha256:${sha("bbb")}`));
  });
  test("after a deliberate move: the line that is not sealed follows, the sealed one stays", () => {
    make();
    mkdirSync(join(folder.path, "photos/old"));
    renameSync(join(folder.path, "photos/a.png"), join(folder.path, "photos/old/first.png"));
    renameSync(join(folder.path, "photos/c.png"), join(folder.path, "photos/old/third.png"));
    const ran = folder.run("photos", "--moved");
    expect(ran.code).toBe(1);
    expect(ran.out).toContain("a seal covers the line, so it stays as it is; the file is now photos/old/third.png");
    expect(record()).toBe(JOB.replace("photos/a.png", "photos/old/first.png"));
  });
  test("two files with the same bytes: nothing is guessed", () => {
    make();
    renameSync(join(folder.path, "photos/a.png"), join(folder.path, "photos/x.png"));
    writeFileSync(join(folder.path, "photos/y.png"), "aaa");
    expect(folder.run("photos", "--moved").out).toContain("0 of 0 lines changed");
    expect(record()).toBe(JOB);
  });
  test("a line keeps its comment and its blanks", () => {
    make();
    expect(repinned('  photo   "a.png"  "x # y"   # c', "photo", 'b "2".png', "0".repeat(64))).toBe(
      `  photo   "b ""2"".png"  "x # y" sha256:${"0".repeat(64)}   # c`,
    );
  });
});
