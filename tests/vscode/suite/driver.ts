// Hands and eyes for a test in the real editor: keys, clicks, screenshots and what the page shows. Works in both kinds
// of extension host, so nothing here may need Node.

import * as vscode from "vscode";

type Asked =
  | { readonly action: "screenshot"; readonly file: string }
  | { readonly action: "press"; readonly keys: readonly string[] }
  | { readonly action: "type"; readonly text: string; readonly delay_ms?: number }
  | { readonly action: "paste"; readonly text: string }
  | { readonly action: "click"; readonly selector: string; readonly button?: "left" | "right" }
  | { readonly action: "hover"; readonly selector: string }
  | { readonly action: "texts"; readonly selector: string; readonly timeout_ms?: number }
  | { readonly action: "clipboard" };

/** What the test asks of the launcher, with a number by which the answer is found. */
export type DriverRequest = Asked & { readonly id: number };

/** Put in by the bundler for each run. */
declare const RUN: {
  readonly answers: string;
  readonly pictures: string;
  readonly name: string;
  readonly host: "node" | "browser";
  readonly restricted: boolean;
};

export const run = RUN;

export const sleep = (time_ms: number): Promise<void> => new Promise((done) => setTimeout(done, time_ms));

/**
 * Asks `probe` until it gives something other than undefined or false.
 * @throws after `limit_ms`, naming `what`.
 */
export async function until<T>(
  what: string,
  probe: () => T | Thenable<T>,
  limit_ms = 15_000,
): Promise<Exclude<T, undefined | false>> {
  const end = performance.now() + limit_ms;
  for (;;) {
    const value = await probe();
    if (value !== undefined && value !== false) return value as Exclude<T, undefined | false>;
    if (performance.now() > end) throw new Error(`waited ${limit_ms} ms for ${what}`);
    await sleep(40);
  }
}

/** A path on the machine as an address that this extension host can read. */
export function fileUri(path: string): vscode.Uri {
  const folder = vscode.workspace.workspaceFolders?.[0];
  if (folder === undefined) throw new Error("no folder is open");
  return folder.uri.with({ path });
}

let lastId = 0;

async function ask(asked: Asked): Promise<unknown> {
  const id = ++lastId;
  console.log(`GUDGEON-DRIVER ${JSON.stringify({ ...asked, id })}`);
  const file = fileUri(`${run.answers}/${id}.json`);
  const bytes = await until(
    `the page to ${asked.action}`,
    async () => {
      try {
        return await vscode.workspace.fs.readFile(file);
      } catch {
        return undefined;
      }
    },
    30_000,
  );
  const answer = JSON.parse(new TextDecoder().decode(bytes)) as { value?: unknown; error?: string };
  if (answer.error !== undefined) throw new Error(`${asked.action}: ${answer.error}`);
  return answer.value;
}

/** Takes a picture of the window; it lands in tests/vscode/.work/pictures/<run>-<name>.png. */
export async function screenshot(name: string): Promise<void> {
  await ask({ action: "screenshot", file: `${run.pictures}/${run.name}-${name}.png` });
}

/** Presses keys one after the other, in playwright's names: `press("Control+Space", "ArrowDown", "Enter")`. */
export async function press(...keys: string[]): Promise<void> {
  await ask({ action: "press", keys });
}

/** Types text where the focus is, one key after the other. */
export async function type(text: string, delay_ms = 0): Promise<void> {
  await ask({ action: "type", text, delay_ms });
}

/** Puts text on the clipboard and pastes it where the focus is. */
export async function paste(text: string): Promise<void> {
  await ask({ action: "paste", text });
}

export async function clipboard(): Promise<string> {
  return (await ask({ action: "clipboard" })) as string;
}

/** Clicks the first element that a CSS selector finds. */
export async function click(selector: string, button: "left" | "right" = "left"): Promise<void> {
  await ask({ action: "click", selector, button });
}

/** Rests the pointer on the first element that a CSS selector finds. */
export async function hover(selector: string): Promise<void> {
  await ask({ action: "hover", selector });
}

/** What the elements that a CSS selector finds show; waits for the first. @throws when none comes. */
export async function texts(selector: string, timeout_ms = 10_000): Promise<string[]> {
  return (await ask({ action: "texts", selector, timeout_ms })) as string[];
}
