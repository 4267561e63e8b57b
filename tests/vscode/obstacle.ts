// Whether the tests in a real editor can run on this machine, and if not, why. Looks only; installs nothing.

import { accessSync, constants, existsSync } from "node:fs";
import { delimiter, join, resolve } from "node:path";

const root = resolve(import.meta.dirname, "../..");

/** The full path of a program on the PATH, or undefined. */
export function onPath(name: string): string | undefined {
  for (const folder of (process.env.PATH ?? "").split(delimiter)) {
    const candidate = join(folder, name);
    try {
      accessSync(candidate, constants.X_OK);
      return candidate;
    } catch {
      // Not in this folder.
    }
  }
  return undefined;
}

/** A Chromium that the tests may drive: GUDGEON_CHROMIUM, else the first of the usual names on the PATH. */
export function chromium(): string | undefined {
  const named = process.env.GUDGEON_CHROMIUM;
  if (named) return existsSync(named) ? named : undefined;
  for (const name of ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"]) {
    const found = onPath(name);
    if (found !== undefined) return found;
  }
  return undefined;
}

/** The reason why the editor tests cannot run here, in words for a person; undefined when nothing stands in the way. */
export function editorObstacle(): string | undefined {
  if (process.platform !== "linux") return "the editor that they run in is set up on Linux only so far";
  if (Number(process.versions.node.split(".")[0]) < 24) {
    return `the editor that they run in needs Node 24, and this is ${process.version}`;
  }
  if (chromium() === undefined) {
    return "no Chromium on this machine (Debian: apt-get install chromium; or set GUDGEON_CHROMIUM to one)";
  }
  const missing = [
    "dist/client-node.cjs",
    "dist/client-browser.cjs",
    "dist/server-node.cjs",
    "dist/server-browser.js",
  ].filter((path) => !existsSync(join(root, path)));
  if (missing.length > 0) return `the extension is not built: ${missing.join(", ")} missing`;
  return undefined;
}
