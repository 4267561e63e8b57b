/** What completion knows of the place where somebody types. */
import type { Ask } from "../../checking/ask.ts";
import type { Block, WorkBlock } from "../../facts/types.ts";
import type { CivilDate } from "../../quantity/civil-date.ts";
import type { Completion, Range } from "../feature.ts";
import type { ReadLine } from "../under-cursor.ts";

export interface Typing {
  readonly ask: Ask;
  /** The line up to the word that is being typed. */
  readonly before: ReadLine;
  /** What is typed of the word so far. */
  readonly typed: string;
  /** From the beginning of that word to the cursor. */
  readonly range: Range;
  /** The block in which the line stands; undefined in an empty file. */
  readonly block: Block | undefined;
  readonly work: WorkBlock | undefined;
  /** The job, or `engine:` and the engine; `""` outside any. */
  readonly scope: string;
  /** The engine's type, `""` where it is not known. */
  readonly type: string;
  /** The day of the block, or as of which the shop is judged. */
  readonly day: CivilDate;
  /** Lines of the file and which of them is typed in: for tables. */
  readonly lines: readonly string[];
  readonly line: number;
  readonly blockFrom: number;
}

type Offered = Partial<Omit<Completion, "range">> & Pick<Completion, "label" | "kind">;

/**
 * One proposal.
 * @param rank those with a smaller one come first; within a rank they stay in the order in which they are given
 */
export function offer(typing: Pick<Typing, "range">, one: Offered, rank: number, order = 0): Completion {
  return {
    insert: one.label,
    snippet: false,
    detail: "",
    documentation: "",
    ...one,
    range: typing.range,
    sort: `${String(rank).padStart(2, "0")}${String(order).padStart(5, "0")}`,
  };
}

/** Text within a snippet that stands for itself. */
export function literal(text: string): string {
  return text.replace(/[\\$}]/gu, "\\$&");
}

/** The text of a captured role in what is typed already; `""` where it is not there. */
export function typedRole(before: ReadLine, role: string): string {
  const field = before.plan.fields.find((one) => one.role === role);
  return field ? before.text.slice(before.tokens[field.from]?.from ?? 0, before.tokens[field.to - 1]?.to ?? 0) : "";
}
