/**
 * The shape of a rule. A rule is one file, named for what it reports: its page, its question, its wording and its repair.
 */
import type { BlockKind } from "../../grammar/words.ts";
import type { Ask } from "../checking/ask.ts";
import type { At, Block, Severity } from "../facts/types.ts";

/** Where in its line a finding points: a captured role of the form (`value`, `person`), a cell of a table row, or columns. */
export interface Spot {
  readonly at: At;
  readonly role?: string;
  /** Which of several fields of that role (0 the first). */
  readonly nth?: number;
  /** Cell of a table row, 0 the first after the label. */
  readonly cell?: number;
  /** Columns within the line, where they are known (spelling). */
  readonly from?: number;
  readonly to?: number;
}

/** Another place that belongs to the finding: the limit's line, the instrument, the earlier entry. */
export interface Related {
  /** `ref` of the block in which it stands. */
  readonly ref: string;
  readonly spot: Spot;
  readonly says: string;
}

export interface ReportExtras {
  readonly related?: readonly Related[];
  /** The place that the finding is about, as `feature[path]`: acceptances and superseding go by it. */
  readonly place?: string;
  /** Lowers or raises this one finding below or above the rule's own severity. */
  readonly severity?: Severity;
  /** "unnecessary" greys the text out where the editor can, "deprecated" strikes it through. */
  readonly tag?: "unnecessary" | "deprecated";
}

/** A change of text that repairs a finding. Lines are named as `at` of the finding's own block. */
export interface Repair {
  readonly title: string;
  /** "safe" repairs may be applied to a whole file at once; "review" ones one by one. */
  readonly grade: "safe" | "review";
  readonly edits: readonly RepairEdit[];
}
export type RepairEdit =
  | { readonly kind: "replace"; readonly spot: Spot; readonly text: string }
  /** A new line below the line named (indentation is added). */
  | { readonly kind: "insert-after"; readonly at: At; readonly text: string }
  /** A new line at the end of the block. */
  | { readonly kind: "append"; readonly text: string };

export interface Example {
  /** Files are separated by lines `== name.gudgeon`, a data logger's file by one such as `== runs/R1.csv`; without one it is one file. */
  readonly text: string;
  /** Civil date on which the example is checked; 2026-05-01 when missing. */
  readonly asOf?: string;
  /** What the host finds of files that the example names: `missing`, `outside`, or `sha256:` and 64 hex digits. Files that are not listed are there. */
  readonly files?: Readonly<Record<string, string>>;
}

export interface Page {
  readonly what: string;
  readonly why: string;
  readonly remedy: string;
  /** Each raises this rule at least once. */
  readonly faulty: readonly Example[];
  /** None raises this rule. */
  readonly sound: readonly Example[];
}

export type Report<D> = (spot: Spot, data: D, extras?: ReportExtras) => void;

/** The block of a kind. Entries, runs, releases and dispatches share one shape, whose kind is any of the four. */
export type BlockOf<K extends Block["kind"]> = K extends unknown
  ? Block extends infer B
    ? B extends { readonly kind: infer Kinds }
      ? K extends Kinds
        ? B
        : never
      : never
    : never
  : never;

export interface Rule<K extends Block["kind"] = Block["kind"], D = unknown> {
  /** `family/what`: equals the path of the file. Permanent. */
  readonly id: string;
  readonly severity: Severity;
  /** Kinds of block on which the rule is asked. */
  readonly on: readonly K[];
  /**
   * Members of the block that the rule looks at (property names of the block's facts). When all of them are empty or missing the rule is not
   * called; when none of them changed its findings are kept. Leave out to be called for each block of the kind on every change of it.
   */
  readonly reads?: readonly string[];
  /** Second stage: asks for findings of a job, and is asked after all others. */
  readonly second?: boolean;
  readonly page: Page;
  /** Pure, synchronous; must not throw on half-typed text. */
  check(block: BlockOf<K>, ask: Ask, report: Report<D>): void;
  /** The message: what is wrong with the figures, why it matters, what to do; one to three short sentences. */
  say(data: D): string;
  /** @param data as reported; @param line the text of the finding's line */
  repair?(data: D, spot: Spot, line: string): readonly Repair[];
}

/** Gives a rule its types; does nothing else. */
export function rule<K extends Block["kind"], D>(one: Rule<K, D>): Rule<K, D> {
  return one;
}

export type AnyRule = Rule<never, never>;

export type { BlockKind };
