/** Opens the page of the rule behind a finding: what, why, what to do. */
import type { Action } from "./context.ts";

export const explain: Action = ({ findings }) => {
  const seen = new Set<string>();
  return findings.flatMap((found) => {
    const { code } = found.finding;
    if (found.finding.rule === undefined || seen.has(code)) return [];
    seen.add(code);
    return [
      {
        title: `Explain ${code}`,
        grade: "review" as const,
        kind: "quickfix" as const,
        edits: {},
        finding: found,
        opens: code,
      },
    ];
  });
};
