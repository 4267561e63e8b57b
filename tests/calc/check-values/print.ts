/**
 * Prints every computation with its published checks, and exits with 1 when one fails.
 * Run it with `npm run check-values`.
 */
import type { CheckGroup } from "./check.ts";
import { countsAsOutside, groupNames, runCheck } from "./check.ts";
import { collectChecks } from "./collect.ts";

const { checks, unchecked, silent } = await collectChecks();
const groups = Object.keys(groupNames).map((key) => Number(key) as CheckGroup);

function written(value: number): string {
  return String(Number(value.toPrecision(10)));
}

let failures = 0;
const rows: string[][] = [];
const tally = new Map<
  CheckGroup,
  {
    read: number;
    run: number;
    other: number;
    failed: number;
    files: Set<string>;
  }
>();
for (const group of groups) tally.set(group, { read: 0, run: 0, other: 0, failed: 0, files: new Set() });

for (const group of groups) {
  const count = tally.get(group);
  if (count === undefined) continue;
  for (const check of checks.filter((item) => item.group === group)) {
    const { got, failure } = runCheck(check);
    count.files.add(check.computation);
    if (failure !== undefined) {
      failures += 1;
      count.failed += 1;
    } else if (check.kind === "read") count.read += 1;
    else if (check.kind === "oracle-run") count.run += 1;
    else count.other += 1;
    rows.push([
      String(group),
      check.computation,
      check.what,
      written(check.expected),
      written(got),
      written(check.tolerance),
      check.kind,
      failure === undefined ? "holds" : "FAILS",
      check.source,
    ]);
  }
}

function print(heading: string[], lines: string[][]): void {
  const widths = heading.map((title, column) =>
    Math.max(title.length, ...lines.map((line) => (line[column] ?? "").length)),
  );
  const write = (line: string[]): string =>
    line
      .map((cell, column) => (column === line.length - 1 ? cell : cell.padEnd(widths[column] ?? 0)))
      .join("  ")
      .trimEnd();
  console.log(write(heading));
  console.log(write(widths.map((width) => "-".repeat(width))));
  for (const line of lines) console.log(write(line));
}

print(["group", "computation", "what", "expected", "got", "tolerance", "kind", "result", "source"], rows);

console.log("\nOutside checks by group (only read and oracle-run count)");
const totals = { read: 0, run: 0, other: 0 };
let groupsWithOutside = 0;
const summary: string[][] = [];
for (const group of groups) {
  const count = tally.get(group);
  if (count === undefined) continue;
  totals.read += count.read;
  totals.run += count.run;
  totals.other += count.other;
  if (count.read + count.run > 0) groupsWithOutside += 1;
  summary.push([
    String(group),
    groupNames[group],
    String(count.files.size),
    String(count.read),
    String(count.run),
    String(count.other),
    String(count.failed),
  ]);
}
print(["group", "name", "computations", "read", "oracle-run", "not counted", "failed"], summary);
console.log(
  `\n${totals.read + totals.run} outside checks hold (${totals.read} read, ${totals.run} oracle-run) in ` +
    `${groupsWithOutside} of ${groups.length} groups; ${totals.other} more hold but are not counted; ${failures} fail.`,
);

const withOutside = new Set(checks.filter((item) => countsAsOutside(item.kind)).map((item) => item.computation));
const without = unchecked.filter((item) => !withOutside.has(item.computation));
console.log("\nComputations without an outside check, and why");
if (without.length === 0) console.log("none");
for (const item of without) console.log(`- ${item.computation} (group ${item.group}): ${item.why}`);
for (const name of silent) {
  failures += 1;
  console.log(`- ${name}: no module of this folder mentions it`);
}
if (failures > 0) process.exitCode = 1;
