/**
 * The language reference: prose, then a section for every block with every line that may stand in it, generated from the table of words.
 */
import { TYPES_IN_WORDS } from "./expect.ts";
import { COMPOSITES, type Form, formOf } from "./form.ts";
import { KEYWORDS } from "./tokens.ts";
import { ROW_FORM, WORDS, type WordRow } from "./words.ts";

/** A capture in the notation of the reference: its role in capitals. */
function capital(role: string): string {
  return role.toUpperCase();
}

/** A form in the notation of the reference. */
export function notation(form: Form): string {
  switch (form.kind) {
    case "keyword":
      return form.word;
    case "capture":
      return capital(form.role);
    case "choice":
      return form.words.length === 1 ? form.words[0] : `(${form.words.join(" | ")})`;
    case "sequence":
      return form.parts
        .map((part) => notation(part))
        .join(" ")
        .replaceAll(/ ([,;])/gu, "$1");
    case "option":
      return `[${notation(form.body)}]`;
    case "either":
      return `(${form.arms.map(notation).join(" | ")})`;
    case "repeat": {
      const body = notation(form.body);
      if (!form.atLeastOne) return `[${body}]...`;
      return form.body.kind === "capture" ? `${body}...` : form.body.kind === "either" ? `${body}...` : `(${body})...`;
    }
    case "set": {
      const arms = form.arms.map(notation);
      if (arms.length === 1 && !form.atLeastOne) return `[${arms[0]}]`;
      return `{ ${arms.join(" | ")} }${form.atLeastOne ? "+" : ""}`;
    }
  }
}

/** Every captured role of a form with what it is, in order, roles of one type together. */
function legend(form: Form): string[] {
  const rolesByType = new Map<string, string[]>();
  const walk = (part: Form): void => {
    if (part.kind === "capture") {
      const roles = rolesByType.get(part.type) ?? [];
      if (!roles.includes(capital(part.role))) roles.push(capital(part.role));
      rolesByType.set(part.type, roles);
    } else if (part.kind === "sequence") for (const one of part.parts) walk(one);
    else if (part.kind === "option" || part.kind === "repeat") walk(part.body);
    else if (part.kind === "either" || part.kind === "set") for (const arm of part.arms) walk(arm);
  };
  walk(form);
  return [...rolesByType].map(
    ([type, roles]) =>
      `${roles.map((role) => `\`${role}\``).join(", ")}: ${TYPES_IN_WORDS[type as keyof typeof TYPES_IN_WORDS]}`,
  );
}

/** The form of a row with its first word, `word NAME [until DATE]`. */
function wholeForm(row: WordRow): string {
  if (row.word === "note") return "note any text";
  const rest = notation(formOf(row.form));
  return rest === "" ? row.word : `${row.word} ${rest}`;
}

function section(row: WordRow, depth: string): string {
  const parts = [`${depth} ${row.word}`, row.says];
  parts.push(`\`\`\`text\n${wholeForm(row)}\n\`\`\``);
  const meanings = legend(formOf(row.form));
  if (meanings.length > 0) parts.push(meanings.map((meaning) => `- ${meaning}`).join("\n"));
  if (row.also) parts.push(`Also spelt ${row.also.map((word) => `\`${word}\``).join(", ")}.`);
  if (row.opensTable) parts.push("Rows of a [table](#tables) may follow.");
  parts.push(`\`\`\`gudgeon\n${row.examples.join("\n")}\n\`\`\``);
  return parts.join("\n\n");
}

function blocks(): string {
  const parts: string[] = [];
  const described = new Map<string, string>();
  for (const header of WORDS) {
    if (header.kind !== "header") continue;
    parts.push(section(header, "##"));
    const elsewhere: string[] = [];
    for (const row of WORDS) {
      if (!(row.blocks as readonly string[]).includes(header.word)) continue;
      if (described.has(row.word)) {
        elsewhere.push(`[\`${row.word}\`](#${row.word})`);
        continue;
      }
      described.set(row.word, header.word);
      parts.push(section(row, "###"));
    }
    if (elsewhere.length > 0) parts.push(`Also in \`${header.word}\`: ${elsewhere.join(", ")}.`);
  }
  return parts.join("\n\n");
}

const NOTATION = `# The lines

How the forms are written: small letters are keywords, to be typed as they stand; capitals stand for what you fill in, and are explained below the form.

| written       | means                                        |
| ------------- | -------------------------------------------- |
| \`[x]\`         | x may be left out                            |
| \`[x]...\`      | x as often as needed, or not at all          |
| \`x...\`        | x once or more                               |
| \`(a \\| b)\`    | one of them                                  |
| \`{ a \\| b }\`  | any of them, in any order, each at most once |
| \`{ a \\| b }+\` | the same, but at least one                   |

Blocks of the reference side come first (what the records are checked against), then those of the record side (what happened). A line that may stand in several
blocks is described in the first of them.`;

function parts(): string {
  const types = Object.entries(COMPOSITES)
    .filter(([type]) => type === "formula" || type === "need" || type === "bounds" || type === "value")
    .map(
      ([type, form]) =>
        `- ${TYPES_IN_WORDS[type as keyof typeof TYPES_IN_WORDS]}:\n\n  \`\`\`text\n  ${notation(formOf(form))}\n  \`\`\``,
    );
  return `# Parts of lines

Some things that lines hold have a form of their own.

${types.join("\n")}

In a formula \`-\`, \`+\` and \`*\` have blanks around them. \`greatest\`, \`least\` and \`mean\` take a figure of several readings of one place.

The row of a table:

\`\`\`text
${notation(formOf(ROW_FORM))}
\`\`\`

## All keywords

${[...KEYWORDS]
  .sort()
  .map((word) => `\`${word}\``)
  .join(" ")}`;
}

/**
 * The whole reference.
 * @param prose what holds for all lines, in Markdown: the text of `reference-prose.md`
 */
export function languageReference(prose: string): string {
  const head = "<!-- Written by `npm run generate` from reference-prose.md and words.ts. -->\n\n# The Gudgeon language";
  return `${[head, prose.trim(), NOTATION, blocks(), parts()].join("\n\n")}\n`;
}
