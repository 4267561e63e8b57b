import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { Checker } from "../../server/checking/checker.ts";
import { answerSignatures } from "../../server/cli/shop.ts";
import { fileState } from "../../server/host/shop-files.ts";
import { RULES } from "../../server/rules/index.ts";
import { Workspace } from "../../server/workspace/workspace.ts";
import { day } from "../support/shop.ts";
import { lineMix } from "./line-mix.ts";
import { generateShop, SAMPLES, writeShop } from "./shop-generator.ts";

/** Rules that need not be raised here, with the reason: everything else must be. */
const NOT_HERE: Readonly<Record<string, string>> = {
  "shop/none-declared": "speaks of a folder without a shop block, and this shop has one",
};
/** Rules on the content of a logger's file: a host reads it, and this test hands over no more than that the file is there. */
const OF_FILE_CONTENT = /^run\/csv-/u;

const shop = generateShop(20_000, 40);

describe("the generated shop", () => {
  test("has about as many lines and files as were asked for", () => {
    expect(Math.abs(shop.lines - 20_000)).toBeLessThan(1_500);
    expect(Math.abs(shop.files.size - 40)).toBeLessThan(6);
    expect(generateShop(20_000, 1).files.size).toBe(1);
    expect(Math.abs(generateShop(1_000, 8, { faulty: false }).lines - 1_000)).toBeLessThan(100);
  });

  test("keeps the clean sample's mix of line kinds within 5 points", () => {
    const clean = join(SAMPLES, "clean");
    const sample = lineMix(
      readdirSync(clean)
        .filter((name) => name.endsWith(".gudgeon"))
        .map((name) => readFileSync(join(clean, name), "utf8")),
    );
    const made = lineMix(shop.files.values());
    expect(sample.size).toBeGreaterThan(50);
    const far = [...new Set([...sample.keys(), ...made.keys()])]
      .map((kind) => ({ kind, sample: sample.get(kind) ?? 0, made: made.get(kind) ?? 0 }))
      .filter((one) => Math.abs(one.sample - one.made) >= 5);
    expect(far).toEqual([]);
  });

  test("has about one broken line in a thousand", () => {
    expect(shop.broken).toBeGreaterThan(shop.lines / 1_500);
    expect(shop.broken).toBeLessThan(shop.lines / 900);
  });

  test("is the same each time", () => {
    expect(generateShop(5_000, 20).files).toEqual(generateShop(5_000, 20).files);
  });
});

describe("checked from disk", () => {
  let folder = "";
  const raised = new Map<string, number>();
  let failures: ReadonlyMap<string, string> = new Map();

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), "gudgeon-bench-"));
    writeShop(shop, folder);
    const workspace = new Workspace();
    for (const [path, text] of shop.files) workspace.setText(path, text);
    const checker = new Checker(workspace, { asOf: day("2026-05-02"), recording: false });
    for (const path of checker.filesNamed()) checker.setFile(path, await fileState(folder, path));
    await answerSignatures(checker, folder, checker.signaturesNamed());
    checker.sweep();
    for (const { finding } of checker.allFindings()) raised.set(finding.code, (raised.get(finding.code) ?? 0) + 1);
    failures = checker.failures;
  });

  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  test("raises every rule, except those named here", () => {
    const missing = RULES.map((rule) => rule.id).filter((id) => !raised.has(id));
    expect(missing.filter((id) => !(id in NOT_HERE) && !OF_FILE_CONTENT.test(id))).toEqual([]);
    expect(missing).toContain("shop/none-declared");
    expect(RULES.length - missing.length).toBeGreaterThan(100);
  });

  test("makes no rule fail", () => {
    expect([...failures]).toEqual([]);
    expect(raised.has("internal/rule-failed")).toBe(false);
  });

  test("is mostly sound: fewer than one finding in 25 lines", () => {
    const findings = [...raised.values()].reduce((sum, count) => sum + count, 0);
    expect(findings).toBeGreaterThan(RULES.length);
    expect(findings).toBeLessThan(shop.lines / 25);
  });
});
