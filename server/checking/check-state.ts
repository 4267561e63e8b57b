/** What the sweep keeps of each block between two edits. */
import type { BlockEntry } from "../workspace/workspace.ts";
import type { Asker } from "./fact-index.ts";
import type { Finding } from "./finding.ts";
import type { Dep } from "./questions.ts";
import type { LooseRule } from "./rule-table.ts";

/** A rule on a block: what it found and what it asked. Kept only where there is something to keep. */
export interface CheckNode extends Asker {
  readonly entry: BlockEntry;
  readonly rule: LooseRule;
  deps: Dep[];
  findings: readonly Finding[];
  ranAt: number;
}

export interface EntryState {
  readonly nodes: Map<LooseRule, CheckNode>;
  /** Rules to run whatever they asked: the block is new or its own lines changed. */
  own: "all" | Set<LooseRule> | undefined;
  job: string;
  /** What its rules found, in one list; made again when one of them finds something else. */
  found: readonly Finding[] | undefined;
}

/** All findings of a block, kept until one of its rules finds something else. */
export function allFound(state: EntryState): readonly Finding[] {
  if (state.found === undefined) {
    const found: Finding[] = [];
    for (const node of state.nodes.values()) found.push(...node.findings);
    state.found = found;
  }
  return state.found;
}
