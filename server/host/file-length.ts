/** How long a file is, before it is read. */
import { statSync } from "node:fs";
import { join } from "node:path";

/** @returns bytes, or undefined when there is no such file */
export function lengthOf(root: string, path: string): number | undefined {
  const stats = statSync(join(root, path), { throwIfNoEntry: false });
  return stats?.isFile() ? stats.size : undefined;
}
