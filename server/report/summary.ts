/** Sums about one thing, as headings and lines: shown in hovers and printed by the command, always from the same figures. */

export interface SummarySection {
  readonly heading: string;
  /** `label: value` lines; an empty label is a plain line. */
  readonly rows: readonly (readonly [label: string, value: string])[];
}

export interface Summary {
  readonly title: string;
  readonly sections: readonly SummarySection[];
}

/** For hovers. Text from records is escaped, so that nothing in a name turns into a link or a picture. */
export function toMarkdown(summary: Summary): string {
  const out = [`**${escapeMarkdown(summary.title)}**`];
  for (const { heading, rows } of summary.sections) {
    if (rows.length === 0) continue;
    if (heading !== "") out.push("", `*${escapeMarkdown(heading)}*`);
    out.push("");
    for (const [label, value] of rows)
      out.push(`- ${label === "" ? "" : `${escapeMarkdown(label)}: `}${escapeMarkdown(value)}`);
  }
  return out.join("\n");
}

export function escapeMarkdown(text: string): string {
  return text.replace(/[\\`*_{}[\]()<>#|!~]/gu, "\\$&");
}

/** For the terminal: labels in a column. */
export function toText(summary: Summary): string {
  const out = [summary.title];
  for (const { heading, rows } of summary.sections) {
    if (rows.length === 0) continue;
    if (heading !== "") out.push(`  ${heading}`);
    const width = Math.min(34, Math.max(0, ...rows.map(([label]) => label.length)));
    for (const [label, value] of rows) out.push(label === "" ? `    ${value}` : `    ${label.padEnd(width)}  ${value}`);
  }
  return out.join("\n");
}
