// A test runner of a page, because the extension host has none: tests run in the order in which they were declared, each
// prints one line, and the counts go where run.ts reads them. A test without a single `check` fails.

import * as vscode from "vscode";
import { fileUri, run, screenshot } from "./driver.ts";

type Test = { readonly name: string; readonly body: () => Promise<void> };

const tests: Test[] = [];
let checks = 0;

/** Declares a test. */
export function test(name: string, body: () => Promise<void>): void {
  tests.push({ name, body });
}

/** @throws with `message` when `condition` does not hold. */
export function check(condition: unknown, message: string): asserts condition {
  checks++;
  if (!condition) throw new Error(message);
}

/** @throws with both values when they differ as JSON. */
export function checkEqual(actual: unknown, expected: unknown, what: string): void {
  checks++;
  const left = JSON.stringify(actual, null, 1);
  const right = JSON.stringify(expected, null, 1);
  if (left !== right) throw new Error(`${what}\n  is       ${left}\n  expected ${right}`);
}

const print = (line: string): void => console.log(`GUDGEON-PRINT ${line}`);

/** Runs all declared tests. @throws when one failed, which gives the editor exit code 1. */
export async function runTests(): Promise<void> {
  let passed = 0;
  const failed: string[] = [];
  for (const { name, body } of tests) {
    checks = 0;
    const start = performance.now();
    try {
      await body();
      if (checks === 0) throw new Error("the test checked nothing");
      passed++;
      print(`  ok     ${name} (${Math.round(performance.now() - start)} ms)`);
    } catch (error) {
      failed.push(name);
      const said = error instanceof Error ? (error.stack ?? error.message) : String(error);
      print(`  FAILED ${name}\n    ${said.replaceAll("\n", "\n    ")}`);
      // What the window showed at that moment says more than a stack; without it the failure still stands.
      await screenshot(`failed-${failed.length}`).catch(() => undefined);
    }
  }
  const counts = new TextEncoder().encode(JSON.stringify({ passed, failed: failed.length }));
  await vscode.workspace.fs.writeFile(fileUri(`${run.answers}/counts.json`), counts);
  if (failed.length > 0) throw new Error(`failed: ${failed.join(", ")}`);
}
