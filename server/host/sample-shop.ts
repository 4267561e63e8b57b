// Which of the sample shops a person sees first.

import { existsSync, readdirSync } from "node:fs";
import { join, resolve } from "node:path";

const samples = resolve(import.meta.dirname, "../../samples");

/** The folder under samples/ whose name begins with the first of these that there is. */
const preferred: readonly string[] = ["saltmarsh", "half-done", "walkthrough"];

/** @returns the full path of the shop to show, the first of all when none is preferred; undefined when there is none. */
export function sampleShop(): string | undefined {
  if (!existsSync(samples)) return undefined;
  const folders = readdirSync(samples, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map((entry) => entry.name)
    .sort();
  const names = preferred.map((want) => folders.find((have) => have.startsWith(want)));
  const name = names.find((found) => found !== undefined) ?? folders[0];
  return name === undefined ? undefined : join(samples, name);
}
