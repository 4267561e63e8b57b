// Stands in for the executable of a desktop editor: started by @vscode/test-electron with the same flags, it opens the
// same workbench from a server in a headless Chromium, runs the test module in a real extension host, and ends with its
// exit code. run.ts starts it; it is not meant to be called by hand.
//
// The test module speaks to it in console lines that begin with `GUDGEON-DRIVER ` and hold one JSON object (see
// suite/driver.ts); each is carried out on the page and answered with a file in the folder of answers, because a file is
// what both kinds of extension host can read.

import { mkdirSync, renameSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { parseArgs } from "node:util";
import { chromium as chromiumPath } from "./obstacle.ts";
import type { DriverRequest } from "./suite/driver.ts";
import { startServer, workbenchUrl } from "./workbench.ts";

// The part of playwright-core that is used. Its own types come with a package that is fetched only when tests run.
type Locator = {
  first(): Locator;
  click(options?: { button?: string; timeout?: number }): Promise<void>;
  hover(options?: { timeout?: number }): Promise<void>;
  waitFor(options: { state: string; timeout: number }): Promise<void>;
  allInnerTexts(): Promise<string[]>;
};
type Page = {
  exposeFunction(name: string, call: (...args: never[]) => unknown): Promise<void>;
  goto(url: string): Promise<unknown>;
  screenshot(options: { path: string }): Promise<unknown>;
  locator(selector: string): Locator;
  evaluate(script: string): Promise<unknown>;
  keyboard: { press(key: string): Promise<void>; type(text: string, options?: { delay: number }): Promise<void> };
  on(event: "crash" | "pageerror", call: (error: unknown) => void): void;
};
type Context = { newPage(): Promise<Page>; grantPermissions(names: string[], at: { origin: string }): Promise<void> };
type Browser = { newContext(options: object): Promise<Context>; close(): Promise<void> };
type Playwright = { chromium: { launch(options: object): Promise<Browser> } };

const { values, positionals } = parseArgs({
  allowPositionals: true,
  // test-electron adds flags of the desktop editor that have no meaning here.
  strict: false,
  options: {
    extensionDevelopmentPath: { type: "string" },
    extensionTestsPath: { type: "string" },
    work: { type: "string" },
    settings: { type: "string" },
    restricted: { type: "boolean" },
    extensions: { type: "string" },
  },
});

/** @returns what the page answered, for requests that ask for something. */
async function carryOut(page: Page, request: DriverRequest): Promise<unknown> {
  switch (request.action) {
    case "screenshot":
      mkdirSync(dirname(request.file), { recursive: true });
      await page.screenshot({ path: request.file });
      return undefined;
    case "press":
      for (const key of request.keys) await page.keyboard.press(key);
      return undefined;
    case "type":
      await page.keyboard.type(request.text, { delay: request.delay_ms ?? 0 });
      return undefined;
    case "paste":
      await page.evaluate(`navigator.clipboard.writeText(${JSON.stringify(request.text)})`);
      await page.keyboard.press("Control+V");
      return undefined;
    case "click":
      await page
        .locator(request.selector)
        .first()
        .click({ button: request.button ?? "left", timeout: 10_000 });
      return undefined;
    case "hover":
      await page.locator(request.selector).first().hover({ timeout: 10_000 });
      return undefined;
    case "texts":
      await page
        .locator(request.selector)
        .first()
        .waitFor({ state: "attached", timeout: request.timeout_ms ?? 10_000 });
      return page.locator(request.selector).allInnerTexts();
    case "clipboard":
      return page.evaluate("navigator.clipboard.readText()");
  }
}

async function main(): Promise<number> {
  const folder = positionals[0];
  const { extensionDevelopmentPath, extensionTestsPath, work } = values;
  if (folder === undefined || typeof work !== "string" || typeof extensionTestsPath !== "string") {
    console.error("launcher: needs a folder, --work and --extensionTestsPath");
    return 2;
  }
  const answers = join(work, "answers");
  mkdirSync(answers, { recursive: true });
  const require = createRequire(import.meta.url);
  const playwright = require("playwright-core") as Playwright;
  const server = await startServer({
    dataFolder: join(work, "server"),
    restricted: values.restricted === true,
    driver: true,
    ...(typeof values.extensions === "string" ? { extensionsFolder: values.extensions } : {}),
    settings: typeof values.settings === "string" ? (JSON.parse(values.settings) as Record<string, unknown>) : {},
  });
  let browser: Browser | undefined;
  try {
    browser = await playwright.chromium.launch({
      executablePath: chromiumPath(),
      args: [
        ...["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"],
        ...["--disable-background-networking", "--disable-component-update", "--disable-sync"],
      ],
    });
    const context = await browser.newContext({ viewport: { width: 1400, height: 900 } });
    const origin = `http://127.0.0.1:${server.port}`;
    await context.grantPermissions(["clipboard-read", "clipboard-write"], { origin });
    const page = await context.newPage();

    let tail = Promise.resolve();
    const answer = (request: DriverRequest): void => {
      // One after the other: keys pressed out of order are another test.
      tail = tail.then(async () => {
        let body: { value?: unknown; error?: string };
        try {
          body = { value: await carryOut(page, request) };
        } catch (error) {
          body = { error: error instanceof Error ? error.message : String(error) };
        }
        const file = join(answers, `${request.id}.json`);
        writeFileSync(`${file}.part`, JSON.stringify(body));
        renameSync(`${file}.part`, file);
      });
    };

    const exit = new Promise<number>((done) => {
      page.on("crash", () => {
        console.error("launcher: the page crashed");
        done(1);
      });
      void page.exposeFunction("codeAutomationExit", (code: number) => done(code));
    });
    await page.exposeFunction("codeAutomationLog", (type: string, args: unknown[]) => {
      const line = args.map((part) => (typeof part === "string" ? part : JSON.stringify(part))).join(" ");
      const mark = "GUDGEON-DRIVER ";
      const at = line.indexOf(mark);
      if (at >= 0) answer(JSON.parse(line.slice(at + mark.length)) as DriverRequest);
      else if (line.includes("GUDGEON-PRINT ")) console.log(line.slice(line.indexOf("GUDGEON-PRINT ") + 14));
      else if (process.env.GUDGEON_VERBOSE) console.log(`[${type}] ${line}`);
    });
    const extension = typeof extensionDevelopmentPath === "string" ? extensionDevelopmentPath : undefined;
    await page.goto(workbenchUrl(server.port, folder, extension, extensionTestsPath));
    const limit = new Promise<number>((done) => {
      setTimeout(() => {
        console.error("launcher: the tests did not end within 4 minutes");
        void page.screenshot({ path: join(work, "stuck.png") }).finally(() => done(1));
      }, 240_000).unref();
    });
    return await Promise.race([exit, limit]);
  } finally {
    await browser?.close();
    await server.stop();
  }
}

process.exit(await main());
