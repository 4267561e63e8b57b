// Findings as SARIF, as workflow commands and as JUnit: valid by their published shapes, and nothing in a record or a file name gets out of its field.

import { spawnSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import schema from "@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json" with { type: "json" };
import { Ajv } from "ajv";
import sax from "sax";
import { afterAll, describe, expect, test } from "vitest";
import { xml } from "../../server/cli/writers/junit.ts";
import { pathAsUri } from "../../server/cli/writers/sarif.ts";
import { shopFolder } from "./run-command.ts";

// The schema is the one that the SARIF technical committee published, as shipped by a package of the format's authors.
// It names draft 4 of JSON Schema and uses nothing in which later drafts differ but `id`, which the validator would not take.
const { $schema: _draft, id: _id, ...current } = schema as unknown as Record<string, unknown>;
const validate = new Ajv({ strict: false, unicodeRegExp: false, validateFormats: false, allErrors: true }).compile(
  current,
);

const EVIL = `x::error file=a::b%0A]]>&amp;<script>alert(1)</script>"'\u001b[31m\u202e`;
const NAME = "a&b<c>'d %41,e;$(touch x)#?:`.gudgeon";
const folder = shopFolder({
  [NAME]: `engine-type Curlew-9\nengine C9-0412 Curlew-9\njob J26-014 engine C9-0412\nentry E1 2026-02-19 inspect "${EVIL}" job J26-014\n  ${EVIL.replaceAll('"', "")}\n  photo "${EVIL.replaceAll('"', "")}" "caption"\n  defect D1 cylinder.bore[1] "${EVIL.replaceAll('"', "")}"\n  sign fitter NOBODY 2026-02-19\n`,
  "limits.gudgeon":
    'limits Curlew-9 revision C from 2025-11-01\n  limit cylinder.bore[1] wear max 98,070 mm ref "4-2"\n',
});
afterAll(() => folder.remove());

const check = (format: string): string =>
  folder.run("check", "--as-of", "2026-05-01", "--format", format, "--quiet-too").out;

interface SarifResult {
  readonly ruleId: string;
  readonly ruleIndex: number;
  readonly message: { readonly text: string };
  readonly locations: readonly { readonly physicalLocation: { readonly artifactLocation: { readonly uri: string } } }[];
  readonly fixes?: readonly {
    readonly artifactChanges: readonly {
      readonly replacements: readonly {
        readonly deletedRegion: {
          readonly startLine: number;
          readonly startColumn: number;
          readonly endColumn: number;
        };
        readonly insertedContent: { readonly text: string };
      }[];
    }[];
  }[];
}
interface Sarif {
  readonly runs: readonly {
    readonly tool: {
      readonly driver: {
        readonly rules: readonly { readonly id: string; readonly help: { readonly markdown: string } }[];
      };
    };
    readonly results: readonly SarifResult[];
  }[];
}
const sarifOf = (text: string): Sarif => JSON.parse(text) as Sarif;

describe("SARIF", () => {
  test("valid by the published schema, every result with its rule and its page", () => {
    const text = check("sarif");
    const valid = validate(JSON.parse(text));
    expect(validate.errors ?? []).toEqual([]);
    expect(valid).toBe(true);
    const [run] = sarifOf(text).runs;
    expect(run?.results.length).toBeGreaterThan(4);
    for (const result of run?.results ?? []) {
      expect(run?.tool.driver.rules[result.ruleIndex]?.id).toBe(result.ruleId);
      expect(run?.tool.driver.rules[result.ruleIndex]?.help.markdown).toContain("## Why it matters");
    }
  });
  test("the schema can refuse: a level that there is not", () => {
    expect(validate(JSON.parse(check("sarif").replaceAll('"level": "error"', '"level": "fatal"')))).toBe(false);
  });
  test("a sample job is valid too, and its fixes are edits of single lines", () => {
    const sample = resolve(import.meta.dirname, "../../samples/bench");
    const main = resolve(import.meta.dirname, "../../server/cli/main.ts");
    const { stdout } = spawnSync(
      process.execPath,
      [main, "check", sample, "--format", "sarif", "--as-of", "2026-05-01"],
      { encoding: "utf8" },
    );
    expect(validate(JSON.parse(stdout)), JSON.stringify(validate.errors)).toBe(true);
  });
  test("a fix, applied as it says, takes the finding away", () => {
    const text =
      'shop "X"\n  money GBP\nengine-type Curlew-9\nengine C9-0412 Curlew-9\n  hours tsn 812,5 h on 2026-01-05\n';
    const one = shopFolder({ "a.gudgeon": text });
    try {
      const fixed = sarifOf(one.run("check", "--format", "sarif").out).runs[0]?.results.find(
        (result) => result.fixes !== undefined,
      );
      const replacement = fixed?.fixes?.[0]?.artifactChanges[0]?.replacements[0];
      if (!fixed || !replacement) throw new Error("no fix was offered");
      const lines = text.split("\n");
      const { startLine, startColumn, endColumn } = replacement.deletedRegion;
      const line = lines[startLine - 1] ?? "";
      lines[startLine - 1] =
        line.slice(0, startColumn - 1) + replacement.insertedContent.text + line.slice(endColumn - 1);
      writeFileSync(join(one.path, "a.gudgeon"), lines.join("\n"));
      const after = sarifOf(one.run("check", "--format", "sarif").out).runs[0]?.results ?? [];
      expect(after.map((result) => result.message.text)).not.toContain(fixed.message.text);
    } finally {
      one.remove();
    }
  });
  test("a file name comes back as it was, and no escape sequence goes out", () => {
    const text = check("sarif");
    const uris = sarifOf(text).runs.flatMap((run) =>
      run.results.flatMap((result) => result.locations.map((place) => place.physicalLocation.artifactLocation.uri)),
    );
    for (const uri of new Set(uris)) {
      expect(uri).toMatch(/^[A-Za-z0-9\-._~!$&'()*+,;=:@%/]+$/u);
      expect(new URL(uri, "file:///shop/").protocol).toBe("file:");
    }
    expect([...new Set(uris)].map((uri) => decodeURIComponent(uri).replace(/^\.\//u, ""))).toContain(NAME);
    const forbidden = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202e]/u;
    const strings: string[] = [];
    JSON.parse(text, (_key, value: unknown) => {
      if (typeof value === "string") strings.push(value);
      return value;
    });
    expect(strings.length).toBeGreaterThan(50);
    expect(strings.filter((one) => forbidden.test(one))).toEqual([]);
  });
  test.each([
    ["a.gudgeon", "a.gudgeon"],
    ["c:x", "./c%3Ax"],
    ["x/c:y", "x/c%3Ay"],
    ["100%/é", "100%25/%C3%A9"],
    ["a?b#c", "a%3Fb%23c"],
  ])("%s becomes %s", (path, uri) => {
    expect(pathAsUri(path)).toBe(uri);
  });
});

test("workflow commands: one line each, and only ours", () => {
  const lines = check("github").trimEnd().split("\n");
  expect(lines.length).toBeGreaterThan(4);
  for (const line of lines) {
    const match =
      /^::(error|warning|notice) file=([^,:]*),line=\d+,endLine=\d+,col=\d+,endColumn=\d+,title=([a-z-]+%?\/?[a-z-]+)::(.*)$/u.exec(
        line,
      );
    expect(match, line).not.toBeNull();
    // Every per cent sign begins one of the four escapes that the runner knows, or stands for itself as %25.
    expect(line.replace(/%(?:25|0D|0A|3A|2C)/gu, "")).not.toContain("%");
    expect(line).not.toMatch(/[\u0000-\u001f\u202e]/u);
  }
});

test("JUnit: well formed to a reader of XML that is not ours, text whole", () => {
  const text = check("junit");
  const read = { tags: new Set<string>(), names: new Set<string>(), cases: 0, failed: 0, tests: 0, failures: 0 };
  const parser = sax.parser(true);
  parser.onerror = (error) => {
    throw error;
  };
  parser.onopentag = ({ name, attributes }) => {
    read.tags.add(name);
    if (name === "testsuites")
      Object.assign(read, { tests: Number(attributes["tests"]), failures: Number(attributes["failures"]) });
    if (name === "testcase") {
      read.cases++;
      read.names.add(`${attributes["classname"] as string}`);
    }
    if (name === "failure") read.failed++;
  };
  parser.write(text).close();
  expect([...read.tags].sort()).toEqual(["failure", "system-out", "testcase", "testsuite", "testsuites"]);
  expect([...read.names]).toContain(NAME);
  expect(read.cases).toBe(read.tests);
  expect(read.failed).toBe(read.failures);
  expect(read.failures).toBeGreaterThan(2);
});

test("what XML cannot hold is shown, not sent", () => {
  expect(xml("a\u0000b\u001bc\ud800d\ufffe<&>\"'\n")).toBe(
    "a\\u0000b\\u001bc\\ud800d\\ufffe&lt;&amp;&gt;&quot;&apos;&#10;",
  );
});
