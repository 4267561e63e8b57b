/**
 * Each repair that a rule offers for the faulty examples of its page is applied to the text, and the text is checked again: nothing that could be
 * read before is broken, and the finding is gone, unless the repair only records what is still to be done.
 */
import { describe, expect, test } from "vitest";
import type { LocatedFinding } from "../../server/checking/finding.ts";
import { RULES } from "../../server/rules/index.ts";
import type { RepairEdit, Rule } from "../../server/rules/rule.ts";
import { columnsIn } from "../../server/workspace/locate.ts";
import type { BlockEntry } from "../../server/workspace/workspace.ts";
import { lineOf } from "../../server/workspace/workspace.ts";
import { type Shop, shopOf } from "../support/shop.ts";

/** Repairs that write down work to do and leave the finding open until it is done. */
const RECORDS = new Set(["limit/out-of-limit"]);

const FAMILIES = /^(syntax|name|limit|instrument|torque)\//u;

function blockOf(shop: Shop, found: LocatedFinding): BlockEntry {
  const block = shop.workspace
    .document(found.path)
    ?.blocks.find((one) => one.from <= found.line && found.line < one.to);
  if (!block) throw new Error(`no block at ${found.path}:${found.line + 1}`);
  return block;
}

/** Applies edits to the text of the finding's file, from the last line up. */
function applied(shop: Shop, found: LocatedFinding, edits: readonly RepairEdit[]): Record<string, string> {
  const block = blockOf(shop, found);
  const texts = Object.fromEntries(
    [...shop.workspace.documents].map(([path, document]) => [path, [...document.lines]]),
  );
  const lines = texts[found.path];
  const inserted = new Map<number, string[]>();
  for (const edit of edits) {
    if (edit.kind === "replace") {
      const at = lineOf(block, edit.spot.at);
      const line = lines[at];
      const { from, to } = columnsIn(line, edit.spot);
      lines[at] = line.slice(0, from) + edit.text + line.slice(to);
    } else {
      const at = edit.kind === "append" ? lastLine(lines, block) : lineOf(block, edit.at);
      const list = inserted.get(at) ?? [];
      list.push(`  ${edit.text}`);
      inserted.set(at, list);
    }
  }
  for (const [at, more] of [...inserted].sort((a, b) => b[0] - a[0])) lines.splice(at + 1, 0, ...more);
  return Object.fromEntries(Object.entries(texts).map(([path, all]) => [path, all.join("\n")]));
}

function lastLine(lines: readonly string[], block: BlockEntry): number {
  let at = block.to - 1;
  while (at > block.from && (lines[at] ?? "").trim() === "") at--;
  return at;
}

const of = (shop: Shop, id: RegExp | string): LocatedFinding[] =>
  shop.checker
    .allFindings()
    .filter((one) => (typeof id === "string" ? one.finding.code === id : id.test(one.finding.code)));

const repairing = (RULES as unknown as readonly Rule[]).filter(
  (rule) => rule.repair !== undefined && FAMILIES.test(rule.id),
);

describe.each(repairing.map((rule) => [rule.id, rule] as const))("%s", (id, rule) => {
  const cases = rule.page.faulty.flatMap((example) => {
    const shop = shopOf({ "shop.gudgeon": example.text.replace(/^== .+$/gmu, "") });
    return of(shop, id).flatMap((found) => {
      const line = shop.workspace.document(found.path)?.lines[found.line] ?? "";
      const repairs = rule.repair?.(found.finding.data, found.finding.spot, line) ?? [];
      return repairs.map((repair) => ({ shop, found, repair }));
    });
  });
  test("offers a repair for an example of its page", () => {
    expect(cases.length).toBeGreaterThan(0);
  });
  test.each(cases.map((one) => [one.repair.title, one] as const))("%s", (_, { shop, found, repair }) => {
    const next = shopOf(applied(shop, found, repair.edits));
    const errors = (one: Shop): number =>
      of(one, /^(syntax|name)\//u).filter((each) => each.finding.severity === "error").length;
    expect(errors(next)).toBeLessThanOrEqual(errors(shop));
    expect(of(next, id).length).toBeLessThan(of(shop, id).length + (RECORDS.has(id) ? 1 : 0));
  });
});
