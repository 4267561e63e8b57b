// Runs the suites of this folder in a real editor.
//
//   npm run test:vscode                     all runs of runs.ts
//   npm run test:vscode -- desktop          the runs whose name contains "desktop"
//   GUDGEON_VERBOSE=1 npm run test:vscode   with everything that the extension host prints
//
// To add a suite: write suite/<what>.ts, which declares tests with `test` of testing.ts and looks and types through
// driver.ts, and name it in a row of runs.ts (or add a row: another folder, restricted mode, the worker host). esbuild
// bundles it for each run; it may import `vscode`, and nothing of Node if it is to run in the worker host too.
//
//   test("a reading over its limit is in the Problems view", async () => {
//     await vscode.window.showTextDocument(fileUri(`${vscode.workspace.workspaceFolders![0].uri.path}/job.gudgeon`));
//     await vscode.commands.executeCommand("workbench.actions.view.problems");
//     const rows = await until("a finding", async () => (await texts(".markers-panel .monaco-list-row"))[0]);
//     check(rows.includes("over"), rows);
//     await screenshot("problems");        // .work/pictures/<run>-problems.png
//     await press("Control+Home", "F8");   // playwright's key names
//   });
//
// A failed test leaves .work/pictures/<run>-failed-<n>.png.
//
// Exit codes: 0 all passed, 1 some failed, 2 cannot run, 3 the editor could not be fetched.

import { spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { runTests } from "@vscode/test-electron";
import { build } from "esbuild";
import { installEditor, serverMain } from "./install.ts";
import { editorObstacle } from "./obstacle.ts";
import { type Run, runs } from "./runs.ts";

const here = import.meta.dirname;
const root = resolve(here, "../..");
const workRoot = join(here, ".work");
const pictures = join(workRoot, "pictures");

/** The extension as it would be installed, plus the bundled tests: the host that loads it decides by this manifest. */
function stageExtension(run: Run, folder: string): void {
  const manifest = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as Record<string, unknown>;
  // The manifest names both entries; with one of them left out, the workbench has no choice of host.
  delete manifest[run.host === "browser" ? "main" : "browser"];
  // Such an extension is a module package to Node only in this repository; its programs are .cjs.
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, "package.json"), JSON.stringify(manifest, null, 2));
  cpSync(join(root, "dist"), join(folder, "dist"), { recursive: true });
  for (const part of ["grammar", "client"]) {
    cpSync(join(root, part), join(folder, part), { recursive: true, filter: (path) => !/\.(ts|mjs)$/.test(path) });
  }
}

async function bundleSuites(run: Run, outfile: string, answers: string): Promise<void> {
  const imports = run.suites.map((name) => `import ${JSON.stringify(`./suite/${name}.ts`)};`).join("\n");
  await build({
    stdin: {
      contents: `${imports}\nimport { runTests } from "./suite/testing.ts";\nexport const run = () => runTests();\n`,
      resolveDir: here,
      loader: "ts",
    },
    outfile,
    bundle: true,
    platform: run.host === "browser" ? "browser" : "node",
    format: "cjs",
    external: ["vscode"],
    sourcemap: "inline",
    define: {
      RUN: JSON.stringify({ answers, pictures, name: run.name, host: run.host, restricted: run.restricted === true }),
    },
    logLevel: "warning",
  });
}

/** Packs the staged extension and installs the package into a folder of its own. @returns that folder. */
function install(extension: string, work: string): string {
  const vsix = join(work, "gudgeon.vsix");
  const extensions = join(work, "extensions");
  // Staged with the allow-list beside it, so that the package is what `npm run package` makes.
  cpSync(join(root, ".vscodeignore"), join(extension, ".vscodeignore"));
  for (const page of ["README.md", "CHANGELOG.md", "LICENSE"]) {
    if (existsSync(join(root, page))) cpSync(join(root, page), join(extension, page));
  }
  const steps: [string, string[]][] = [
    [
      join(root, "node_modules/.bin/vsce"),
      ["package", "--no-dependencies", "--allow-missing-repository", "--no-rewrite-relative-links", "--out", vsix],
    ],
    [
      process.execPath,
      [
        ...[serverMain, "--accept-server-license-terms", "--server-data-dir", join(work, "install")],
        ...["--extensions-dir", extensions, "--install-extension", vsix],
      ],
    ],
  ];
  for (const [program, args] of steps) {
    const done = spawnSync(program, args, { cwd: extension, encoding: "utf8" });
    if (done.status !== 0) throw new Error(`${program} ${args.join(" ")}\n${done.stdout}${done.stderr}`);
  }
  return extensions;
}

/** An extension that holds the tests and nothing else. @returns its folder. */
function stageTestExtension(folder: string): string {
  mkdirSync(folder, { recursive: true });
  const manifest = {
    ...{ name: "editor-tests", publisher: "gudgeon-tests", version: "1.0.0", engines: { vscode: "^1.100.0" } },
    ...{ main: "./editor-tests.cjs", activationEvents: [] },
  };
  writeFileSync(join(folder, "package.json"), JSON.stringify(manifest));
  return folder;
}

type Counts = { passed: number; failed: number };

async function runOne(run: Run): Promise<Counts> {
  const work = join(workRoot, run.name);
  rmSync(work, { recursive: true, force: true });
  const answers = join(work, "answers");
  const extension = join(work, "extension");
  const folder = join(work, "folder");
  mkdirSync(answers, { recursive: true });
  cpSync(join(root, run.folder), folder, { recursive: true });
  stageExtension(run, extension);
  const extensions = run.installed ? install(extension, work) : undefined;
  // Beside the extension's own manifest: the workbench runs the tests in the host in which the extension around them
  // runs. An installed extension stays as it was packed, so there the tests come in an extension of their own.
  const around = extensions === undefined ? extension : stageTestExtension(join(work, "tests"));
  const tests = join(around, "editor-tests.cjs");
  await bundleSuites(run, tests, answers);

  console.log(
    `${run.name} (${run.host} host${run.restricted ? ", restricted mode" : ""}${run.installed ? ", from a package" : ""}): ${run.suites.join(", ")}`,
  );
  const launchArgs = ["--experimental-strip-types", "--disable-warning=ExperimentalWarning", join(here, "launcher.ts")];
  launchArgs.push(folder, `--work=${work}`);
  if (extensions !== undefined) launchArgs.push(`--extensions=${extensions}`);
  if (run.restricted) launchArgs.push("--restricted");
  if (run.settings) launchArgs.push(`--settings=${JSON.stringify(run.settings)}`);
  let code = 0;
  try {
    await runTests({
      vscodeExecutablePath: process.execPath,
      extensionDevelopmentPath: around,
      extensionTestsPath: tests,
      launchArgs,
      reuseMachineInstall: true,
    });
  } catch (error) {
    code = (error as { code?: number }).code ?? 1;
  }
  const counts = join(answers, "counts.json");
  if (!existsSync(counts)) {
    console.log(`  FAILED the run ended without a result (exit code ${code})`);
    return { passed: 0, failed: 1 };
  }
  const { passed, failed } = JSON.parse(readFileSync(counts, "utf8")) as Counts;
  if (passed + failed === 0) {
    console.log("  FAILED the run has no tests");
    return { passed, failed: 1 };
  }
  return { passed, failed: failed === 0 && code !== 0 ? 1 : failed };
}

async function main(): Promise<number> {
  const wanted = process.argv.slice(2).filter((arg) => !arg.startsWith("-"));
  const chosen = runs.filter((run) => wanted.length === 0 || wanted.some((part) => run.name.includes(part)));
  if (chosen.length === 0) {
    console.error(`no run is called ${wanted.join(" or ")}; there are: ${runs.map((run) => run.name).join(", ")}`);
    return 2;
  }
  const obstacle = editorObstacle();
  if (obstacle !== undefined) {
    console.error(`the editor tests cannot run: ${obstacle}`);
    return 2;
  }
  const problem = installEditor();
  if (problem !== undefined) {
    console.error(problem);
    return 3;
  }
  const sum: Counts = { passed: 0, failed: 0 };
  for (const run of chosen) {
    const { passed, failed } = await runOne(run);
    sum.passed += passed;
    sum.failed += failed;
  }
  console.log(`editor: ${sum.passed} passed, ${sum.failed} failed`);
  const report = process.env.GUDGEON_TEST_REPORT;
  if (report) writeFileSync(report, JSON.stringify({ numPassedTests: sum.passed, numFailedTests: sum.failed }));
  return sum.failed === 0 ? 0 : 1;
}

process.exitCode = await main();
