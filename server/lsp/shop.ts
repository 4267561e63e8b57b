/**
 * One shop: the folder that the editor has open, its records as checked, and its documents as the editor has them. A failure of the checker costs its
 * state and nothing else: it is built again from the lines.
 */

import type { RunTableRequest, RunTableState, SignatureRequest, SignatureState } from "../checking/ask.ts";
import { Checker } from "../checking/checker.ts";
import type { LocatedFinding } from "../checking/finding.ts";
import type { CivilDate } from "../quantity/civil-date.ts";
import type { FileState } from "../workspace/ports.ts";
import { type Change, Workspace } from "../workspace/workspace.ts";
import { fileNote } from "./diagnostics.ts";
import { HoldBack } from "./hold-back.ts";
import { Publisher } from "./publisher.ts";
import { applyLineEdit, type ContentChange, lineEditOf, linesOf } from "./text-lines.ts";
import { pathBelow, plainUri, uriBelow } from "./uris.ts";

export interface OpenDocument {
  readonly uri: string;
  version: number;
  /** Changed since it was opened or saved. */
  edited: boolean;
  readonly lines: string[];
}

/** What a shop asks of the server around it. */
export interface ShopPorts {
  send(params: string): void;
  /** There is something to check or to publish. */
  wake(): void;
  /** A failure that was contained. */
  failed(what: string, error: unknown): void;
  showsAll(): boolean;
  readonly held_ms?: number;
}

export class Shop {
  /** Address of the folder as the editor wrote it. */
  readonly root: string;
  readonly plainRoot: string;
  /** False for the folder of a document that belongs to no open folder. */
  readonly isFolder: boolean;
  readonly open = new Map<string, OpenDocument>();
  readonly publisher: Publisher;
  readonly hold: HoldBack;
  /** Records are being read: nothing is checked before all are there, since a half-read shop looks full of mistakes. */
  loaded = false;
  readonly #ports: ShopPorts;
  #asOf: CivilDate;
  #workspace = new Workspace();
  #checker: Checker;
  readonly #notes = new Map<string, string>();
  /** State of the named files that the host has looked at. */
  readonly fileStates = new Map<string, FileState>();
  /** Failures since the last edit: a checker that fails right after being rebuilt is left alone until the text changes. */
  #failuresInARow = 0;

  constructor(root: string, isFolder: boolean, asOf: CivilDate, ports: ShopPorts) {
    this.root = root;
    this.plainRoot = plainUri(root);
    this.isFolder = isFolder;
    this.#asOf = asOf;
    this.#ports = ports;
    this.#checker = new Checker(this.#workspace, { asOf });
    this.hold = new HoldBack((path) => {
      this.publisher.mark(path);
      ports.wake();
    }, ports.held_ms);
    this.publisher = new Publisher(
      {
        findingsOf: (path) => this.#findingsOf(path),
        notesOf: (path) => this.#notesOf(path),
        uriOf: (path) => this.uriOf(path),
        versionOf: (path) => this.open.get(path)?.version,
        shows: (path) => this.open.has(path) || ports.showsAll(),
        heldLine: (path) => this.hold.lineIn(path),
      },
      (params) => ports.send(params),
    );
  }

  get checker(): Checker {
    return this.#checker;
  }

  get workspace(): Workspace {
    return this.#workspace;
  }

  /** True when the checker failed again after it was built anew. */
  get givenUp(): boolean {
    return this.#failuresInARow > 1;
  }

  pathOf(uri: string): string | undefined {
    return pathBelow(this.plainRoot, uri);
  }

  uriOf(path: string): string {
    return this.open.get(path)?.uri ?? uriBelow(this.root, path);
  }

  #findingsOf(path: string): readonly LocatedFinding[] {
    try {
      return this.#checker.findingsOf(path);
    } catch (error) {
      this.#rebuild("listing findings", error);
      return [];
    }
  }

  #notesOf(path: string): readonly string[] {
    const note = this.#notes.get(path);
    return note === undefined ? [] : [note];
  }

  // ---- text ---------------------------------------------------------------------------------------------------------------------

  openText(path: string, uri: string, version: number, text: string): void {
    this.open.set(path, { uri, version, edited: false, lines: linesOf(text) });
    this.#take(path, "opening a file", () => this.#workspace.setText(path, text));
    this.publisher.mark(path, true);
  }

  /**
   * @returns the line on which a person may go on typing, or undefined when the change is larger than what one types
   * @throws Error when the document is not open
   */
  editText(path: string, version: number, changes: readonly ContentChange[]): number | undefined {
    const document = this.open.get(path);
    if (!document) throw new Error(`a change of ${path}, which is not open`);
    let typedOn: number | undefined;
    for (const change of changes) {
      const edit = lineEditOf(document.lines, change);
      applyLineEdit(document.lines, edit);
      if (change.range === undefined)
        this.#take(path, "an edit", () => this.#workspace.setText(path, document.lines.join("\n")));
      else this.#take(path, "an edit", () => this.#workspace.edit(path, edit.from, edit.count, edit.lines));
      const small = changes.length === 1 && change.range !== undefined && edit.count === 1 && edit.lines.length <= 2;
      typedOn = small ? edit.from + edit.lines.length - 1 : undefined;
    }
    document.version = version;
    document.edited = true;
    this.publisher.mark(path, true);
    this.publisher.moved(path);
    return typedOn;
  }

  closeText(path: string): void {
    this.open.delete(path);
    this.publisher.mark(path);
  }

  /** Text of a file that is not open. */
  setText(path: string, text: string): void {
    this.#notes.delete(path);
    this.#take(path, "reading a file", () => this.#workspace.setText(path, text));
    this.publisher.mark(path);
    this.publisher.moved(path);
  }

  /** A file that is there and cannot be read. */
  setUnreadable(path: string, reason: string): void {
    this.remove(path);
    this.#notes.set(path, fileNote("internal/not-read", `This file is not checked: ${reason}.`));
  }

  remove(path: string): void {
    this.#notes.delete(path);
    this.#take(path, "removing a file", () => this.#workspace.remove(path));
    this.publisher.mark(path);
    this.publisher.moved(path);
  }

  #take(path: string, what: string, change: () => Change): void {
    this.#failuresInARow = 0;
    try {
      this.#checker.apply(change());
      this.#checker.touchPath(path);
    } catch (error) {
      this.#rebuild(what, error);
    }
  }

  // ---- inputs ---------------------------------------------------------------------------------------------------------------------

  setAsOf(date: CivilDate): void {
    this.#asOf = date;
    try {
      this.#checker.setAsOf(date);
    } catch (error) {
      this.#rebuild("a new day", error);
    }
  }

  setFile(path: string, state: FileState): void {
    this.fileStates.set(path, state);
    try {
      this.#checker.setFile(path, state);
    } catch (error) {
      this.#rebuild("a named file", error);
    }
  }

  setRunTable(request: RunTableRequest, state: RunTableState): void {
    try {
      this.#checker.setRunTable(request, state);
    } catch (error) {
      this.#rebuild("a logger's file", error);
    }
  }

  setSignature(request: SignatureRequest, state: SignatureState): void {
    try {
      this.#checker.setSignature(request, state);
    } catch (error) {
      this.#rebuild("a signature", error);
    }
  }

  // ---- checking -------------------------------------------------------------------------------------------------------------------

  get pending(): boolean {
    return this.loaded && !this.givenUp && this.#checker.pending;
  }

  /** @returns true when nothing is left to check */
  sweep(stop: () => boolean): boolean {
    if (!this.pending) return true;
    try {
      const done = this.#checker.sweep(stop, new Set(this.open.keys()));
      if (done) this.#failuresInARow = 0;
      return done;
    } catch (error) {
      this.#rebuild("the check", error);
      return this.givenUp;
    }
  }

  /** Marks for publishing what the checker changed since the last call. */
  takeChanges(): void {
    for (const path of this.#checker.takeChangedPaths()) this.publisher.mark(path);
  }

  /** Builds the checker again from the lines, which no failure touches. A file that cannot be taken in is left out and said. */
  #rebuild(what: string, error: unknown): void {
    this.#failuresInARow++;
    this.#ports.failed(what, error);
    const old = this.#workspace;
    const texts = new Map<string, string>();
    for (const [path, document] of old.documents) if (!this.open.has(path)) texts.set(path, document.lines.join("\n"));
    for (const [path, document] of this.open) texts.set(path, document.lines.join("\n"));
    this.#workspace = new Workspace();
    this.#checker = new Checker(this.#workspace, { asOf: this.#asOf });
    for (const [path, text] of texts) {
      try {
        this.#checker.apply(this.#workspace.setText(path, text));
        if (this.#notes.get(path)?.includes("internal/not-checked")) this.#notes.delete(path);
      } catch (failure) {
        this.#workspace.remove(path);
        this.#ports.failed(`taking in ${path}`, failure);
        this.#notes.set(
          path,
          fileNote(
            "internal/not-checked",
            "This file made Gudgeon fail and is not checked; the others are. Please report it with the diagnostics report.",
          ),
        );
      }
    }
    for (const [path, state] of this.fileStates) this.#checker.setFile(path, state);
    for (const path of [...texts.keys(), ...old.documents.keys()]) this.publisher.mark(path);
    this.publisher.markAll();
    this.#ports.wake();
  }

  dispose(): void {
    this.hold.dispose();
    this.publisher.clear();
  }
}
