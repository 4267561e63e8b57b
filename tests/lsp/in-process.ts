/** The server in this process, behind two streams: for tests that reach into it (a failing rule, a clock). */
import { PassThrough } from "node:stream";
import {
  createConnection,
  createProtocolConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver/node";
import { filesOfDisk } from "../../server/lsp/disk-files.ts";
import type { Host } from "../../server/lsp/host.ts";
import { RawParams, rawEncoder } from "../../server/lsp/raw-params.ts";
import { startServer } from "../../server/lsp/server.ts";
import { Client, type ClientOptions } from "./client.ts";

export interface InProcess {
  readonly client: Client;
  [Symbol.asyncDispose](): Promise<void>;
}

export async function serverInProcess(
  options: ClientOptions,
  host: Partial<Pick<Host, "today" | "untilMidnight" | "held_ms">> = {},
): Promise<InProcess> {
  const toServer = new PassThrough();
  const toClient = new PassThrough();
  const connection = createConnection(
    new StreamMessageReader(toServer),
    new StreamMessageWriter(toClient, { charset: "utf-8", contentTypeEncoder: rawEncoder }),
  );
  startServer({
    connection,
    soon: (run) => void setImmediate(run),
    publish: (params) => void connection.sendNotification("textDocument/publishDiagnostics", new RawParams(params)),
    filesFor: (root) => (root.startsWith("file:") ? filesOfDisk : undefined),
    today: host.today ?? (() => "2026-05-01"),
    untilMidnight: host.untilMidnight ?? (() => 86_400_000),
    held_ms: host.held_ms ?? 60_000,
    version: "test",
    name: "test",
  });
  const client = new Client(
    createProtocolConnection(new StreamMessageReader(toClient), new StreamMessageWriter(toServer)),
    options.settings ?? {},
  );
  await client.start(options);
  return {
    client,
    async [Symbol.asyncDispose]() {
      // No `exit`: it would end the process in which the tests run.
      await client.request("shutdown", undefined);
      client.connection.dispose();
      connection.dispose();
    },
  };
}
