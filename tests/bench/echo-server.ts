/**
 * A language server without a language: it takes edits and answers each with the same list of findings, read once from the file named on its
 * command line. What it costs is what the protocol costs.
 */
import { readFileSync } from "node:fs";
import {
  createConnection,
  type Diagnostic,
  ProposedFeatures,
  StreamMessageReader,
  StreamMessageWriter,
  TextDocumentSyncKind,
} from "vscode-languageserver/node";

const diagnostics = JSON.parse(readFileSync(process.argv[2], "utf8")) as Diagnostic[];
const connection = createConnection(
  ProposedFeatures.all,
  new StreamMessageReader(process.stdin),
  new StreamMessageWriter(process.stdout),
);

connection.onInitialize(() => ({
  capabilities: { textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental } },
}));
const answer = (uri: string, version: number): void => void connection.sendDiagnostics({ uri, version, diagnostics });
connection.onDidOpenTextDocument(({ textDocument }) => answer(textDocument.uri, textDocument.version));
connection.onDidChangeTextDocument(({ textDocument }) => answer(textDocument.uri, textDocument.version));
connection.onShutdown(() => undefined);
connection.onExit(() => process.exit(0));
connection.listen();
