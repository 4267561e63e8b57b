import { describe, expect, test } from "vitest";
import {
  checkCalcPairs,
  checkLengths,
  checkNames,
  checkRulePairs,
  checkTopLevel,
  checkWords,
  longestFile,
} from "./files.ts";
import { projectTree, type Tree, treeOf } from "./tree.ts";

const project = projectTree();

type Check = (tree: Tree) => string[];

/** Each rule, and small trees that break it, with what the complaint has to say. */
const rules: [string, Check, [string, Record<string, string>, RegExp][]][] = [
  [
    "the top level holds the agreed names and dotfiles",
    checkTopLevel,
    [
      ["a new folder", { "scripts/a.ts": "" }, /^scripts is not among/],
      ["a new file", { "notes.md": "" }, /^notes\.md is not among/],
    ],
  ],
  [
    "no source file is too long",
    checkLengths,
    [["one line too many", { "server/a.ts": "\n".repeat(longestFile + 1) }, /has 501 lines/]],
  ],
  [
    "files and types are named by what they are about",
    checkNames,
    [
      ["a folder of odds and ends", { "server/utils/a.ts": "" }, /name the folder/],
      ["a file name in camel case", { "server/calc/gasLaw.ts": "" }, /kebab case/],
      ["a type that manages", { "server/calc/a.ts": "export class JobManager {}" }, /JobManager/],
    ],
  ],
  [
    "each rule has its suite and its id is its place",
    checkRulePairs,
    [
      ["a rule without a suite", { "server/rules/sign/late.ts": "" }, /has no suite tests\/rules\/sign\/late\.md/],
      ["a suite without a rule", { "tests/rules/sign/late.md": "" }, /has no rule server\/rules\/sign\/late\.ts/],
      [
        "an id that is not its place",
        {
          "server/rules/sign/late.ts": `export default rule({ id: "sign/early" });`,
          "tests/rules/sign/late.md": "",
        },
        /calls itself sign\/early/,
      ],
      [
        "no id that can be read",
        { "server/rules/sign/late.ts": "export default {};", "tests/rules/sign/late.md": "" },
        /has no `export default rule/,
      ],
    ],
  ],
  [
    "each computation has its test",
    checkCalcPairs,
    [
      [
        "a computation without a test",
        {
          "server/calc/fit.ts": "",
          "tests/calc/clearance.test.ts": 'import { clearance } from "../../server/calc/clearance.ts";',
        },
        /fit\.ts has no test/,
      ],
    ],
  ],
  [
    "no word that does not belong here",
    checkWords,
    [
      ["unfinished work", { "server/a.ts": `// ${"TO"}DO later` }, /^server\/a\.ts:1 has/],
      ["a path of this machine", { "README.md": `a\nsee ${"/wo"}rk/x` }, /^README\.md:2 has/],
      ["a registry", { "package-lock.json": `"resolved": "https://${"regis"}try.example.org/a"` }, /package registry/],
      ["what the project was grown from", { "README.md": `the ${"see"}d document` }, /speaks of itself/],
    ],
  ],
];

describe.each(rules)("%s", (_rule, check, broken) => {
  test("in the project", () => {
    expect(check(project)).toEqual([]);
  });

  test.each(broken)("and the check sees: %s", (_what, files, complaint) => {
    expect(check(treeOf(files)).filter((line) => complaint.test(line))).toHaveLength(1);
  });
});

test("a sound pair of rule and suite raises nothing", () => {
  const files = { "server/rules/a/b.ts": `export default rule({ id: "a/b" });`, "tests/rules/a/b.md": "" };
  expect(checkRulePairs(treeOf(files))).toEqual([]);
});

test("an exception to the length rule that is not needed is itself a complaint", () => {
  const short = treeOf({ "server/a.ts": "\n" });
  expect(checkLengths(short, { "server/a.ts": "reason", "server/b.ts": "reason" })).toHaveLength(2);
});
