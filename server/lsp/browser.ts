/** The server in a browser's worker: speaks by messages, and reads files through the client. */
import { BrowserMessageReader, BrowserMessageWriter, createConnection } from "vscode-languageserver/browser";
import { today, untilMidnight } from "../host/today.ts";
import { soonByMessage } from "./scheduler.ts";
import { startServer } from "./server.ts";

declare const GUDGEON_VERSION: string | undefined;

const scope = self as unknown as DedicatedWorkerGlobalScope;
const connection = createConnection(new BrowserMessageReader(scope), new BrowserMessageWriter(scope));

startServer({
  connection,
  soon: soonByMessage(),
  // Messages to a worker's client are copied as objects, not as text.
  publish: (params) =>
    void connection.sendNotification("textDocument/publishDiagnostics", JSON.parse(params) as object),
  filesFor: () => undefined,
  today: () => today(),
  untilMidnight: () => untilMidnight(),
  version: typeof GUDGEON_VERSION === "string" ? GUDGEON_VERSION : "from source",
  name: "browser worker",
});
