/**
 * Tells the editor the findings of files: only those that changed, also the empty list, always with places of the text as it is now. What the editor
 * holds for a file is therefore the last thing sent for it, and after any edit it equals what a fresh run would find.
 */
import type { LocatedFinding } from "../checking/finding.ts";
import { diagnosticText, fileNote, gravest, MOST_FINDINGS } from "./diagnostics.ts";

/** What the publisher asks of the shop around it. */
export interface PublishedShop {
  findingsOf(path: string): readonly LocatedFinding[];
  /** Notes about the file as a whole, as diagnostics. */
  notesOf(path: string): readonly string[];
  uriOf(path: string): string;
  /** The version of an open document. */
  versionOf(path: string): number | undefined;
  /** Whether findings of the file are to be shown. */
  shows(path: string): boolean;
  /** The line on which new findings wait, or -1. */
  heldLine(path: string): number;
}

interface Sent {
  readonly list: string;
  /** Codes shown on each line that had findings: those stay when the line is being typed on. */
  readonly codes: ReadonlyMap<number, ReadonlySet<string>>;
  /** Other files that the findings point to. */
  readonly related: ReadonlySet<string>;
  readonly counts: Counts;
}

export interface Counts {
  readonly errors: number;
  readonly warnings: number;
  readonly notes: number;
}

const NO_COUNTS: Counts = { errors: 0, warnings: 0, notes: 0 };

export class Publisher {
  readonly #shop: PublishedShop;
  readonly #send: (params: string) => void;
  readonly #sent = new Map<string, Sent>();
  /** Files to look at, with whether the editor waits for an answer to an edit. */
  readonly #marked = new Map<string, boolean>();
  readonly #later = new Set<string>();

  /** @param send gets the parameters of `textDocument/publishDiagnostics` as JSON */
  constructor(shop: PublishedShop, send: (params: string) => void) {
    this.#shop = shop;
    this.#send = send;
  }

  /** Marks a file to be looked at. @param always sends also what did not change: an editor waits for the version */
  mark(path: string, always = false): void {
    this.#marked.set(path, always || this.#marked.get(path) === true);
  }

  /** Lines of a file moved: findings elsewhere that point into it have other places. */
  moved(path: string): void {
    for (const [other, sent] of this.#sent) if (other !== path && sent.related.has(path)) this.#later.add(other);
  }

  markAll(): void {
    for (const path of this.#sent.keys()) this.mark(path);
  }

  get pending(): boolean {
    return this.#marked.size > 0 || this.#later.size > 0;
  }

  /** Sends what is marked until `stop` says so. @returns true when nothing is left */
  flush(stop: () => boolean, only?: (path: string) => boolean): boolean {
    for (const [path, always] of this.#marked) {
      if (only && !only(path)) continue;
      if (stop()) return false;
      this.#marked.delete(path);
      this.#later.delete(path);
      this.#publish(path, always);
    }
    if (only) return true;
    for (const path of this.#later) {
      if (stop()) return false;
      this.#later.delete(path);
      this.#publish(path, false);
    }
    return true;
  }

  #publish(path: string, always: boolean): void {
    const shop = this.#shop;
    const before = this.#sent.get(path);
    const shown = shop.shows(path);
    const open = shown ? shop.findingsOf(path).filter((one) => one.quiet === undefined) : [];
    const notes = shown ? [...shop.notesOf(path)] : [];
    const held = shop.heldLine(path);
    let findings =
      held < 0
        ? open
        : open.filter((one) => one.line !== held || before?.codes.get(held)?.has(one.finding.code) === true);
    if (findings.length > MOST_FINDINGS) {
      const more = findings.length - MOST_FINDINGS;
      findings = gravest(findings, MOST_FINDINGS);
      notes.push(
        fileNote(
          "internal/more-findings",
          `${more} more findings of this file are not listed here. The gravest ${MOST_FINDINGS} are; the command lists all.`,
        ),
      );
    }
    const uriOf = (other: string) => shop.uriOf(other);
    const list = `[${[...notes, ...findings.map((one) => diagnosticText(one, uriOf))].join(",")}]`;
    if (before === undefined ? list === "[]" && !always : before.list === list && !always) return;
    if (list === "[]") this.#sent.delete(path);
    else
      this.#sent.set(path, {
        list,
        codes: codesByLine(findings),
        related: relatedPaths(findings),
        counts: countsOf(findings, notes.length),
      });
    const version = shop.versionOf(path);
    this.#send(
      `{"uri":${JSON.stringify(shop.uriOf(path))}${version === undefined ? "" : `,"version":${version}`},"diagnostics":${list}}`,
    );
  }

  /** Takes back everything: the shop is no longer looked at. */
  clear(): void {
    this.#marked.clear();
    this.#later.clear();
    for (const path of this.#sent.keys())
      this.#send(`{"uri":${JSON.stringify(this.#shop.uriOf(path))},"diagnostics":[]}`);
    this.#sent.clear();
  }

  /** How much the editor shows. */
  get counts(): Counts {
    let { errors, warnings, notes } = NO_COUNTS;
    for (const sent of this.#sent.values()) {
      errors += sent.counts.errors;
      warnings += sent.counts.warnings;
      notes += sent.counts.notes;
    }
    return { errors, warnings, notes };
  }
}

function codesByLine(findings: readonly LocatedFinding[]): Map<number, Set<string>> {
  const codes = new Map<number, Set<string>>();
  for (const one of findings) {
    const set = codes.get(one.line);
    if (set) set.add(one.finding.code);
    else codes.set(one.line, new Set([one.finding.code]));
  }
  return codes;
}

function relatedPaths(findings: readonly LocatedFinding[]): Set<string> {
  const paths = new Set<string>();
  for (const one of findings) for (const other of one.related) paths.add(other.path);
  return paths;
}

function countsOf(findings: readonly LocatedFinding[], fileNotes: number): Counts {
  let errors = 0;
  let warnings = fileNotes;
  let notes = 0;
  for (const { severity } of findings) {
    if (severity === "error") errors++;
    else if (severity === "warning") warnings++;
    else notes++;
  }
  return { errors, warnings, notes };
}
