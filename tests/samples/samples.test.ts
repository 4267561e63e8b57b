/** The samples say what their page says they say. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { formatLines } from "../../grammar/print.ts";
import { RULES } from "../../server/rules/index.ts";
import { recordsOf } from "../incremental/random-edits.ts";
import { gudgeon } from "../support/command.ts";

const samples = join(import.meta.dirname, "../../samples");

interface JsonFinding {
  readonly code: string;
  readonly severity: string;
}

function check(folder: string, asOf: string): { code: number | null; findings: JsonFinding[] } {
  const ran = gudgeon(["check", join(samples, folder), "--as-of", asOf, "--format", "json"]);
  return { code: ran.code, findings: (JSON.parse(ran.out) as { findings: JsonFinding[] }).findings };
}

test("the whole job is clean as of its day", () => {
  const { code, findings } = check("clean", "2026-05-02");
  expect(findings).toEqual([]);
  expect(code).toBe(0);
});

test("the job half done has work to do, and nothing at error", () => {
  const { code, findings } = check("bench", "2026-04-28");
  expect(code).toBe(0);
  expect(findings.filter((one) => one.severity === "hint").length).toBeGreaterThan(10);
});

test("the first record has one reading out of its limit", () => {
  const { code, findings } = check("first-record", "2026-03-02");
  expect(findings.filter((one) => one.severity === "error").map((one) => one.code)).toEqual(["limit/out-of-limit"]);
  expect(code).toBe(1);
});

test("in the faulty shops every rule is raised", () => {
  const raised = new Set(
    [...check("faulty", "2026-05-02").findings, ...check("no-shop", "2026-05-02").findings].map((one) => one.code),
  );
  expect(RULES.map((rule) => rule.id).filter((id) => !raised.has(id))).toEqual([]);
});

test("the faulty shop gives the list that is kept beside it", () => {
  const ran = gudgeon(["check", "samples/faulty", "--as-of", "2026-05-02"]);
  expect(ran.out).toBe(readFileSync(join(samples, "faulty/expected.txt"), "utf8"));
  expect(ran.code).toBe(1);
});

describe("samples are as the formatter leaves them", () => {
  for (const folder of ["clean", "bench", "first-record"]) {
    test(folder, () => {
      for (const [path, text] of recordsOf(join(samples, folder)))
        expect(formatLines(text.split("\n")).join("\n"), path).toBe(text);
    });
  }
});
