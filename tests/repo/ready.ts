// `npm run ready`: everything that has to hold before a change leaves this machine, in the order in which a failure is
// cheapest to see. It ends by failing on a dirty tree, so that what was tested is what is committed.

import { spawnSync } from "node:child_process";
import { resolve } from "node:path";

const root = resolve(import.meta.dirname, "../..");
const scripts = ["generate", "format", "lint", "types", "test"];

function main(): number {
  for (const script of scripts) {
    console.log(`\n== ${script}`);
    const done = spawnSync("npm", ["run", "--silent", script], { cwd: root, stdio: "inherit" });
    if (done.status !== 0) {
      console.error(`\nnot ready: \`npm run ${script}\` failed`);
      return 1;
    }
  }
  const status = spawnSync("git", ["status", "--porcelain"], { cwd: root, encoding: "utf8" });
  if (status.status !== 0) {
    console.error("\nnot ready: git could not tell the state of the tree");
    return 1;
  }
  if (status.stdout.trim() !== "") {
    console.error(`\nnot ready: the tree is dirty\n${status.stdout}`);
    return 1;
  }
  console.log("\nready");
  return 0;
}

process.exitCode = main();
