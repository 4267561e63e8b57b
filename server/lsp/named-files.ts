/**
 * The files that records name: photos and logs by their digest, loggers' tables by their rows, signatures by their verdict. Each is looked at when
 * a rule first asks and again when it changes; nothing outside the folder is opened, and nothing at all in restricted mode.
 */
import type { RunTableRequest, SignatureRequest } from "../checking/ask.ts";
import { signatureState } from "../evidence/signature-state.ts";
import { LONGEST_SIGNATURE } from "../evidence/ssh-signature.ts";
import type { Files } from "./files.ts";
import type { Shop } from "./shop.ts";

export interface NamedFilesPorts {
  trusted(): boolean;
  wake(): void;
  failed(what: string, error: unknown): void;
}

/** How many files are looked at side by side. */
const AT_ONCE = 4;

export class NamedFiles {
  readonly #shop: Shop;
  readonly #files: Files;
  readonly #ports: NamedFilesPorts;
  /** Looks to come, by what they are about: two questions about one thing are one look. */
  readonly #queue = new Map<string, () => Promise<void>>();
  /** Looks under way; a change during one asks for another. */
  readonly #running = new Set<string>();
  #disposed = false;

  constructor(shop: Shop, files: Files, ports: NamedFilesPorts) {
    this.#shop = shop;
    this.#files = files;
    this.#ports = ports;
  }

  /** Looks at everything that rules asked about and nobody has looked at. */
  lookAtWanted(): void {
    if (!this.#ports.trusted() || this.#disposed) return;
    const { checker } = this.#shop;
    for (const path of checker.filesWanted) this.#lookAtFile(path, false);
    for (const request of checker.runTablesWanted) this.#readTable(request, false);
    for (const request of checker.signaturesWanted) this.#verify(request, false);
  }

  /** @returns true when records name the file: it is looked at again */
  changed(path: string): boolean {
    if (!this.#ports.trusted()) return false;
    const { checker } = this.#shop;
    const isFile = this.#shop.fileStates.has(path) || checker.filesWanted.has(path);
    if (isFile) this.#lookAtFile(path, true);
    const tables = checker.runTablesAsked.filter((request) => request.path === path);
    for (const request of tables) this.#readTable(request, true);
    const signatures = checker.signaturesAsked.filter((request) => request.path === path);
    for (const request of signatures) this.#verify(request, true);
    return isFile || tables.length > 0 || signatures.length > 0;
  }

  /** A folder changed as a whole: everything named below it is looked at again. */
  changedBelow(folder: string): void {
    const lead = `${folder}/`;
    const { checker } = this.#shop;
    const paths = [
      ...this.#shop.fileStates.keys(),
      ...[...checker.runTablesAsked, ...checker.signaturesAsked].map((request) => request.path),
    ];
    for (const path of new Set(paths)) if (path.startsWith(lead)) this.changed(path);
  }

  #lookAtFile(path: string, again: boolean): void {
    this.#plan(`file ${path}`, again, async () => {
      const state = await this.#files.state(this.#shop.root, path).catch((error: unknown) => {
        this.#ports.failed(`looking at ${path}`, error);
        return { exists: false, outside: false, size: 0, digest: "" };
      });
      if (!this.#disposed) this.#shop.setFile(path, state);
    });
  }

  #readTable(request: RunTableRequest, again: boolean): void {
    this.#plan(`table ${JSON.stringify(request)}`, again, async () => {
      const { checker } = this.#shop;
      const read = await this.#files.stream(
        this.#shop.root,
        request.path,
        checker.longestLog_bytes,
        checker.runTableReader(request),
      );
      if (!this.#disposed) this.#shop.setRunTable(request, read.standing === "ended" ? read.value : read);
    });
  }

  #verify(request: SignatureRequest, again: boolean): void {
    this.#plan(`signature ${JSON.stringify(request)}`, again, async () => {
      const state = await signatureState(
        await this.#files.evidence(this.#shop.root, request.path, LONGEST_SIGNATURE),
        request,
      );
      if (!this.#disposed) this.#shop.setSignature(request, state);
    });
  }

  #plan(key: string, again: boolean, look: () => Promise<void>): void {
    if (this.#disposed || this.#queue.has(key) || (this.#running.has(key) && !again)) return;
    this.#queue.set(key, look);
    this.#work();
  }

  #work(): void {
    for (const [key, look] of this.#queue) {
      if (this.#running.size >= AT_ONCE) return;
      // Two looks at one thing would race; the later one waits for the earlier.
      if (this.#running.has(key)) continue;
      this.#queue.delete(key);
      this.#running.add(key);
      void look()
        .catch((error: unknown) => this.#ports.failed("looking at a named file", error))
        .finally(() => {
          this.#running.delete(key);
          this.#ports.wake();
          this.#work();
        });
    }
  }

  dispose(): void {
    this.#disposed = true;
    this.#queue.clear();
  }
}
