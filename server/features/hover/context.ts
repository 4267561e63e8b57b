/** What every subject of a hover may look at. */
import type { Ask } from "../../checking/ask.ts";
import type { Summary } from "../../report/summary.ts";
import type { Context } from "../feature.ts";
import type { NameAt } from "../names.ts";
import type { UnderCursor } from "../under-cursor.ts";

export interface Subject {
  readonly ctx: Context;
  readonly ask: Ask;
  readonly under: UnderCursor;
  /** The job, or `engine:` and the engine, of the line; `""` outside any. */
  readonly scope: string;
}

/** Says what it can about a name; undefined where nothing is known. */
export type About = (name: NameAt, subject: Subject) => Summary | undefined;
