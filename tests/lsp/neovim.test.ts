/** A second editor, written by other people: what it shows comes of the protocol alone. */
import { spawn } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { onPath } from "../vscode/obstacle.ts";
import { folderWith, projectRoot } from "./client.ts";
import { freshCodes, JOB, shopFiles } from "./records.ts";

interface Seen {
  readonly problem?: string;
  readonly findings: readonly string[];
  readonly hover: string;
  readonly offered: readonly string[];
  readonly line: string;
}

const nvim = onPath("nvim");

test.skipIf(nvim === undefined)("Neovim shows findings and a hover, and applies a quick fix", async () => {
  using folder = folderWith(shopFiles());
  const out = join(folder.path, "seen.json");
  const server = [
    process.execPath,
    "--disable-warning=ExperimentalWarning",
    join(projectRoot, "server/lsp/node.ts"),
    "--stdio",
  ];
  const child = spawn(
    nvim as string,
    ["--headless", "--clean", "-n", "-S", join(projectRoot, "tests/lsp/neovim.lua")],
    {
      env: {
        ...process.env,
        GUDGEON_SERVER: JSON.stringify(server),
        GUDGEON_RECORD: join(folder.path, JOB),
        GUDGEON_OUT: out,
        XDG_STATE_HOME: folder.path,
        XDG_CACHE_HOME: folder.path,
      },
      stdio: ["ignore", "ignore", "pipe"],
    },
  );
  let errors = "";
  child.stderr.on("data", (chunk: Buffer) => {
    errors += chunk.toString();
  });
  const hard = setTimeout(() => child.kill("SIGKILL"), 45_000);
  await new Promise((done) => child.once("exit", done));
  clearTimeout(hard);
  expect(existsSync(out), errors).toBe(true);
  const seen = JSON.parse(readFileSync(out, "utf8")) as Seen;
  expect(seen.problem).toBeUndefined();
  expect(seen.findings).toEqual(freshCodes(JOB).toSorted());
  expect(seen.hover).toContain("Job J26-101 on W2-007");
  expect(seen.offered.join("\n")).toContain("Decimal: 59.911");
  expect(seen.line).toBe("  measure piston.skirt[2] 59.911 mm");
});
