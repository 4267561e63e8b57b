// The same verification in a browser's worker, where the editor on the web runs it: bundled as the extension is, in the machine's own Chromium.

import { spawn } from "node:child_process";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { join, resolve } from "node:path";
import { build } from "esbuild";
import { afterAll, expect, test } from "vitest";
import { makeHardwareKey, makeKey, signWithSshKeygen, temporaryFolder } from "./keys.ts";

const folder = temporaryFolder();
afterAll(() => folder.remove());

const TEXT = `sign inspector RPE 2026-02-20 seal 1:${"ab".repeat(32)}\n`;

/** Shows a page with a worker to Chromium. @returns what the page posts to `/said` */
async function askBrowser(page: string, worker: string): Promise<unknown> {
  let answer: (said: unknown) => void = () => undefined;
  const promise = new Promise<unknown>((done) => {
    answer = done;
  });
  const server = createServer((request, response) => {
    if (request.url === "/said") {
      let body = "";
      request.on("data", (chunk: Buffer) => {
        body += chunk.toString("utf8");
      });
      request.on("end", () => answer(JSON.parse(body)));
      response.end();
    } else {
      const script = request.url === "/worker.js";
      response.setHeader("Content-Type", script ? "text/javascript; charset=utf-8" : "text/html; charset=utf-8");
      response.end(script ? worker : page);
    }
  });
  await new Promise<void>((ready) => server.listen(0, "127.0.0.1", ready));
  const { port } = server.address() as AddressInfo;
  const flags = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--no-first-run"];
  const browser = spawn(
    "chromium",
    [...flags, `--user-data-dir=${join(folder.path, "profile")}`, `http://127.0.0.1:${port}/`],
    { stdio: "ignore" },
  );
  const gone = new Promise<never>((_, failed) => {
    browser.on("error", failed);
    browser.on("exit", (code) => failed(new Error(`the browser ended with ${code} before it said anything`)));
  });
  try {
    return await Promise.race([promise, gone]);
  } finally {
    gone.catch(() => undefined);
    const ended = new Promise((done) => browser.on("exit", done));
    browser.kill("SIGKILL");
    await ended;
    server.closeAllConnections();
    server.close();
  }
}

test("every kind of key gives the same verdict in a worker of Chromium", async () => {
  const keys = {
    ed25519: makeKey(folder.path, "ed25519", "-t", "ed25519"),
    ecdsa: makeKey(folder.path, "ecdsa", "-t", "ecdsa", "-b", "256"),
    rsa: makeKey(folder.path, "rsa", "-t", "rsa", "-b", "2048"),
  };
  const hardware = { "sk-ed25519": makeHardwareKey("ed25519"), "sk-ecdsa": makeHardwareKey("ecdsa") };
  const claimOf = (line: string) => ({ statement: TEXT, signer: "RPE", keys: [line], lapsedKeys: [] });
  const cases = [
    ...Object.entries(keys).map(([kind, key]) => [kind, signWithSshKeygen(key, TEXT), claimOf(key.line)] as const),
    ...Object.entries(hardware).map(([kind, key]) => [kind, key.sign(TEXT), claimOf(key.line)] as const),
  ];
  const tampered = cases.map(
    ([kind, file, claim]) => [`${kind} tampered`, file, { ...claim, statement: TEXT.replace("RPE", "ATH") }] as const,
  );

  const bundle = await build({
    stdin: {
      contents: `import { verifySignature } from "./ssh-signature.ts";
onmessage = async ({ data }) => {
  const said = {};
  for (const [name, file, claim] of data) {
    const verdict = await verifySignature(file, claim);
    said[name] = verdict.good ? "good" : verdict.reason;
  }
  postMessage(said);
};`,
      resolveDir: resolve(import.meta.dirname, "../../server/evidence"),
      loader: "ts",
    },
    bundle: true,
    format: "iife",
    platform: "browser",
    target: "es2022",
    write: false,
  });
  const worker = bundle.outputFiles[0]?.text ?? "";
  const json = (value: unknown): string => JSON.stringify(value).replaceAll("<", "\\u003c");
  const page = `<!doctype html><meta charset="utf-8"><script>
const worker = new Worker("/worker.js");
const say = (said) => fetch("/said", { method: "POST", body: JSON.stringify(said) });
worker.onmessage = ({ data }) => say(data);
worker.onerror = (error) => say({ error: String(error.message) });
worker.postMessage(${json([...cases, ...tampered])});
</script>`;
  const said = await askBrowser(page, worker);
  expect(said).toEqual(
    Object.fromEntries([
      ...cases.map(([kind]) => [kind, "good"]),
      ...tampered.map(([kind]) => [kind, "does-not-verify"]),
    ]),
  );
});
