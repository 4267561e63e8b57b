/** What the two entries, Node and the browser's worker, supply differently. */
import type { Connection } from "vscode-languageserver";
import type { Files } from "./files.ts";
import type { Soon } from "./scheduler.ts";

export interface Host {
  readonly connection: Connection;
  readonly soon: Soon;
  /** Sends `textDocument/publishDiagnostics`. @param params as JSON */
  publish(params: string): void;
  /** Reads files by address, where this host can; undefined for addresses that it cannot read. */
  filesFor(root: string): Files | undefined;
  /** Today as `2026-05-02`. */
  today(): string;
  /** Milliseconds to the next midnight. */
  untilMidnight(): number;
  /** How long new findings on the line being typed on wait; for tests. */
  readonly held_ms?: number;
  readonly version: string;
  /** `Node 24.1.0`, `browser worker`: for the report. */
  readonly name: string;
}
