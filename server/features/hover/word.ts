/** What the first word of a line says, from the table of words; the rule behind a code; a quantity in the other family of units. */
import type { WordRow } from "../../../grammar/words.ts";
import { measure } from "../../quantity/compare.ts";
import { rulePage } from "../../report/rule-page.ts";
import { escapeMarkdown, type Summary } from "../../report/summary.ts";
import { inBoth, measureText } from "../../report/wording.ts";
import type { Subject } from "./context.ts";

/** Markdown: the examples are set as code. */
export function wordHover(row: WordRow): string {
  const where = row.kind === "header" ? "Opens a block." : `Stands in: ${row.blocks.join(", ")}.`;
  const also = row.also ? ` Also written ${row.also.map((word) => `\`${word}\``).join(", ")}.` : "";
  return [
    `**${escapeMarkdown(row.word)}** ${escapeMarkdown(row.says)}`,
    "",
    `${where}${also}`,
    "",
    "```gudgeon",
    ...row.examples,
    "```",
  ].join("\n");
}

export function ruleHover(code: string): string | undefined {
  const page = rulePage(code);
  if (page === undefined) return undefined;
  const end = page.indexOf("\n## Raised by");
  return (end < 0 ? page : page.slice(0, end))
    .trim()
    .replace(/^# (.*)$/mu, "**$1**")
    .replaceAll(/^## (.*)$/gmu, "*$1*");
}

/** A number with the unit behind it. @param token the number or the unit */
export function quantitySummary(subject: Subject): Summary | undefined {
  const { tokens, token, field } = subject.under;
  if (!field || field.to - field.from < 2) return undefined;
  const inField = tokens.slice(field.from, field.to);
  for (const [i, one] of inField.entries()) {
    const next = inField[i + 1];
    const here = tokens[token];
    if (!next || (here !== one && here !== next)) continue;
    const written = one.text.split("..").map((part) => measure(part, next.text));
    const first = written[0];
    if (!first || written.some((part) => part === undefined)) continue;
    const both = written.map((part) => (part ? inBoth(part) : ""));
    const other = both.some((text) => text.includes("("));
    return {
      title: both.join(" to "),
      sections: other
        ? []
        : [
            {
              heading: "",
              rows: [
                [
                  "",
                  `${measureText(first)}: a ${first.unit.dimension.replace(/^count:/u, "count of ").replaceAll("-", " ")}`,
                ],
              ],
            },
          ],
    };
  }
  return undefined;
}
