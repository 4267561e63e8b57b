/** Findings as a JUnit report: a suite for each file; errors and warnings are failures, the rest is said in the suite's output. */
import type { LocatedFinding } from "../../checking/finding.ts";
import { type LoadedShop, shownPath } from "../shop.ts";
import { plain } from "../terminal.ts";

/** Text and attributes; characters that XML 1.0 forbids even as references are shown as `\uXXXX`, halves of surrogate pairs and noncharacters too. */
export function xml(text: string): string {
  return plain(text)
    .replace(/[\ud800-\udfff\ufffe\uffff]/gu, (ch) => `\\u${ch.charCodeAt(0).toString(16)}`)
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;")
    .replaceAll("'", "&apos;")
    .replaceAll("\n", "&#10;")
    .replaceAll("\t", "&#9;");
}

export function writeJunit(
  shop: LoadedShop,
  shown: readonly LocatedFinding[],
  _open: readonly LocatedFinding[],
  write: (text: string) => void,
): void {
  const out: string[] = [];
  let tests = 0;
  let failures = 0;
  for (const path of [...shop.checker.workspace.documents.keys()].filter(shop.wanted).sort()) {
    const found = shown.filter((one) => one.path === path);
    const failing = found.filter((one) => !one.quiet && (one.severity === "error" || one.severity === "warning"));
    const saying = found.filter((one) => !failing.includes(one));
    const name = shownPath(shop.root, path);
    const cases = failing.map((one) => {
      const where = `${name}:${one.line + 1}:${one.from + 1}`;
      const title = `${one.finding.code} at line ${one.line + 1}`;
      return `    <testcase classname="${xml(name)}" name="${xml(title)}" file="${xml(name)}" line="${one.line + 1}">\n      <failure type="${one.severity}" message="${xml(one.finding.message)}">${xml(`${where}: ${one.finding.message}`)}</failure>\n    </testcase>\n`;
    });
    if (cases.length === 0) cases.push(`    <testcase classname="${xml(name)}" name="no errors and no warnings"/>\n`);
    const said = saying.map((one) =>
      xml(
        `${name}:${one.line + 1}: ${one.severity} ${one.finding.code}: ${one.finding.message}${one.quiet ? ` (accepted by ${one.quiet.acceptedBy})` : ""}`,
      ),
    );
    tests += cases.length;
    failures += failing.length;
    const tail = said.length === 0 ? "" : `    <system-out>${said.join("&#10;")}</system-out>\n`;
    out.push(
      `  <testsuite name="${xml(name)}" tests="${cases.length}" failures="${failing.length}" errors="0" skipped="0">\n${cases.join("")}${tail}  </testsuite>\n`,
    );
  }
  write(
    `<?xml version="1.0" encoding="UTF-8"?>\n<testsuites name="gudgeon check" tests="${tests}" failures="${failures}" errors="0">\n${out.join("")}</testsuites>\n`,
  );
}
