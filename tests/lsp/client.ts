/** A bare client of the language server: it keeps what the server pushed last for each file, and waits for what a test wants to see. */
import { type ChildProcess, spawn } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import {
  createProtocolConnection,
  type Diagnostic,
  type InitializeParams,
  type InitializeResult,
  type ProtocolConnection,
  type PublishDiagnosticsParams,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver/node";
import type { InitializationOptions, ServerStatus, Settings } from "../../server/lsp/protocol.ts";

export const projectRoot = resolve(import.meta.dirname, "../..");

/** A folder of records that goes when the test ends. */
export interface Folder {
  readonly path: string;
  readonly uri: string;
  uriOf(path: string): string;
  write(path: string, text: string): void;
  [Symbol.dispose](): void;
}

export function folderWith(files: Readonly<Record<string, string | Uint8Array>>): Folder {
  const path = mkdtempSync(join(tmpdir(), "gudgeon-lsp-"));
  const write = (name: string, text: string | Uint8Array): void => {
    mkdirSync(dirname(join(path, name)), { recursive: true });
    writeFileSync(join(path, name), text);
  };
  for (const [name, text] of Object.entries(files)) write(name, text);
  return {
    path,
    uri: pathToFileURL(path).href,
    uriOf: (name) => pathToFileURL(join(path, name)).href,
    write,
    [Symbol.dispose]: () => rmSync(path, { recursive: true, force: true }),
  };
}

export interface ClientOptions {
  readonly folders: readonly Folder[];
  readonly settings?: Partial<Settings>;
  readonly initialization?: InitializationOptions;
  /** Whether the client tells of changes on disk itself. */
  readonly watchesFiles?: boolean;
}

/** What the server pushed for one file. */
export type Pushed = PublishDiagnosticsParams & { readonly diagnostics: readonly Diagnostic[] };

export class Client {
  readonly connection: ProtocolConnection;
  readonly pushed = new Map<string, Pushed>();
  /** Every push in order, so that a test can say that nothing was pushed. */
  readonly pushes: Pushed[] = [];
  readonly logged: string[] = [];
  readonly shown: string[] = [];
  readonly registered: string[] = [];
  settings: Partial<Settings>;
  #versions = new Map<string, number>();
  #listeners = new Set<() => void>();
  initialized: InitializeResult | undefined;

  constructor(connection: ProtocolConnection, settings: Partial<Settings>) {
    this.connection = connection;
    this.settings = settings;
    connection.onNotification("textDocument/publishDiagnostics", (params: Pushed) => {
      this.pushed.set(params.uri, params);
      this.pushes.push(params);
      this.#tell();
    });
    connection.onNotification("window/logMessage", ({ message }: { message: string }) => {
      this.logged.push(message);
      this.#tell();
    });
    connection.onNotification("window/showMessage", ({ message }: { message: string }) => {
      this.shown.push(message);
      this.#tell();
    });
    connection.onNotification("gudgeon/statusChanged", () => undefined);
    connection.onRequest("workspace/configuration", ({ items }: { items: unknown[] }) =>
      items.map(() => this.settings),
    );
    connection.onRequest("client/registerCapability", ({ registrations }: { registrations: { method: string }[] }) => {
      for (const { method } of registrations) this.registered.push(method);
      return null;
    });
    connection.onRequest("window/showMessageRequest", ({ message }: { message: string }) => {
      this.shown.push(message);
      return null;
    });
    connection.listen();
  }

  #tell(): void {
    for (const listener of this.#listeners) listener();
  }

  async start(options: ClientOptions): Promise<void> {
    const params: InitializeParams = {
      processId: null,
      rootUri: options.folders[0]?.uri ?? null,
      workspaceFolders: options.folders.map(({ uri, path }) => ({ uri, name: path })),
      initializationOptions: options.initialization ?? {},
      capabilities: {
        workspace: {
          configuration: true,
          didChangeWatchedFiles: { dynamicRegistration: options.watchesFiles ?? true },
          didChangeConfiguration: { dynamicRegistration: true },
        },
        textDocument: { publishDiagnostics: { relatedInformation: true, versionSupport: true } },
      },
    };
    this.initialized = await this.connection.sendRequest<InitializeResult>("initialize", params);
    await this.connection.sendNotification("initialized", {});
  }

  status(): Promise<ServerStatus> {
    return this.connection.sendRequest<ServerStatus>("gudgeon/status");
  }

  /** Waits until the server has checked and told everything. */
  async ready(): Promise<ServerStatus> {
    for (;;) {
      const status = await this.status();
      if (status.state === "ready" || status.state === "waiting" || status.state === "failed") {
        // What the last slice sent arrives before the answer to a request sent after it.
        await new Promise((done) => setTimeout(done, 20));
        const again = await this.status();
        if (again.state === status.state) return again;
      } else await new Promise((done) => setTimeout(done, 5));
    }
  }

  /** Waits until a condition on what was pushed holds. @throws with `what` when it does not within the limit */
  until(what: string, holds: () => boolean, limit_ms = 20_000): Promise<void> {
    return new Promise((done, fail) => {
      const end = (): void => {
        clearTimeout(timer);
        this.#listeners.delete(look);
      };
      const look = (): void => {
        if (!holds()) return;
        end();
        done();
      };
      const timer = setTimeout(() => {
        end();
        fail(new Error(`waited for ${what}; the server said ${JSON.stringify(this.logged.slice(-3))}`));
      }, limit_ms);
      this.#listeners.add(look);
      look();
    });
  }

  open(uri: string, text: string): Promise<void> {
    this.#versions.set(uri, 1);
    return this.connection.sendNotification("textDocument/didOpen", {
      textDocument: { uri, languageId: "gudgeon", version: 1, text },
    });
  }

  /** @returns the version of the document after the change */
  async change(
    uri: string,
    ...changes: {
      range?: { start: { line: number; character: number }; end: { line: number; character: number } };
      text: string;
    }[]
  ): Promise<number> {
    const version = (this.#versions.get(uri) ?? 0) + 1;
    this.#versions.set(uri, version);
    await this.connection.sendNotification("textDocument/didChange", {
      textDocument: { uri, version },
      contentChanges: changes,
    });
    return version;
  }

  /** Replaces the characters of one line. */
  changeLine(uri: string, line: number, from: number, to: number, text: string): Promise<number> {
    return this.change(uri, { range: { start: { line, character: from }, end: { line, character: to } }, text });
  }

  save(uri: string): Promise<void> {
    return this.connection.sendNotification("textDocument/didSave", { textDocument: { uri } });
  }

  close(uri: string): Promise<void> {
    return this.connection.sendNotification("textDocument/didClose", { textDocument: { uri } });
  }

  /** Tells of changes on disk: 1 made, 2 changed, 3 gone. */
  changedOnDisk(...events: readonly (readonly [uri: string, type: 1 | 2 | 3])[]): Promise<void> {
    return this.connection.sendNotification("workspace/didChangeWatchedFiles", {
      changes: events.map(([uri, type]) => ({ uri, type })),
    });
  }

  async set(settings: Partial<Settings>): Promise<void> {
    this.settings = settings;
    await this.connection.sendNotification("workspace/didChangeConfiguration", { settings: null });
  }

  request<R>(method: string, params: unknown): Promise<R> {
    return this.connection.sendRequest<R>(method, params);
  }

  /** What is shown for a file now, as `line:from-to severity code`, for short assertions. */
  codes(uri: string): string[] {
    return (this.pushed.get(uri)?.diagnostics ?? []).map(
      (one) => `${one.range.start.line + 1}:${one.range.start.character + 1} ${String(one.code)}`,
    );
  }

  async stop(): Promise<void> {
    await this.connection.sendRequest("shutdown").catch(() => undefined);
    await this.connection.sendNotification("exit").catch(() => undefined);
    this.connection.dispose();
  }
}

export interface SpawnedClient {
  readonly client: Client;
  readonly child: ChildProcess;
  /** Everything on the server's standard error. */
  readonly errors: () => string;
  [Symbol.asyncDispose](): Promise<void>;
}

/** Starts the server as a program and speaks to it over its standard input and output. */
export async function spawnServer(options: ClientOptions): Promise<SpawnedClient> {
  const child = spawn(
    process.execPath,
    ["--disable-warning=ExperimentalWarning", join(projectRoot, "server/lsp/node.ts"), "--stdio"],
    { stdio: ["pipe", "pipe", "pipe"] },
  );
  let errors = "";
  child.stderr.on("data", (chunk: Buffer) => {
    errors += chunk.toString();
  });
  const client = new Client(
    createProtocolConnection(new StreamMessageReader(child.stdout), new StreamMessageWriter(child.stdin)),
    options.settings ?? {},
  );
  await client.start(options);
  return {
    client,
    child,
    errors: () => errors,
    async [Symbol.asyncDispose]() {
      const ended = new Promise<void>((done) => {
        if (child.exitCode === null && child.signalCode === null) child.once("exit", () => done());
        else done();
      });
      await client.stop();
      const hard = setTimeout(() => child.kill("SIGKILL"), 5_000);
      await ended;
      clearTimeout(hard);
    },
  };
}
