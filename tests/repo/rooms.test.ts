import { describe, expect, test } from "vitest";
import { checkRooms } from "./import-graph.ts";
import { rooms } from "./rooms.ts";
import { projectTree, treeOf } from "./tree.ts";

test("no file of the project breaks the table of rooms", () => {
  expect(checkRooms(projectTree())).toEqual([]);
});

test("every room that a row names is a row itself", () => {
  const names = rooms.map((room) => room.name);
  for (const room of rooms) expect(names).toEqual(expect.arrayContaining([...room.values, ...(room.types ?? [])]));
});

// Each case is a small tree with one thing wrong, and what the complaint about it has to say. Without these a checker
// that sees nothing would look just like a tidy tree.
const broken: [string, Record<string, string>, RegExp][] = [
  [
    "a room imports one that its row does not name",
    { "server/calc/due.ts": `import { a } from "../facts/a.ts"; export const b = a;`, "server/facts/a.ts": "" },
    /^server\/calc\/due\.ts:1 imports server\/facts\/a\.ts of the room facts\n {4}\[row calc: may import quantity\]$/,
  ],
  [
    "a value comes where only types may",
    { "server/rules/sign/late.ts": `\nimport { WORDS } from "../../../grammar/a.ts"; export const b = WORDS;` },
    /^server\/rules\/sign\/late\.ts:2 imports a value from grammar\/a\.ts; .*\n.*row rules:/,
  ],
  [
    "one rule imports another",
    { "server/rules/sign/late.ts": `import { b } from "../limit/over.ts"; export const c = b;` },
    /never import each other/,
  ],
  [
    "one feature imports another",
    { "server/features/hover.ts": `import { b } from "./actions/accept.ts"; export const c = b;` },
    /one feature never imports another/,
  ],
  [
    "the server is imported by the client",
    { "client/a.ts": `export { b } from "../server/lsp/node.ts";` },
    /row client:/,
  ],
  ["a package is not in the row", { "grammar/a.ts": `import { z } from "zod"; export const b = z;` }, /package zod/],
  ["a built-in of Node in a pure room", { "server/totals/a.ts": `export * from "node:fs";` }, /package node:fs/],
  [
    "a dynamic import",
    { "server/quantity/a.ts": `export const b = () => import("../lsp/node.ts");` },
    /of the room lsp/,
  ],
  [
    "a type named by import()",
    { "server/calc/a.ts": `export type B = import("../lsp/node.ts").C;` },
    /of the room lsp/,
  ],
  ["a clock in a pure room", { "server/checking/a.ts": "\n\nexport const b = () => new Date();" }, /a\.ts:3 uses Date/],
  ["a clock behind globalThis", { "grammar/a.ts": "export const b = globalThis.performance;" }, /uses performance/],
  ["the present moment", { "server/facts/a.ts": "export const b = Temporal.Now.instant();" }, /uses Temporal\.Now/],
  ["chance", { "server/calc/a.ts": "export const b = Math.random();" }, /uses Math\.random/],
  ["the environment", { "server/workspace/a.ts": "export const b = process.env;" }, /uses process/],
  ["a rule that waits", { "server/rules/run/long.ts": "export const b = async () => 1;" }, /is asynchronous/],
  ["a folder outside the table", { "server/helpers/a.ts": "export const b = 1;" }, /lies in no room/],
  [
    "Node behind a browser entry",
    {
      "server/lsp/browser.ts": `import { b } from "./c.ts"; export const d = b;`,
      "server/lsp/c.ts": `export { b } from "../host/e.ts";`,
      "server/host/e.ts": `import { readFileSync } from "node:fs"; export const b = readFileSync;`,
    },
    /^server\/lsp\/browser\.ts -> server\/lsp\/c\.ts -> server\/host\/e\.ts -> node:fs: runs in a browser worker/,
  ],
];

describe("the checker sees", () => {
  test.each(broken)("%s", (_what, files, complaint) => {
    const found = checkRooms(treeOf(files));
    expect(found.filter((line) => complaint.test(line))).toHaveLength(1);
  });
});

const sound: [string, Record<string, string>][] = [
  [
    "a type where only types may come",
    { "server/rules/a/b.ts": `import type { F } from "../../facts/f.ts"; export const c = (f: F) => f;` },
  ],
  [
    "names typed one by one",
    { "server/rules/a/b.ts": `import { type F } from "../../facts/f.ts"; export const c = (f: F) => f;` },
  ],
  [
    "a word of the trade that is also a global",
    {
      "server/facts/a.ts": `export const b = (process: string, { module }: { module: string }) => ({ process, Date: module, c: process.length });`,
    },
  ],
  ["a clock in a comment and in a string", { "grammar/a.ts": `// new Date()\nexport const b = "Date.now()";` }],
  [
    "files of one room",
    {
      "server/calc/a.ts": `import { b } from "./b.ts"; export const c = b;`,
      "server/calc/b.ts": "export const b = 1;",
    },
  ],
];

describe("the checker leaves alone", () => {
  test.each(sound)("%s", (_what, files) => {
    expect(checkRooms(treeOf(files))).toEqual([]);
  });
});
