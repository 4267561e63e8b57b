/** The least client that can type into a language server over stdio and say when its findings came. */
import { type ChildProcess, spawn } from "node:child_process";

export interface Published {
  readonly uri: string;
  readonly version?: number;
  readonly diagnostics: readonly unknown[];
}

interface Message {
  readonly id?: number | string;
  readonly method?: string;
  readonly params?: unknown;
  readonly result?: unknown;
  readonly error?: unknown;
}

export class LanguageClient {
  readonly #process: ChildProcess;
  #kept: Buffer = Buffer.alloc(0);
  #next = 1;
  readonly #waiting = new Map<number | string, (message: Message) => void>();
  #onPublished: ((published: Published, bytes: number) => void) | undefined;
  readonly #settings: Record<string, unknown>;
  ended: string | undefined;

  constructor(command: readonly string[], settings: Record<string, unknown> = {}) {
    this.#settings = settings;
    this.#process = spawn(process.execPath, [...command], { stdio: ["pipe", "pipe", "inherit"] });
    this.#process.stdout?.on("data", (piece: Buffer) => this.#take(piece));
    this.#process.on("exit", (code, signal) => {
      this.ended = `the server ended (${code ?? signal})`;
    });
    this.#process.on("error", (error) => {
      this.ended = error.message;
    });
  }

  #take(piece: Buffer): void {
    this.#kept = this.#kept.length === 0 ? piece : Buffer.concat([this.#kept, piece]);
    for (;;) {
      const head = this.#kept.indexOf("\r\n\r\n");
      if (head < 0) return;
      const length = Number(/content-length: *(\d+)/iu.exec(this.#kept.toString("latin1", 0, head))?.[1]);
      const end = head + 4 + length;
      if (this.#kept.length < end) return;
      const body = this.#kept.toString("utf8", head + 4, end);
      this.#kept = this.#kept.subarray(end);
      this.#handle(JSON.parse(body) as Message, length);
    }
  }

  #handle(message: Message, bytes: number): void {
    if (message.method === "textDocument/publishDiagnostics") this.#onPublished?.(message.params as Published, bytes);
    else if (message.method !== undefined && message.id !== undefined) {
      const items = (message.params as { items?: { section?: string }[] } | undefined)?.items;
      const result =
        message.method === "workspace/configuration"
          ? (items ?? []).map((item) => (item.section === "gudgeon" ? this.#settings : null))
          : null;
      this.#send({ jsonrpc: "2.0", id: message.id, result });
    } else if (message.id !== undefined) {
      this.#waiting.get(message.id)?.(message);
      this.#waiting.delete(message.id);
    }
  }

  #send(message: unknown): void {
    const body = JSON.stringify(message);
    this.#process.stdin?.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
  }

  notify(method: string, params: unknown): void {
    this.#send({ jsonrpc: "2.0", method, params });
  }

  /** @throws Error when the server answers with one, has ended, or takes longer than a minute */
  request(method: string, params: unknown): Promise<unknown> {
    const id = this.#next++;
    return this.#within(`no answer to ${method}`, (done, failed) => {
      this.#waiting.set(id, (message) =>
        message.error === undefined ? done(message.result) : failed(new Error(JSON.stringify(message.error))),
      );
      this.#send({ jsonrpc: "2.0", id, method, params });
    });
  }

  #within<T>(complaint: string, start: (done: (value: T) => void, failed: (error: Error) => void) => void): Promise<T> {
    return new Promise((done, failed) => {
      const timer = setTimeout(() => failed(new Error(this.ended ?? `${complaint} within a minute`)), 60_000);
      const over =
        <V>(then: (value: V) => void) =>
        (value: V): void => {
          clearTimeout(timer);
          then(value);
        };
      start(over(done), over(failed));
    });
  }

  async start(rootUri: string): Promise<void> {
    await this.request("initialize", {
      processId: process.pid,
      rootUri,
      workspaceFolders: [{ uri: rootUri, name: "bench" }],
      initializationOptions: { settings: this.#settings },
      capabilities: {
        workspace: { configuration: true, workspaceFolders: true },
        textDocument: {
          synchronization: {},
          publishDiagnostics: {
            versionSupport: true,
            relatedInformation: true,
            codeDescriptionSupport: true,
            tagSupport: { valueSet: [1, 2] },
          },
        },
      },
    });
    this.notify("initialized", {});
  }

  /**
   * Sends something and waits for findings of a version of a document.
   * @returns milliseconds from sending to having read them, and the findings
   */
  publishedAfter(
    uri: string,
    version: number,
    send: () => void,
  ): Promise<{ ms: number; published: Published; bytes: number }> {
    return this.#within(`no findings for version ${version}`, (done) => {
      const from = performance.now();
      this.#onPublished = (published, bytes) => {
        if (published.uri !== uri || (published.version ?? -1) < version) return;
        this.#onPublished = undefined;
        done({ ms: performance.now() - from, published, bytes });
      };
      send();
    });
  }

  /** The last findings published for a document before it stays quiet for so long. */
  settled(uri: string, quiet_ms: number): Promise<Published | undefined> {
    return new Promise((done) => {
      let last: Published | undefined;
      const end = (): void => {
        this.#onPublished = undefined;
        done(last);
      };
      let timer = setTimeout(end, quiet_ms);
      this.#onPublished = (published) => {
        if (published.uri === uri) last = published;
        clearTimeout(timer);
        timer = setTimeout(end, quiet_ms);
      };
    });
  }

  async stop(): Promise<void> {
    await this.request("shutdown", undefined).catch(() => undefined);
    this.notify("exit", undefined);
    setTimeout(() => this.#process.kill(), 2_000).unref();
  }
}
