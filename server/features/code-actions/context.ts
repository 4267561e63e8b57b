/** What an action may look at, and the shape of one. */
import type { Ask } from "../../checking/ask.ts";
import type { LocatedFinding } from "../../checking/finding.ts";
import type { WorkBlock } from "../../facts/types.ts";
import type { BlockEntry } from "../../workspace/workspace.ts";
import type { CodeAction, Context, Range, TextEdit } from "../feature.ts";

export interface Selected {
  readonly ctx: Context;
  readonly ask: Ask;
  readonly path: string;
  readonly range: Range;
  readonly entry: BlockEntry;
  readonly work: WorkBlock | undefined;
  /** The job, or `engine:` and the engine; `""` outside any. */
  readonly scope: string;
  readonly type: string;
  /** Open findings on the lines of the selection, those under the cursor first. */
  readonly findings: readonly LocatedFinding[];
}

export type Action = (selected: Selected) => CodeAction[];

/** An action that nobody's finding asks for. */
export function refactor(
  path: string,
  title: string,
  edits: readonly TextEdit[],
  finding?: LocatedFinding,
): CodeAction[] {
  return edits.length === 0
    ? []
    : [{ title, grade: "review", kind: finding ? "quickfix" : "refactor", edits: { [path]: edits }, finding }];
}
