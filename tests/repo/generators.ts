// The one list of what is generated. A generator is a module with
//
//   export function outputs(tree: Tree): Record<string, string>      // path from the root -> text
//
// (a promise of it will do). It reads the project only through `tree`, so it can live in a pure room. `npm run generate`
// writes what it returns; generated.test.ts compares, and writes nothing. To add one, name its file here.

import { existsSync } from "node:fs";
import { join } from "node:path";
import { projectRoot, type Tree } from "./tree.ts";

export const generators: readonly string[] = [
  "grammar/generate.ts",
  "tests/repo/generate-rule-index.ts",
  "tests/repo/generate-plans.ts",
];

type Generator = { outputs(tree: Tree): Record<string, string> | Promise<Record<string, string>> };

/** Texts by path from all generators that exist. @throws when two of them claim one path. */
export async function generate(tree: Tree, names: readonly string[] = generators): Promise<Map<string, string>> {
  const texts = new Map<string, string>();
  for (const name of names) {
    const path = join(projectRoot, name);
    if (!existsSync(path)) continue;
    const generator = (await import(path)) as Generator;
    for (const [target, text] of Object.entries(await generator.outputs(tree))) {
      if (texts.has(target)) throw new Error(`${target} is generated twice, the second time by ${name}`);
      texts.set(target, text);
    }
  }
  return texts;
}

/** Paths whose text in `tree` is not what the generators make. */
export function stale(tree: Tree, texts: ReadonlyMap<string, string>): string[] {
  return [...texts]
    .filter(([path, text]) => !tree.files.includes(path) || tree.read(path) !== text)
    .map(([path]) => path);
}
