/** The repairs that the rules themselves offer for their findings. */
import type { LocatedFinding } from "../../checking/finding.ts";
import type { Repair, Spot } from "../../rules/rule.ts";
import type { BlockEntry } from "../../workspace/workspace.ts";
import { editsOf } from "../edits.ts";
import type { Action } from "./context.ts";

type Repairing = { readonly repair?: (data: unknown, spot: Spot, line: string) => readonly Repair[] };

/** Repairs of a finding. A rule that fails over half-typed text offers none. */
export function repairsOf(found: LocatedFinding, entry: BlockEntry): readonly Repair[] {
  const rule = found.finding.rule as unknown as Repairing | undefined;
  try {
    return rule?.repair?.(found.finding.data, found.finding.spot, entry.document.lines[found.line] ?? "") ?? [];
  } catch {
    return [];
  }
}

export const repairs: Action = ({ path, findings, ctx }) =>
  findings.flatMap((found) => {
    const entry =
      ctx.checker.entryOf(found.finding.ref) ??
      ctx.checker.workspace.document(path)?.blocks.find((block) => found.line >= block.from && found.line < block.to);
    if (!entry || entry.document.path !== path) return [];
    return repairsOf(found, entry).flatMap((repair) => {
      const edits = editsOf(entry, repair);
      return edits
        ? [
            {
              title: repair.title,
              grade: repair.grade,
              kind: "quickfix" as const,
              edits: { [path]: edits },
              finding: found,
            },
          ]
        : [];
    });
  });
