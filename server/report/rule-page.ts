/** The page of a rule, as Markdown: for `gudgeon explain`, for the link behind a diagnostic, and for the index of rules. */
import { nearest } from "../../grammar/nearest.ts";
import { RULES } from "../rules/index.ts";
import type { AnyRule, Example } from "../rules/rule.ts";

const byId = new Map(RULES.map((rule) => [rule.id, rule]));

function example(one: Example): string {
  const asOf = one.asOf === undefined ? "" : `\nAs of ${one.asOf}:\n`;
  return `${asOf}\n\`\`\`gudgeon\n${one.text.trim()}\n\`\`\`\n`;
}

/** @returns undefined for a code that no rule has */
export function rulePage(code: string): string | undefined {
  const rule = byId.get(code);
  return rule && pageOf(rule);
}

export function pageOf(rule: AnyRule): string {
  const { page } = rule;
  return [
    `# ${rule.id}`,
    "",
    `Severity: ${rule.severity}`,
    "",
    page.what,
    "",
    "## Why it matters",
    "",
    page.why,
    "",
    "## What to do",
    "",
    page.remedy,
    "",
    "## Raised by",
    ...page.faulty.map(example),
    "## Not raised by",
    ...page.sound.map(example),
    "Gudgeon checks records; it never says that an engine is fit to run. People with the authority decide and sign.",
  ].join("\n");
}

/** Codes that are spelled nearly like this one, or whose last part is the same word. */
export function nearestRules(code: string): string[] {
  const ids = RULES.map((rule) => rule.id);
  const sameEnd = ids.filter((id) => id.endsWith(`/${code}`));
  return [...new Set([...sameEnd, ...nearest(code, ids, 4)])].slice(0, 3);
}

/** Every code with the sentence that says what it reports. */
export function ruleCodes(): readonly (readonly [code: string, what: string])[] {
  return RULES.map((rule) => [rule.id, rule.page.what]);
}
