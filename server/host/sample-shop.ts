// Which of the sample shops a person sees first.

import { existsSync, readdirSync } from "node:fs";
import { join, resolve } from "node:path";

const samples = resolve(import.meta.dirname, "../../samples");

/** The first of these with which a folder under samples/ begins: a job half done has the most to show. */
const preferred: readonly string[] = ["saltmarsh", "bench", "clean"];

/** @returns the full path of the shop to show, the first of all when none is preferred; undefined when there is none. */
export function sampleShop(): string | undefined {
  if (!existsSync(samples)) return undefined;
  const folders = readdirSync(samples, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map((entry) => entry.name)
    .filter((name) => readdirSync(join(samples, name)).some((file) => file.endsWith(".gudgeon")))
    .sort();
  const names = preferred.map((want) => folders.find((have) => have.startsWith(want)));
  const name = names.find((found) => found !== undefined) ?? folders[0];
  return name === undefined ? undefined : join(samples, name);
}
