// Brings the editor into tests/vscode/node_modules on first use: 0.6 GB and about 20 s, which is why it is not in the
// package.json of the project. Versions and contents are pinned by the lock files; no install script runs.

import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";

const here = import.meta.dirname;
const vscodeFolder = join(here, "node_modules/code-server/lib/vscode");
const stamp = join(here, "node_modules/.gudgeon-installed");

/** The program that serves the workbench and runs the extension host. */
export const serverMain = join(vscodeFolder, "out/server-main.js");

/** @returns undefined when the editor is there, else what went wrong. Prints one line before a download. */
export function installEditor(): string | undefined {
  const wanted = createHash("sha256")
    .update(readFileSync(join(here, "package-lock.json")))
    .digest("hex");
  if (existsSync(stamp) && readFileSync(stamp, "utf8") === wanted && existsSync(serverMain)) return undefined;
  console.log("Fetching the editor for the tests (once, about 600 MB on disk) ...");
  rmSync(stamp, { force: true });
  const steps: [string, string[]][] = [
    [here, ["ci", "--ignore-scripts", "--no-audit", "--no-fund", "--loglevel=error"]],
    [
      vscodeFolder,
      ["ci", "--omit=dev", "--ignore-scripts", "--legacy-peer-deps", "--no-audit", "--no-fund", "--loglevel=error"],
    ],
  ];
  for (const [cwd, args] of steps) {
    const done = spawnSync("npm", args, { cwd, encoding: "utf8" });
    if (done.status !== 0) {
      const said = `${done.stdout ?? ""}${done.stderr ?? ""}`.trim() || (done.error?.message ?? "no output");
      return `npm ${args.slice(0, 2).join(" ")} failed: ${said}`;
    }
  }
  writeFileSync(stamp, wanted);
  return undefined;
}
