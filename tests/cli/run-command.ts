// Runs the command as a person would, from its source, in a folder of its own.

import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";

const main = resolve(import.meta.dirname, "../../server/cli/main.ts");

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** A shop on disk. */
export interface ShopFolder {
  readonly path: string;
  run(...args: readonly string[]): Ran;
  remove(): void;
}

export function shopFolder(files: Readonly<Record<string, string | Uint8Array>>): ShopFolder {
  const path = mkdtempSync(join(tmpdir(), "gudgeon-shop-"));
  for (const [name, content] of Object.entries(files)) {
    mkdirSync(dirname(join(path, name)), { recursive: true });
    writeFileSync(join(path, name), content);
  }
  return {
    path,
    run(...args) {
      // Without an agent of the machine on which the tests run: what it holds must not decide a result.
      const { SSH_AUTH_SOCK: _agent, ...env } = process.env;
      const done = spawnSync(process.execPath, ["--disable-warning=ExperimentalWarning", main, ...args], {
        cwd: path,
        encoding: "utf8",
        env: { ...env, NO_COLOR: "1" },
      });
      return { code: done.status, out: done.stdout, err: done.stderr };
    },
    remove: () => rmSync(path, { recursive: true, force: true }),
  };
}
