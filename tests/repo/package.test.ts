import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { listFiles } from "@vscode/vsce";
import { expect, test } from "vitest";
import { projectRoot } from "./tree.ts";

/** What may be in a packaged extension; everything else is somebody's working file. */
const mayBePacked: readonly RegExp[] = [
  /^(package\.json|README\.md|CHANGELOG\.md|LICENSE)$/,
  /^dist\/[a-z-]+(-[A-Z0-9]{8})?\.(mjs|cjs|js)$/,
  /^grammar\/(gudgeon\.tmLanguage|language-configuration)\.json$/,
  /^client\/icons\/[a-z-]+\.(svg|png)$/,
];

const strangers = (files: string[]): string[] => files.filter((file) => !mayBePacked.some((good) => good.test(file)));

/** What would be packed from a folder. */
const packed = (cwd: string): Promise<string[]> =>
  listFiles({ cwd, dependencies: false } as Parameters<typeof listFiles>[0]);

test("the package holds the built programs and what the editor reads, and nothing else", async () => {
  const files = await packed(projectRoot);
  expect(strangers(files)).toEqual([]);
  expect(files).toContain("package.json");
  expect(files).toContain("LICENSE");
});

test("without the allow-list the same check complains", async () => {
  const folder = mkdtempSync(join(tmpdir(), "gudgeon-package-"));
  try {
    const manifest = { name: "a", publisher: "b", version: "1.0.0", engines: { vscode: "^1.100.0" } };
    for (const [path, text] of [
      ["package.json", JSON.stringify(manifest)],
      ["server/secret.ts", ""],
      ["dist/cli.mjs", ""],
    ]) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      writeFileSync(join(folder, path), text);
    }
    expect(strangers(await packed(folder))).toEqual(["server/secret.ts"]);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
