import type { Severity } from "../facts/types.ts";
import type { AnyRule, Related, Spot } from "../rules/rule.ts";

/** What a rule reported, before it has a place in a file. */
export interface Finding {
  readonly code: string;
  readonly rule: AnyRule | undefined;
  /** The rule's own severity, or the one it gave this finding. */
  readonly severity: Severity;
  /** Block in which it stands. */
  readonly ref: string;
  readonly job: string;
  readonly spot: Spot;
  readonly message: string;
  readonly data: unknown;
  readonly related: readonly Related[];
  readonly place: string;
  readonly tag: "unnecessary" | "deprecated" | undefined;
}

/** Why a finding is not shown among the open ones. */
export interface Quiet {
  /** Accepted by a line that holds: in which block, by whom. */
  readonly acceptedIn: string;
  readonly acceptedBy: string;
  readonly reason: string;
}

/** A finding with what the shop and its people made of it. */
export interface Judged {
  readonly finding: Finding;
  /** After the shop's own settings; "off" findings are left out before. */
  readonly severity: Severity;
  readonly quiet: Quiet | undefined;
}

/** A finding with its place in a file. Lines and columns count from 0; columns are UTF-16 units. */
export interface LocatedFinding extends Judged {
  readonly path: string;
  readonly line: number;
  readonly from: number;
  readonly to: number;
  readonly related: readonly {
    readonly path: string;
    readonly line: number;
    readonly from: number;
    readonly to: number;
    readonly says: string;
  }[];
}

export const SEVERITIES: readonly Severity[] = ["error", "warning", "information", "hint"];

/** Stands where a rule broke down on a block: nothing else of the block is lost, and the person is told. */
export function ruleFailed(rule: string, message: string, ref: string, job: string): Finding {
  return {
    code: "internal/rule-failed",
    rule: undefined,
    severity: "warning",
    ref,
    job,
    spot: { at: 0 },
    data: undefined,
    related: [],
    place: "",
    tag: undefined,
    message: `The rule ${rule} could not judge this block (${message}). All other rules did; please report this with the block.`,
  };
}
