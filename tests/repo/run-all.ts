// `npm test`: types, build, the tests of every room with the repository rules among them, and the tests in a real
// editor. A step that this machine cannot run is named with the reason; with CI=true that is a failure.
//
//   npm test                  everything
//   npm test -- --no-editor   leaves the editor tests out, and says so
//
// The last line is always `N passed, N failed`, counted over all steps.

import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { editorObstacle } from "../vscode/obstacle.ts";

const root = resolve(import.meta.dirname, "../..");
const inCi = process.env.CI === "true";
const typeStripping = ["--experimental-strip-types", "--disable-warning=ExperimentalWarning"];

type Outcome = { passed: number; failed: number };

const bin = (name: string): string => join(root, "node_modules/.bin", name);

function run(program: string, args: string[], env: Record<string, string> = {}): number {
  const done = spawnSync(program, args, { cwd: root, stdio: "inherit", env: { ...process.env, ...env } });
  if (done.error) console.error(`${program}: ${done.error.message}`);
  return done.status ?? 1;
}

/** A step that only passes or fails as a whole counts as one test. */
function step(title: string, program: string, args: string[]): Outcome {
  console.log(`\n${title}`);
  const code = run(program, args);
  if (code !== 0) console.log(`${title}: failed`);
  return { passed: code === 0 ? 1 : 0, failed: code === 0 ? 0 : 1 };
}

/** Reads the counts that a runner left in `file`; a runner that ended badly without counts is one failure. */
function counted(file: string, code: number): Outcome {
  if (!existsSync(file)) return { passed: 0, failed: 1 };
  const report = JSON.parse(readFileSync(file, "utf8")) as { numPassedTests: number; numFailedTests: number };
  const failed = report.numFailedTests;
  return { passed: report.numPassedTests, failed: code !== 0 && failed === 0 ? 1 : failed };
}

const scratch = mkdtempSync(join(tmpdir(), "gudgeon-test-"));
const outcomes: Outcome[] = [];
const notRun: string[] = [];
try {
  outcomes.push(step("Types", bin("tsc"), []));
  const built = step("Build", process.execPath, ["client/build.mjs"]);
  outcomes.push(built);

  console.log("\nRooms and repository rules");
  const unitReport = join(scratch, "unit.json");
  const unitCode = run(bin("vitest"), [
    ...["run", "--config", "tests/vitest.config.ts", "--root", "."],
    ...["--reporter=default", "--reporter=json", `--outputFile.json=${unitReport}`],
  ]);
  outcomes.push(counted(unitReport, unitCode));

  console.log("\nReal editor");
  const obstacle = process.argv.includes("--no-editor")
    ? "left out with --no-editor"
    : built.failed > 0
      ? "the build failed"
      : editorObstacle();
  if (obstacle === undefined) {
    const editorReport = join(scratch, "editor.json");
    const editorCode = run(process.execPath, [...typeStripping, "tests/vscode/run.ts"], {
      GUDGEON_TEST_REPORT: editorReport,
    });
    // The runner's own code for "the editor could not be installed here": it has printed the reason.
    if (editorCode === 3) notRun.push("the tests in a real editor: the editor could not be installed (see above)");
    else outcomes.push(counted(editorReport, editorCode));
  } else {
    notRun.push(`the tests in a real editor: ${obstacle}`);
  }
} finally {
  rmSync(scratch, { recursive: true, force: true });
}

const passed = outcomes.reduce((sum, outcome) => sum + outcome.passed, 0);
const failed = outcomes.reduce((sum, outcome) => sum + outcome.failed, 0) + (inCi ? notRun.length : 0);
console.log("");
for (const what of notRun) console.log(`NOT RUN: ${what}${inCi ? " (counted as a failure in CI)" : ""}`);
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
