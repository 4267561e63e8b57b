/** The extension in a browser: the server runs in a worker of its own. */
import { type ExtensionContext, Uri, workspace } from "vscode";
import { LanguageClient } from "vscode-languageclient/browser";
import { Gudgeon } from "./gudgeon.ts";

let running: Gudgeon | undefined;

export async function activate(context: ExtensionContext): Promise<void> {
  const module = Uri.joinPath(context.extensionUri, "dist/server-browser.js");
  running = new Gudgeon(context, async (options) => {
    // A worker cannot be started from the address of an extension: its text is read and started from memory.
    const text = await workspace.fs.readFile(module);
    const address = URL.createObjectURL(new Blob([new Uint8Array(text)], { type: "text/javascript" }));
    try {
      return new LanguageClient("gudgeon", "Gudgeon", async () => new Worker(address), options);
    } finally {
      // The worker is made when the client starts; the address has to live until then.
      setTimeout(() => URL.revokeObjectURL(address), 60_000);
    }
  });
  await running.start();
}

export async function deactivate(): Promise<void> {
  await running?.stop();
}
