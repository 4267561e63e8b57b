/** The examples on the page of each rule are true: a faulty one raises the rule, a sound one does not. */
import { describe, expect, test } from "vitest";
import type { FileState } from "../../server/checking/ask.ts";
import { RULES } from "../../server/rules/index.ts";
import type { Example } from "../../server/rules/rule.ts";
import { shopOf } from "../support/shop.ts";

/** An example with lines `== name` holds several files. */
function filesOf(example: Example): Record<string, string> {
  const files: Record<string, string> = {};
  let name = "example.gudgeon";
  for (const line of example.text.split("\n")) {
    const next = /^== (.+)$/u.exec(line);
    if (next) name = next[1].trim();
    else files[name] = files[name] === undefined ? line : `${files[name]}\n${line}`;
  }
  return files;
}

/** What the host says of the files that an example names. */
function statesOf(example: Example): Record<string, FileState> {
  return Object.fromEntries(
    Object.entries(example.files ?? {}).map(([path, state]) => [
      path,
      {
        exists: state !== "missing",
        outside: state === "outside",
        size: 1,
        digest: state.startsWith("sha256:") ? state.slice("sha256:".length) : "",
      },
    ]),
  );
}

function raises(id: string, example: Example): boolean {
  const shop = shopOf(filesOf(example), {
    files: statesOf(example),
    ...(example.asOf === undefined ? {} : { asOf: example.asOf }),
  });
  expect([...shop.checker.failures]).toEqual([]);
  return shop.checker.allFindings().some((one) => one.finding.code === id);
}

describe.each(RULES.map((rule) => [rule.id, rule] as const))("%s", (id, rule) => {
  test("faulty examples raise it", () => {
    expect(rule.page.faulty.length).toBeGreaterThan(0);
    for (const example of rule.page.faulty) expect(raises(id, example), example.text).toBe(true);
  });
  test("sound examples do not", () => {
    expect(rule.page.sound.length).toBeGreaterThan(0);
    for (const example of rule.page.sound) expect(raises(id, example), example.text).toBe(false);
  });
  test("the page says what, why and what to do", () => {
    for (const text of [rule.page.what, rule.page.why, rule.page.remedy]) expect(text.length).toBeGreaterThan(20);
  });
});
