/** The server as a program: speaks over stdin and stdout, and ends with the editor that started it. */
import { createConnection, StreamMessageReader, StreamMessageWriter } from "vscode-languageserver/node";
import { today, untilMidnight } from "../host/today.ts";
import { filesOfDisk } from "./disk-files.ts";
import { RawParams, rawEncoder } from "./raw-params.ts";
import { startServer } from "./server.ts";

declare const GUDGEON_VERSION: string | undefined;

const { stdin, stdout } = process;
// An editor that dies closes the pipe or leaves it to the system; either way nobody reads any more.
stdin.on("end", () => process.exit(1));
stdin.on("close", () => process.exit(1));
stdout.on("error", () => process.exit(1));

const connection = createConnection(
  new StreamMessageReader(stdin),
  new StreamMessageWriter(stdout, { charset: "utf-8", contentTypeEncoder: rawEncoder }),
);
// Whatever a library prints goes where it cannot break the stream of messages.
console.log = console.info = console.debug = (...parts: unknown[]) => console.error(...parts);
process.on("uncaughtException", (error) => connection.console.error(`Contained: ${error.stack ?? error.message}`));
process.on("unhandledRejection", (reason) =>
  connection.console.error(`Contained: ${reason instanceof Error ? (reason.stack ?? reason.message) : String(reason)}`),
);

startServer({
  connection,
  soon: (run) => void setImmediate(run),
  publish: (params) => void connection.sendNotification("textDocument/publishDiagnostics", new RawParams(params)),
  filesFor: (root) => (root.startsWith("file:") ? filesOfDisk : undefined),
  today: () => today(),
  untilMidnight: () => untilMidnight(),
  version: typeof GUDGEON_VERSION === "string" ? GUDGEON_VERSION : "from source",
  name: `Node ${process.versions.node}, ${process.platform}`,
});
