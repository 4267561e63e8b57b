import { expect, test } from "vitest";
import { generate, generators, stale } from "./generators.ts";
import { projectTree, treeOf } from "./tree.ts";

const tree = projectTree();

test("generated files are what `npm run generate` would write", async () => {
  expect(stale(tree, await generate(tree))).toEqual([]);
});

test("no generator stands outside the list", () => {
  const known = new Set([...generators, "tests/repo/generate.ts"]);
  const named = tree.files.filter((path) => /(^|\/)generate(-[a-z-]+)?\.(ts|mjs)$/.test(path));
  expect(named.filter((path) => !known.has(path))).toEqual([]);
});

test("a file that differs or is missing is named", () => {
  const texts = new Map([
    ["a.ts", "new"],
    ["b.ts", "same"],
    ["c.ts", "missing"],
  ]);
  expect(stale(treeOf({ "a.ts": "old", "b.ts": "same" }), texts)).toEqual(["a.ts", "c.ts"]);
});
