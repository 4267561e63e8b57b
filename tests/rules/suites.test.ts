/** Runs every suite of the rules; see `tests/support/suite.ts` for how they are written. */
import { readdirSync, readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { describe, expect, test } from "vitest";
import { readSuite, runSuiteTest } from "../support/suite.ts";

const here = import.meta.dirname;
const suites = readdirSync(here, { recursive: true, encoding: "utf8" })
  .filter((name) => name.endsWith(".md"))
  .sort();

/** Each suite shows these; a heading contains the word. */
const HEADINGS = ["faulty", "sound", "just inside", "half-typed", "superseded"];

for (const name of suites) {
  const suite = readSuite(readFileSync(join(here, name), "utf8"));
  describe(relative(".", name).replace(/\.md$/u, ""), () => {
    test("has all the headings", () => {
      const names = suite.tests.map((one) => one.name.toLowerCase());
      expect(HEADINGS.filter((heading) => !names.some((one) => one.includes(heading)))).toEqual([]);
    });
    test.each(suite.tests.map((one) => [one.name, one] as const))("%s", (_, one) => {
      expect(runSuiteTest(suite, one)).toEqual([]);
    });
  });
}

test("there are suites", () => {
  expect(suites.length).toBeGreaterThan(0);
});
