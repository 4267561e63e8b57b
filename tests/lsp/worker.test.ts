/** The browser's server, bundled as it is shipped, in a worker without any of Node's modules at hand. The real worker host is under tests/vscode. */
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Worker } from "node:worker_threads";
import { build } from "esbuild";
import { expect, test } from "vitest";
import type { Diagnostic, PublishDiagnosticsParams } from "vscode-languageserver/node";
import { projectRoot } from "./client.ts";
import { freshCodes, JOB, SPARE, shopFiles } from "./records.ts";

interface Message {
  readonly id?: number;
  readonly method?: string;
  readonly params?: Record<string, unknown>;
  readonly result?: unknown;
}

/** What a browser's worker has and Node's calls by other names; what only Node has is taken away. */
const SHIM = `
  const { parentPort } = require("node:worker_threads");
  globalThis.self = globalThis;
  globalThis.postMessage = (message) => parentPort.postMessage(message);
  globalThis.addEventListener = () => undefined;
  parentPort.on("message", (data) => globalThis.onmessage && globalThis.onmessage({ data }));
  delete globalThis.process; delete globalThis.setImmediate;
  require = undefined;
`;

test("in a worker the server reads through the client and pushes the findings of every file", async () => {
  const folder = mkdtempSync(join(tmpdir(), "gudgeon-worker-"));
  try {
    const outfile = join(folder, "server.cjs");
    await build({
      absWorkingDir: projectRoot,
      entryPoints: ["server/lsp/browser.ts"],
      outfile,
      bundle: true,
      platform: "browser",
      format: "iife",
      target: "es2022",
      banner: { js: SHIM },
      logLevel: "silent",
    });
    // Node's own worker needs its Buffer, so that one is looked for in the text.
    expect(readFileSync(outfile, "utf8").slice(SHIM.length)).not.toMatch(/\bBuffer\.|\brequire\("(node:|fs|path)/u);
    const worker = new Worker(outfile);
    const root = "test-files://shop/records%20of%20one";
    const files = new Map(Object.entries(shopFiles()));
    const pushed = new Map<string, readonly Diagnostic[]>();
    const asked: string[] = [];
    const answers = new Map<number, (message: Message) => void>();
    let lastId = 0;
    const text = (path: string): string => String(files.get(path));
    const answer = (method: string, params: Record<string, unknown>): unknown => {
      asked.push(method);
      const path = String(params["path"]);
      switch (method) {
        case "workspace/configuration":
          return [{ asOf: "2026-05-01" }];
        case "gudgeon/listRecords":
          return [...files.keys()].filter((name) => name.endsWith(String(params["ending"])));
        case "gudgeon/readRecord":
          return { text: text(path) };
        case "gudgeon/fileState":
          return { exists: files.has(path), size: 1, digest: "f".repeat(64) };
        default:
          return null;
      }
    };
    const failed = new Promise<never>((_done, fail) => worker.once("error", fail));
    worker.on("message", (message: Message) => {
      if (message.method === undefined) answers.get(message.id as number)?.(message);
      else if (message.id !== undefined)
        worker.postMessage({ jsonrpc: "2.0", id: message.id, result: answer(message.method, message.params ?? {}) });
      else if (message.method === "textDocument/publishDiagnostics") {
        const { uri, diagnostics } = message.params as unknown as PublishDiagnosticsParams;
        pushed.set(uri, diagnostics);
      }
    });
    const request = (method: string, params: unknown): Promise<unknown> => {
      const id = ++lastId;
      worker.postMessage({ jsonrpc: "2.0", id, method, params });
      return Promise.race([failed, new Promise((done) => answers.set(id, (message) => done(message.result)))]);
    };
    const initialized = (await request("initialize", {
      processId: null,
      rootUri: null,
      workspaceFolders: [{ uri: root, name: "shop" }],
      initializationOptions: { readsFiles: true },
      capabilities: { workspace: { configuration: true } },
    })) as { capabilities: { hoverProvider: boolean } };
    expect(initialized.capabilities.hoverProvider).toBe(true);
    worker.postMessage({ jsonrpc: "2.0", method: "initialized", params: {} });
    const codesOf = (path: string): string[] =>
      (pushed.get(`${root}/${path}`) ?? []).map((one) => `${one.range.start.line + 1} ${String(one.code)}`);
    const end = Date.now() + 20_000;
    while (!codesOf(JOB).includes("13 photo/changed-bytes") && Date.now() < end)
      await Promise.race([failed, new Promise((done) => setTimeout(done, 10))]);
    expect(codesOf(JOB)).toEqual(freshCodes(JOB).map((code) => code.replace(/:\d+/u, "")));
    expect(codesOf(SPARE)).toEqual(["2 name/never-used"]);
    expect(asked).toContain("gudgeon/listRecords");
    const hover = (await request("textDocument/hover", {
      textDocument: { uri: `${root}/${JOB}` },
      position: { line: 4, character: 6 },
    })) as { contents: { value: string } };
    expect(hover.contents.value).toContain("Job J26-101");
    await worker.terminate();
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
