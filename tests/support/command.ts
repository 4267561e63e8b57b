/** Runs the command from its source, as a person would run it. */
import { spawnSync } from "node:child_process";
import { join } from "node:path";

const root = join(import.meta.dirname, "../..");

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** @param cwd where the person stands; the project's folder when left out */
export function gudgeon(args: readonly string[], cwd: string = root, env: Readonly<Record<string, string>> = {}): Ran {
  const done = spawnSync(
    process.execPath,
    ["--experimental-strip-types", "--disable-warning=ExperimentalWarning", join(root, "server/cli/main.ts"), ...args],
    { cwd, encoding: "utf8", env: { ...process.env, NODE_OPTIONS: "", ...env }, maxBuffer: 64 * 1024 * 1024 },
  );
  return { code: done.status, out: done.stdout, err: done.stderr };
}
