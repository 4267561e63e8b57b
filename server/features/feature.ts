/**
 * What all editor features share. A feature is a pure function from the checked workspace and a place in it to plain data; only `server/lsp`
 * turns that into a protocol. Lines and characters count from 0; characters are UTF-16 units.
 */
import type { Checker } from "../checking/checker.ts";
import type { LocatedFinding } from "../checking/finding.ts";

export interface Position {
  readonly line: number;
  readonly character: number;
}
export interface Range {
  readonly start: Position;
  readonly end: Position;
}
export interface Location {
  readonly path: string;
  readonly range: Range;
}
export interface TextEdit {
  readonly range: Range;
  readonly text: string;
}
/** Edits by path. */
export type WorkspaceEdits = Readonly<Record<string, readonly TextEdit[]>>;

/** What a feature may look at. */
export interface Context {
  readonly checker: Checker;
}

export interface Hover {
  readonly range: Range;
  readonly markdown: string;
}

export interface Completion {
  readonly label: string;
  readonly kind: "word" | "name" | "place" | "unit" | "value" | "snippet" | "text";
  /** What is inserted instead of `range`; with `$1`, `${1:?}` stops when `snippet` is set. */
  readonly insert: string;
  readonly snippet: boolean;
  readonly range: Range;
  readonly detail: string;
  readonly documentation: string;
  readonly sort: string;
}

export interface Symbol {
  readonly name: string;
  readonly detail: string;
  /** The kind of block, or the word of the line. */
  readonly kind: string;
  readonly path: string;
  readonly range: Range;
  readonly selection: Range;
  readonly children: readonly Symbol[];
}

export interface CodeAction {
  readonly title: string;
  /** "safe" repairs may be applied to a whole file at once; the others are offered one by one. */
  readonly grade: "safe" | "review";
  readonly kind: "quickfix" | "refactor";
  readonly edits: WorkspaceEdits;
  /** The finding that it repairs. */
  readonly finding: LocatedFinding | undefined;
  /** A command of the client instead of edits: open the page of a rule. */
  readonly opens?: string;
}

export interface Folding {
  readonly start: number;
  readonly end: number;
  readonly kind: "block" | "table" | "comment";
}

export interface DocumentLink {
  readonly range: Range;
  /** A path within the workspace. */
  readonly path: string;
  readonly line: number | undefined;
  readonly tooltip: string;
}

export interface Highlight {
  readonly range: Range;
  readonly kind: "write" | "read";
}
