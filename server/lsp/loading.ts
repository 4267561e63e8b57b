/** Reads the records of a shop, and keeps them in step with what changes outside the editor. */
import { isRecordPath } from "../workspace/record-paths.ts";
import type { Files } from "./files.ts";
import { NamedFiles, type NamedFilesPorts } from "./named-files.ts";
import { SLICE_ms, type Soon } from "./scheduler.ts";
import type { Shop } from "./shop.ts";

export interface LoadingPorts extends NamedFilesPorts {
  /** Whether a record belongs to this shop and not to another folder inside it. */
  owns(path: string): boolean;
  /** The client does not tell of changes on disk. */
  readonly watches: boolean;
  problem(sentence: string): void;
}

export class ShopFiles {
  readonly #shop: Shop;
  readonly files: Files;
  readonly #ports: LoadingPorts;
  /** Counts the looks at each path, so that a slow answer never replaces a later one. */
  readonly #looks = new Map<string, number>();
  readonly named: NamedFiles;
  #unwatch: (() => void) | undefined;
  #rescan: ReturnType<typeof setTimeout> | undefined;
  #disposed = false;

  constructor(shop: Shop, files: Files, ports: LoadingPorts) {
    this.#shop = shop;
    this.files = files;
    this.#ports = ports;
    this.named = new NamedFiles(shop, files, ports);
  }

  /** The records below the folder, and from now on what changes there. */
  async list(): Promise<readonly string[]> {
    try {
      if (this.#ports.watches && this.#shop.isFolder) {
        this.#unwatch = this.files.watch?.(
          this.#shop.root,
          (paths) => this.look(paths),
          (reason) => this.#ports.problem(`Changes made outside the editor are not seen: ${reason}.`),
        );
      }
      return (await this.files.records(this.#shop.root, this.#shop.isFolder)).filter((path) => this.#ports.owns(path));
    } catch (error) {
      this.#ports.problem(
        `The folder ${this.#shop.root} cannot be read: ${error instanceof Error ? error.message : String(error)}`,
      );
      return [];
    }
  }

  /** Looks again at paths of which something said that they changed. */
  look(paths: readonly string[]): void {
    const { open, workspace } = this.#shop;
    for (const path of paths) {
      if (isRecordPath(path)) {
        if (!open.has(path) && this.#ports.owns(path)) void this.read(path).then(() => this.#ports.wake());
      } else if (!this.named.changed(path)) {
        // A folder: a watcher may tell of it alone when it goes or comes with all that is in it.
        for (const inside of workspace.documents.keys())
          if (inside.startsWith(`${path}/`) && !open.has(inside)) void this.read(inside).then(() => this.#ports.wake());
        this.named.changedBelow(path);
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

  dispose(): void {
    this.#disposed = true;
    this.named.dispose();
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
