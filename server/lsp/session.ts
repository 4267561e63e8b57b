/** The server once it is set up: shops by folder, documents to shops, settings, the day, and the loop that checks and publishes. */
import type { FileEvent, WorkspaceFolder } from "vscode-languageserver";
import { type CivilDate, parseDate } from "../quantity/civil-date.ts";
import { isRecordPath } from "../workspace/record-paths.ts";
import type { RequestMethod } from "./capabilities.ts";
import { Failures } from "./failures.ts";
import { type Files, filesOfClient, noFiles } from "./files.ts";
import type { Host } from "./host.ts";
import { loadShop, ShopFiles } from "./loading.ts";
import type { InitializationOptions, ServerStatus, Settings, StatusChangedMethod } from "./protocol.ts";
import { ANSWERS } from "./requests.ts";
import { Scheduler } from "./scheduler.ts";
import { DEFAULT_SETTINGS, readSettings } from "./settings.ts";
import { Shop } from "./shop.ts";
import type { ContentChange } from "./text-lines.ts";
import { folderOf, plainUri } from "./uris.ts";

/** What the client can do, as far as it matters here. */
export interface ClientAbilities {
  readonly configuration: boolean;
  readonly watchesFiles: boolean;
  /** Completions may have stops. */
  readonly snippets: boolean;
  /** Edits may name the version of the document that they were made for. */
  readonly versionedEdits: boolean;
  readonly options: InitializationOptions;
}

export interface InShop {
  readonly shop: Shop;
  readonly path: string;
}

/** A sweep that lasts longer than this shows what it has for open files before it ends, in milliseconds. */
const PATIENCE_ms = 250;
/** Least time between two notifications of the state, in milliseconds. */
const STATUS_ms = 200;

export class Session {
  readonly host: Host;
  readonly failures: Failures;
  readonly abilities: ClientAbilities;
  readonly #shops = new Map<string, Shop>();
  readonly #files = new Map<Shop, ShopFiles>();
  readonly #scheduler: Scheduler;
  #settings: Settings = DEFAULT_SETTINGS;
  #trusted: boolean;
  #asOf: CivilDate;
  #midnight: ReturnType<typeof setTimeout> | undefined;
  #sweepStart: number | undefined;
  #worked_ms = 0;
  #lastSweep_ms: number | undefined;
  #statusTimer: ReturnType<typeof setTimeout> | undefined;
  #loading = 0;
  /** Edits wait for a save. */
  #waiting = false;
  #rulesSaid = new Set<string>();
  readonly #problems = new Set<string>();
  #disposed = false;

  constructor(host: Host, abilities: ClientAbilities) {
    this.host = host;
    this.abilities = abilities;
    this.#trusted = abilities.options.trusted !== false;
    this.failures = new Failures(
      (text) => host.connection.console.error(text),
      (sentence) => host.connection.window.showErrorMessage(sentence),
    );
    this.#scheduler = new Scheduler(host.soon, (stop) => this.#slice(stop));
    this.#settings = readSettings(abilities.options.settings, (sentence) => this.#warn(sentence));
    this.#asOf = this.#today();
    this.#planMidnight();
  }

  get shops(): readonly Shop[] {
    return [...this.#shops.values()];
  }

  get settings(): Settings {
    return this.#settings;
  }

  get problems(): readonly string[] {
    return [...this.#problems];
  }

  get trusted(): boolean {
    return this.#trusted;
  }

  #warn(sentence: string): void {
    this.#problems.add(sentence);
    this.host.connection.console.warn(sentence);
  }

  // ---- the day and the settings -----------------------------------------------------------------------------------------------------

  #today(): CivilDate {
    return parseDate(this.#settings.asOf === "" ? this.host.today() : this.#settings.asOf) as CivilDate;
  }

  #planMidnight(): void {
    clearTimeout(this.#midnight);
    // A second late, so that the clock is surely past it; a machine that slept is caught by the look at each slice.
    this.#midnight = setTimeout(
      () => {
        this.#lookAtDay();
        this.#planMidnight();
      },
      Math.min(this.host.untilMidnight() + 1_000, 2_147_483_647),
    );
    if (typeof this.#midnight === "object") this.#midnight.unref?.();
  }

  #lookAtDay(): void {
    const day = this.#today();
    if (day === this.#asOf) return;
    this.#asOf = day;
    for (const shop of this.#shops.values()) shop.setAsOf(day);
    this.#scheduler.wake();
  }

  /** Asks the client for its settings; they hold at once. */
  async refreshSettings(pushed?: unknown): Promise<void> {
    let raw = pushed;
    if (this.abilities.configuration) {
      try {
        raw = await this.host.connection.workspace.getConfiguration("gudgeon");
      } catch (error) {
        this.failures.note("asking for settings", error);
        return;
      }
    }
    if (this.#disposed) return;
    this.#problems.clear();
    const before = this.#settings;
    this.#settings = readSettings(raw ?? this.abilities.options.settings, (sentence) => this.#warn(sentence));
    if (before.scope !== this.#settings.scope) {
      for (const shop of this.#shops.values())
        for (const path of shop.workspace.documents.keys()) shop.publisher.mark(path);
    }
    if (this.#settings.run === "onType") this.#waiting = false;
    this.#lookAtDay();
    this.#scheduler.wake();
    this.#statusChanged();
  }

  /** The person trusts the folder now: files that records name may be opened. */
  trust(): void {
    if (this.#trusted) return;
    this.#trusted = true;
    for (const files of this.#files.values()) files.named.lookAtWanted();
  }

  // ---- shops ------------------------------------------------------------------------------------------------------------------------

  changeFolders(added: readonly WorkspaceFolder[], removed: readonly WorkspaceFolder[]): void {
    for (const folder of removed) this.#dropShop(plainUri(folder.uri));
    for (const folder of added) this.#addShop(folder.uri, true);
    // A document may belong to another shop now: it moves with the text that the editor has.
    for (const shop of this.shops) {
      for (const [path, document] of [...shop.open]) {
        const home = this.locate(document.uri);
        if (!home || home.shop === shop) continue;
        shop.closeText(path);
        this.#afterClose(shop, path);
        home.shop.openText(home.path, document.uri, document.version, document.lines.join("\n"));
      }
    }
    this.#scheduler.wake();
  }

  #addShop(root: string, isFolder: boolean): Shop {
    const key = plainUri(root);
    const known = this.#shops.get(key);
    if (known && known.isFolder === isFolder) return known;
    if (known) this.#dropShop(key);
    const shop = new Shop(root.endsWith("/") ? root.slice(0, -1) : root, isFolder, this.#asOf, {
      send: (params) => this.host.publish(params),
      wake: () => this.#scheduler.wake(),
      failed: (what, error) => this.failures.note(what, error),
      showsAll: () => this.#settings.scope === "workspace",
      ...(this.host.held_ms === undefined ? {} : { held_ms: this.host.held_ms }),
    });
    this.#shops.set(key, shop);
    const files = new ShopFiles(shop, this.#filesFor(root), {
      trusted: () => this.#trusted,
      wake: () => this.#scheduler.wake(),
      failed: (what, error) => this.failures.note(what, error),
      owns: (path) => this.locate(shop.uriOf(path))?.shop === shop,
      watches: !this.abilities.watchesFiles,
      problem: (sentence) => this.#warn(sentence),
    });
    this.#files.set(shop, files);
    this.#loading++;
    this.#statusChanged();
    void loadShop(shop, files, this.host.soon).finally(() => {
      this.#loading--;
      if (this.#shops.get(key) !== shop) return;
      shop.loaded = true;
      files.named.lookAtWanted();
      this.#scheduler.wake();
      this.#statusChanged();
    });
    return shop;
  }

  #filesFor(root: string): Files {
    const own = this.host.filesFor(root);
    if (own) return own;
    if (this.abilities.options.readsFiles !== true || root.startsWith("untitled:")) return noFiles;
    return filesOfClient(<R>(method: string, params: unknown) => this.host.connection.sendRequest<R>(method, params));
  }

  #dropShop(key: string): void {
    const shop = this.#shops.get(key);
    if (!shop) return;
    this.#shops.delete(key);
    this.#files.get(shop)?.dispose();
    this.#files.delete(shop);
    const open = [...shop.open.values()];
    shop.dispose();
    // What is still open in the editor stays checked, in the folder that it lies in.
    for (const document of open) this.openDocument(document.uri, document.version, document.lines.join("\n"));
  }

  /** The shop of an address and the path in it: the innermost folder that is open. */
  locate(uri: string): InShop | undefined {
    let found: InShop | undefined;
    for (const shop of this.#shops.values()) {
      const path = shop.pathOf(uri);
      if (path === undefined || (!shop.isFolder && path.includes("/"))) continue;
      if (shop.isFolder && !isRecordPath(path) && !shop.open.has(path)) continue;
      if (!found || shop.plainRoot.length > found.shop.plainRoot.length || (shop.isFolder && !found.shop.isFolder))
        found = { shop, path };
    }
    return found;
  }

  // ---- documents ----------------------------------------------------------------------------------------------------------------------

  openDocument(uri: string, version: number, text: string): void {
    let home = this.locate(uri);
    if (!home) {
      const shop = this.#addShop(folderOf(uri), false);
      const path = shop.pathOf(uri);
      if (path === undefined) return;
      home = { shop, path };
    }
    home.shop.openText(home.path, uri, version, text);
    this.#scheduler.wake();
  }

  changeDocument(uri: string, version: number, changes: readonly ContentChange[]): void {
    const home = this.locate(uri);
    if (!home?.shop.open.has(home.path)) throw new Error(`a change of ${uri}, which is not open`);
    const typedOn = home.shop.editText(home.path, version, changes);
    if (typedOn === undefined) home.shop.hold.release();
    else home.shop.hold.typed(home.path, typedOn);
    if (this.#settings.run === "onSave") {
      this.#waiting = true;
      this.#statusChanged();
    } else this.#scheduler.wake(this.#settings.delay);
  }

  saveDocument(uri: string): void {
    const home = this.locate(uri);
    home?.shop.hold.release();
    const document = home?.shop.open.get(home.path);
    if (document) document.edited = false;
    this.#waiting = false;
    this.#scheduler.wake();
  }

  closeDocument(uri: string): void {
    const home = this.locate(uri);
    if (!home?.shop.open.has(home.path)) return;
    home.shop.hold.release();
    home.shop.closeText(home.path);
    this.#afterClose(home.shop, home.path);
  }

  #afterClose(shop: Shop, path: string): void {
    if (!shop.isFolder && shop.open.size === 0) {
      this.#dropShop(shop.plainRoot);
      return;
    }
    this.#files.get(shop)?.look([path]);
    this.#waiting = false;
    this.#scheduler.wake();
  }

  cursor(uri: string, line: number): void {
    const home = this.locate(uri);
    if (home) home.shop.hold.cursor(home.path, line);
  }

  /** Something changed on disk. */
  filesChanged(events: readonly FileEvent[]): void {
    for (const shop of this.#shops.values()) {
      const paths = events.map((event) => shop.pathOf(event.uri)).filter((path) => path !== undefined);
      if (paths.length > 0) this.#files.get(shop)?.look(paths);
    }
  }

  // ---- the loop -----------------------------------------------------------------------------------------------------------------------

  /** Checks what edits left undone, for a request that shows findings; gives up after a while and answers with what there is. */
  settle(shop: Shop, limit_ms = 50): void {
    const end = performance.now() + limit_ms;
    shop.sweep(() => performance.now() >= end);
  }

  #slice(stop: () => boolean): boolean {
    if (this.#disposed) return true;
    if (this.#waiting) return this.#publishUntouched(stop);
    this.#lookAtDay();
    const start = performance.now();
    let done = true;
    for (const shop of this.#shops.values()) {
      if (!shop.pending) continue;
      this.#sweepStart ??= start;
      done = shop.sweep(stop) && done;
      if (!done) break;
    }
    this.#worked_ms += performance.now() - start;
    const patient = this.#sweepStart === undefined || performance.now() - this.#sweepStart < PATIENCE_ms;
    if (!done && patient) return false;
    for (const shop of this.#shops.values()) {
      if (!shop.loaded) continue;
      shop.takeChanges();
      const flushed = shop.publisher.flush(stop, done ? undefined : (path) => shop.open.has(path));
      done = flushed && done;
    }
    if (!done) return false;
    if (this.#sweepStart !== undefined) {
      this.#lastSweep_ms = this.#worked_ms;
      this.#worked_ms = 0;
      this.#sweepStart = undefined;
      for (const files of this.#files.values()) files.named.lookAtWanted();
    }
    this.#sayRuleFailures();
    this.#statusChanged();
    return true;
  }

  /** While edits wait for a save: what is opened or closed is shown, and an edited file keeps what it shows. */
  #publishUntouched(stop: () => boolean): boolean {
    let done = true;
    for (const shop of this.#shops.values())
      if (shop.loaded) done = shop.publisher.flush(stop, (path) => shop.open.get(path)?.edited !== true) && done;
    return done;
  }

  #sayRuleFailures(): void {
    for (const shop of this.#shops.values()) {
      for (const [rule, stack] of shop.checker.failures) {
        if (this.#rulesSaid.has(rule)) continue;
        this.#rulesSaid.add(rule);
        this.failures.note(`the rule ${rule}`, new Error(stack));
      }
    }
  }

  /** @throws whatever a feature throws: the caller contains it */
  answer(method: RequestMethod, params: unknown): unknown {
    return ANSWERS[method](this, params as never);
  }

  // ---- what a person is told ----------------------------------------------------------------------------------------------------------

  status(): ServerStatus {
    let files = 0;
    const sum = { errors: 0, warnings: 0, notes: 0 };
    for (const shop of this.#shops.values()) {
      files += shop.workspace.documents.size;
      const { errors, warnings, notes } = shop.publisher.counts;
      sum.errors += errors;
      sum.warnings += warnings;
      sum.notes += notes;
    }
    const shops = this.shops;
    const state =
      this.#loading > 0
        ? "loading"
        : shops.some((shop) => shop.givenUp)
          ? "failed"
          : this.#waiting
            ? "waiting"
            : shops.some((shop) => shop.pending)
              ? "checking"
              : "ready";
    const failures = this.failures.all.map(
      (one) => `A failure in ${one.what} was contained: ${one.message.split("\n")[0]}`,
    );
    const restricted = this.#trusted ? [] : ["The folder is not trusted: files that records name are not opened."];
    return {
      state,
      shops: shops.length,
      files,
      ...sum,
      lastSweep_ms: this.#lastSweep_ms,
      asOf: this.#settings.asOf === "" ? this.host.today() : this.#settings.asOf,
      problems: [...restricted, ...this.#problems, ...failures],
    };
  }

  #statusChanged(): void {
    if (this.#statusTimer !== undefined || this.#disposed) return;
    this.#statusTimer = setTimeout(() => {
      this.#statusTimer = undefined;
      const method: StatusChangedMethod = "gudgeon/statusChanged";
      void this.host.connection.sendNotification(method, this.status());
    }, STATUS_ms);
  }

  dispose(): void {
    this.#disposed = true;
    clearTimeout(this.#midnight);
    clearTimeout(this.#statusTimer);
    this.#scheduler.dispose();
    for (const files of this.#files.values()) files.dispose();
    for (const shop of this.#shops.values()) shop.hold.dispose();
  }
}
