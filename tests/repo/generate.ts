// `npm run generate`: writes every generated file that is not up to date, and names it.

import { mkdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { generate, stale } from "./generators.ts";
import { projectRoot, projectTree } from "./tree.ts";

const tree = projectTree();
const texts = await generate(tree);
const changed = stale(tree, texts);
for (const path of changed) {
  const target = join(projectRoot, path);
  mkdirSync(dirname(target), { recursive: true });
  writeFileSync(target, texts.get(path) ?? "");
  console.log(`wrote ${path}`);
}
console.log(`${texts.size} generated files, ${changed.length} written`);
