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
    const worker = new Worker(address);
    // Its text is fetched by the time the first message comes back; until then the address has to live.
    worker.addEventListener("message", () => URL.revokeObjectURL(address), { once: true });
    // The worker itself and not a function that makes it: the host's workers are of a class of its own, which the client does not take for one.
    return new LanguageClient("gudgeon", "Gudgeon", worker, options);
  });
  await running.start();
}

export async function deactivate(): Promise<void> {
  await running?.stop();
}
