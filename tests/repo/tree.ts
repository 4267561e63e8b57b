// The files of the project as git sees them: tracked ones and new ones that are not ignored. The repository rules and
// the generators read the tree only through this, so they agree about what belongs to it.

import { execFileSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";

/** A read-only view of a folder of files; paths are relative to its root and use `/`. */
export type Tree = {
  readonly files: readonly string[];
  /** @throws when `path` cannot be read. */
  read(path: string): string;
};

export const projectRoot = resolve(import.meta.dirname, "../..");

/** The project's own tree. @throws when git cannot list it. */
export function projectTree(): Tree {
  const listed = execFileSync("git", ["ls-files", "-z", "--cached", "--others", "--exclude-standard"], {
    cwd: projectRoot,
    encoding: "utf8",
    maxBuffer: 64 * 1024 * 1024,
  });
  // A file that was deleted but not yet committed is still listed.
  const files = [...new Set(listed.split("\0"))].filter((path) => path !== "" && existsSync(join(projectRoot, path)));
  return { files: files.sort(), read: (path) => readFileSync(join(projectRoot, path), "utf8") };
}

/** A tree made of texts by path: what the tests of the rules feed them. */
export function treeOf(texts: Record<string, string>): Tree {
  return {
    files: Object.keys(texts).sort(),
    read(path) {
      const text = texts[path];
      if (text === undefined) throw new Error(`no such file: ${path}`);
      return text;
    },
  };
}
