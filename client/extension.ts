/** The extension where Node is: on a desktop and in a remote host. */
import { type ExtensionContext, Uri } from "vscode";
import { LanguageClient, TransportKind } from "vscode-languageclient/node";
import { Gudgeon } from "./gudgeon.ts";

let running: Gudgeon | undefined;

export async function activate(context: ExtensionContext): Promise<void> {
  const module = Uri.joinPath(context.extensionUri, "dist/server-node.cjs").fsPath;
  running = new Gudgeon(context, async (options) => {
    const program = { module, transport: TransportKind.stdio };
    return new LanguageClient(
      "gudgeon",
      "Gudgeon",
      { run: program, debug: { ...program, options: { execArgv: ["--inspect"] } } },
      options,
    );
  });
  await running.start();
}

export async function deactivate(): Promise<void> {
  await running?.stop();
}
