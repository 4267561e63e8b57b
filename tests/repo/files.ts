// Rules about files as such: what may lie at the top level, how long a file may be, what stands beside what, and words
// that do not belong in the project. Each function returns complaints, and an empty list when there is nothing to say.

import { posix } from "node:path";
import { readSource } from "./source.ts";
import type { Tree } from "./tree.ts";

const topLevel: readonly string[] = [
  ...["README.md", "DEVELOPERS.md", "CHANGELOG.md", "LICENSE"],
  ...["package.json", "package-lock.json", "tsconfig.json"],
  ...["client", "server", "grammar", "tests", "samples"],
];

/** The top level is agreed: the names above, and the dotfiles that tools need. */
export function checkTopLevel(tree: Tree): string[] {
  const names = new Set(tree.files.map((path) => path.split("/")[0]));
  return [...names]
    .filter((name) => !name.startsWith(".") && !topLevel.includes(name))
    .map((name) => `${name} is not among the agreed names of the top level: ${topLevel.join(", ")}`);
}

/** Lines beyond which a source file is to be split. */
export const longestFile = 500;

/** Files that may be longer, each with the reason. */
const mayBeLonger: Readonly<Record<string, string>> = {
  "grammar/words.ts": "the one table of words; two tables would be two sources",
};

/** Long files, and exceptions that are no longer needed. */
export function checkLengths(tree: Tree, exceptions: Readonly<Record<string, string>> = mayBeLonger): string[] {
  const found: string[] = [];
  for (const path of tree.files) {
    if (!/\.(ts|mts|mjs|js)$/.test(path)) continue;
    const lines = tree.read(path).split("\n").length - 1;
    if (lines > longestFile && !(path in exceptions)) {
      found.push(`${path} has ${lines} lines; more than ${longestFile} ask for two files`);
    }
    if (lines <= longestFile && path in exceptions)
      found.push(`${path} no longer needs its exception to the length rule`);
  }
  for (const path of Object.keys(exceptions)) {
    if (!tree.files.includes(path)) found.push(`${path} has an exception to the length rule but does not exist`);
  }
  return found;
}

/** File and type names: kebab case, no folder of odds and ends, no type that only "manages". */
export function checkNames(tree: Tree): string[] {
  const found: string[] = [];
  for (const path of tree.files) {
    if (!/^(grammar|server|client|tests)\//.test(path)) continue;
    if (/(^|\/)(utils?|helpers|misc|common)(\/|\.)/.test(path))
      found.push(`${path}: name the folder or file by what it is about`);
    if (!/\.(ts|mts|mjs|js)$/.test(path)) continue;
    if (!/^[a-z0-9]+(-[a-z0-9]+)*(\.(test|bench|config|d))?\.[a-z]+$/.test(posix.basename(path))) {
      found.push(`${path}: file names are in kebab case`);
    }
    for (const name of readSource(path, tree.read(path)).typeNames) {
      if (name.endsWith("Manager")) found.push(`${path}: the type ${name} says what it is called, not what it does`);
    }
  }
  return found;
}

/** Every rule has a suite and every suite a rule, and a rule's id is its place: `server/rules/sign/late.ts` is `sign/late`. */
export function checkRulePairs(tree: Tree): string[] {
  const found: string[] = [];
  const rules = tree.files
    .map((path) => /^server\/rules\/([^/]+\/[^/]+)\.ts$/.exec(path)?.[1])
    .filter((id) => id !== undefined);
  const suites = tree.files
    .map((path) => /^tests\/rules\/([^/]+\/[^/]+)\.md$/.exec(path)?.[1])
    .filter((id) => id !== undefined);
  for (const id of rules) {
    const path = `server/rules/${id}.ts`;
    if (!suites.includes(id)) found.push(`${path} has no suite tests/rules/${id}.md`);
    const written = readSource(path, tree.read(path)).ruleId;
    if (written === undefined) found.push(`${path} has no \`export default rule({ id: "${id}", ... })\``);
    else if (written !== id) found.push(`${path} calls itself ${written}; a rule's id is its place, ${id}`);
  }
  for (const id of suites)
    if (!rules.includes(id)) found.push(`tests/rules/${id}.md has no rule server/rules/${id}.ts`);
  return found;
}

/** Files of server/calc that are not a computation: the shapes that computations share, and tables of values. */
const calcShapes: readonly string[] = ["figures", "result", "index"];
const isComputation = (name: string): boolean => !calcShapes.includes(name) && !name.endsWith("-tables");

/** Every computation is tested: by the test of its name, or by one that says what it covers by importing it. */
export function checkCalcPairs(tree: Tree): string[] {
  const names = (pattern: RegExp): string[] =>
    tree.files.map((path) => pattern.exec(path)?.[1]).filter((name) => name !== undefined);
  const tests = tree.files.filter((path) => /^tests\/calc\/[^/]+\.test\.ts$/.test(path)).map((path) => tree.read(path));
  return names(/^server\/calc\/([^/]+)\.ts$/)
    .filter((name) => isComputation(name) && !tests.some((text) => text.includes(`/server/calc/${name}.ts"`)))
    .map((name) => `server/calc/${name}.ts has no test: nothing in tests/calc imports it`);
}

// Written with a bracket in each, so that this list does not find itself.
const unwanted: readonly (readonly [RegExp, string])[] = [
  [/\bT[O]DO\b|\bF[I]XME\b|\bX[X]X\b/, "unfinished work belongs in an issue"],
  [/\bseed[ -]docu[m]ent/i, "the project speaks of itself alone"],
  [/(?<![\w.])\/(wor[k]|tm[p]|roo[t]|hom[e])\/[\w.]/, "a path of one machine means nothing on another"],
  [/\bregistr[y]\.[a-z0-9-]+\.[a-z]/i, "the host of a package registry is a machine's setting"],
];

/** Words that do not belong in the project, in every text file of it. */
export function checkWords(tree: Tree): string[] {
  const found: string[] = [];
  for (const path of tree.files) {
    if (/\.(png|jpe?g|gif|webp|ico|woff2?|vsix|zip|pdf)$/.test(path)) continue;
    const lines = tree.read(path).split("\n");
    for (const [pattern, why] of unwanted) {
      lines.forEach((line, index) => {
        const hit = pattern.exec(line);
        if (hit) found.push(`${path}:${index + 1} has "${hit[0]}": ${why}`);
      });
    }
  }
  return found;
}
