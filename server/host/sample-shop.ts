// Which of the sample shops a person sees first.

import { existsSync, readdirSync } from "node:fs";
import { join, resolve } from "node:path";

const samples = resolve(import.meta.dirname, "../../samples");

/** In this order; a job half done has the most to show. Each story is told as of a day: later than that, all of it would be overdue. */
const stories: readonly (readonly [folder: string, asOf: string])[] = [
  ["bench", "2026-04-28"],
  ["clean", "2026-05-02"],
];

export interface SampleShop {
  readonly path: string;
  /** The day as of which the story is told. */
  readonly asOf: string;
}

/** @returns the shop to show; undefined when there is none. */
export function sampleShop(): SampleShop | undefined {
  for (const [folder, asOf] of stories) {
    const path = join(samples, folder);
    if (existsSync(path) && readdirSync(path).some((file) => file.endsWith(".gudgeon"))) return { path, asOf };
  }
  return undefined;
}
