/** Reads the records of a shop and the files that they name, and keeps both in step with what changes outside the editor. */
import type { RunTableRequest, RunTableState } from "../checking/ask.ts";
import { isRecordPath } from "../workspace/record-paths.ts";
import type { Files } from "./files.ts";
import { SLICE_ms, type Soon } from "./scheduler.ts";
import type { Shop } from "./shop.ts";

export interface LoadingPorts {
  trusted(): boolean;
  wake(): void;
  failed(what: string, error: unknown): void;
  /** Whether a record belongs to this shop and not to another folder inside it. */
  owns(path: string): boolean;
  /** The client does not tell of changes on disk. */
  readonly watches: boolean;
  problem(sentence: string): void;
}

/** How many named files are looked at side by side. */
const AT_ONCE = 4;

export class ShopFiles {
  readonly #shop: Shop;
  readonly files: Files;
  readonly #ports: LoadingPorts;
  /** Counts the looks at each path, so that a slow answer never replaces a later one. */
  readonly #looks = new Map<string, number>();
  readonly #asked = new Set<string>();
  readonly #queue: string[] = [];
  /** Loggers' files that are to be read, and the one that is being read now. */
  readonly #tables = new Map<string, RunTableRequest>();
  #reading: string | undefined;
  #running = 0;
  #unwatch: (() => void) | undefined;
  #rescan: ReturnType<typeof setTimeout> | undefined;
  #disposed = false;

  constructor(shop: Shop, files: Files, ports: LoadingPorts) {
    this.#shop = shop;
    this.files = files;
    this.#ports = ports;
  }

  /** The records below the folder, and from now on what changes there. */
  async list(): Promise<readonly string[]> {
    try {
      if (this.#ports.watches && this.#shop.isFolder) {
        this.#unwatch = this.files.watch?.(this.#shop.root, (paths) => this.look(paths), (reason) => this.#ports.problem(`Changes made outside the editor are not seen: ${reason}.`));
      }
      return (await this.files.records(this.#shop.root, this.#shop.isFolder)).filter((path) => this.#ports.owns(path));
    } catch (error) {
      this.#ports.problem(`The folder ${this.#shop.root} cannot be read: ${error instanceof Error ? error.message : String(error)}`);
      return [];
    }
  }

  /** Looks again at paths of which something said that they changed. */
  look(paths: readonly string[]): void {
    const { open, workspace, fileStates } = this.#shop;
    for (const path of paths) {
      if (isRecordPath(path)) {
        if (!open.has(path) && this.#ports.owns(path)) void this.read(path).then(() => this.#ports.wake());
      } else if (fileStates.has(path) || this.#asked.has(path)) this.#lookAtFile(path);
      else {
        // A folder: a watcher may tell of it alone when it goes or comes with all that is in it.
        for (const inside of workspace.documents.keys()) if (inside.startsWith(`${path}/`) && !open.has(inside)) void this.read(inside).then(() => this.#ports.wake());
        for (const named of fileStates.keys()) if (named.startsWith(`${path}/`)) this.#lookAtFile(named);
        if (!/\.[^/]*$/u.test(path)) this.#scanSoon();
      }
    }
  }

  #scanSoon(): void {
    clearTimeout(this.#rescan);
    this.#rescan = setTimeout(() => {
      void this.files.records(this.#shop.root, this.#shop.isFolder).then(
        (found) => this.look(found.filter((path) => !this.#shop.workspace.documents.has(path))),
        () => undefined,
      );
    }, 100);
  }

  /** Reads one record into the shop, unless the editor has it open by then. */
  async read(path: string): Promise<void> {
    const look = (this.#looks.get(path) ?? 0) + 1;
    this.#looks.set(path, look);
    const shop = this.#shop;
    const stale = (): boolean => this.#disposed || this.#looks.get(path) !== look || shop.open.has(path);
    try {
      const text = await this.files.text(shop.root, path);
      if (stale()) return;
      if (text === undefined) shop.remove(path);
      else shop.setText(path, text);
    } catch (error) {
      if (!stale()) shop.setUnreadable(path, error instanceof Error ? error.message : String(error));
    }
  }

  // ---- files that records name ------------------------------------------------------------------------------------------------------

  /** Looks at every named file that nobody has looked at; not in restricted mode. */
  lookAtNamed(): void {
    if (!this.#ports.trusted() || !this.#shop.loaded) return;
    const { checker, fileStates } = this.#shop;
    for (const path of checker.filesWanted) if (!fileStates.has(path)) this.#lookAtFile(path);
    for (const request of checker.runTablesWanted) {
      const key = JSON.stringify(request);
      if (key !== this.#reading && !this.#tables.has(key)) this.#readTable(request);
    }
  }

  /** Reads one logger's file after another: each may be large. A change while it is read asks for it once more. */
  #readTable(request: RunTableRequest): void {
    this.#tables.set(JSON.stringify(request), request);
    if (this.#reading === undefined) void this.#readTables();
  }

  async #readTables(): Promise<void> {
    for (const [key, request] of this.#tables) {
      if (this.#disposed) return;
      this.#tables.delete(key);
      this.#reading = key;
      const state = await this.#tableOf(request);
      if (this.#disposed) return;
      this.#shop.setRunTable(request, state);
      this.#ports.wake();
    }
    this.#reading = undefined;
  }

  async #tableOf(request: RunTableRequest): Promise<RunTableState> {
    const { checker, root } = this.#shop;
    if (!this.files.stream)
      return { standing: "refused", message: "Files of data loggers are not read in this editor; the command reads them." };
    try {
      const read = await this.files.stream(root, request.path, checker.longestLog_bytes, checker.runTableReader(request));
      return read.standing === "ended" ? read.value : read;
    } catch (error) {
      this.#ports.failed(`reading ${request.path}`, error);
      return { standing: "refused", message: "The file cannot be read." };
    }
  }

  #lookAtFile(path: string): void {
    if (!this.#ports.trusted() || this.#disposed) return;
    // A logger's file that was read is read again: its bytes may be others now.
    if (this.#shop.fileStates.has(path))
      for (const request of this.#shop.checker.runTablesAsked) if (request.path === path) this.#readTable(request);
    if (!this.#asked.has(path)) {
      this.#asked.add(path);
      this.#queue.push(path);
    }
    this.#work();
  }

  #work(): void {
    while (this.#running < AT_ONCE) {
      const path = this.#queue.shift();
      if (path === undefined) return;
      // Off the list before the look: a change during it asks for another one.
      this.#asked.delete(path);
      this.#running++;
      void this.files
        .state(this.#shop.root, path)
        .then(
          (state) => {
            if (!this.#disposed) this.#shop.setFile(path, state);
          },
          (error: unknown) => {
            this.#ports.failed(`looking at ${path}`, error);
            if (!this.#disposed) this.#shop.setFile(path, { exists: false, outside: false, size: 0, digest: "" });
          },
        )
        .finally(() => {
          this.#running--;
          this.#ports.wake();
          this.#work();
        });
    }
  }

  dispose(): void {
    this.#disposed = true;
    clearTimeout(this.#rescan);
    this.#unwatch?.();
  }
}

/** Reads all records of a shop, giving way between slices. Open documents keep the text that the editor has. */
export async function loadShop(shop: Shop, files: ShopFiles, soon: Soon): Promise<void> {
  let end = performance.now() + SLICE_ms;
  for (const path of await files.list()) {
    if (shop.open.has(path)) continue;
    await files.read(path);
    if (performance.now() < end) continue;
    await new Promise<void>((done) => {
      soon(done);
    });
    end = performance.now() + SLICE_ms;
  }
}
