// `npm start`: what a person sees first. It runs the built command on the sample shop as that person would, so what it
// prints is what the command prints, and then says how to open the same shop in an editor.

import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { join, relative, resolve } from "node:path";
import { styleText } from "node:util";
import { sampleShop } from "./sample-shop.ts";

const root = resolve(import.meta.dirname, "../..");
const command = join(root, "dist/cli.mjs");

/** Runs one `gudgeon` command with its output straight on the terminal; returns its exit code (2: could not run). */
function gudgeon(title: string, args: string[]): number {
  console.log(`\n${styleText("bold", `gudgeon ${args.join(" ")}`)}   ${title}\n`);
  const done = spawnSync(process.execPath, [command, ...args], { cwd: root, stdio: "inherit" });
  return done.status ?? 2;
}

function main(): number {
  const shop = sampleShop();
  if (shop === undefined) {
    console.error("There is no sample shop under samples/.");
    return 2;
  }
  if (!existsSync(command)) {
    console.error("The command is not built: dist/cli.mjs is missing.");
    return 2;
  }
  const at = relative(root, shop.path);
  const asOf = ["--as-of", shop.asOf];
  // Findings (exit code 1) are what the sample is there to show; only "could not run" is a failure of the start.
  const codes = [
    gudgeon("what the checker finds", ["check", at, ...asOf]),
    gudgeon("sums for each engine and job", ["totals", at, ...asOf]),
    gudgeon("what falls due next", ["due", at, ...asOf]),
  ];
  console.log(`
To open this shop in an editor:   npm run editor
To check records of your own:     node dist/cli.mjs check FOLDER
To install the extension:         npm run package, then install dist/gudgeon.vsix from the editor
`);
  return codes.some((code) => code > 1) ? 1 : 0;
}

process.exitCode = main();
