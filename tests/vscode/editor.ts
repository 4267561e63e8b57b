// `npm run editor`: the sample shop in a real editor with the extension, as it would be installed.
//
//   npm run editor                    the sample shop
//   npm run editor -- FOLDER          another folder
//   npm run editor -- --no-open       prints the address and opens nothing
//   npm run editor -- --server        the editor in the browser even where a desktop one is installed
//
// A desktop `code` on the PATH is used where there is one; else the server that the tests use, on loopback, in the
// browser. Either way the folder itself is opened, so what is changed there is changed on disk.

import { spawn, spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { join, resolve } from "node:path";
import { parseArgs } from "node:util";
import { sampleShop } from "../../server/host/sample-shop.ts";
import { installEditor } from "./install.ts";
import { onPath } from "./obstacle.ts";
import { startServer, workbenchUrl } from "./workbench.ts";

const root = resolve(import.meta.dirname, "../..");

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { "no-open": { type: "boolean" }, server: { type: "boolean" } },
});

async function main(): Promise<number> {
  const folder = positionals[0] === undefined ? sampleShop()?.path : resolve(positionals[0]);
  if (folder === undefined || !existsSync(folder)) {
    console.error(folder === undefined ? "There is no sample shop under samples/." : `There is no folder ${folder}.`);
    return 2;
  }
  const desktop = values.server ? undefined : onPath("code");
  if (desktop !== undefined) {
    const opened = spawnSync(desktop, ["--new-window", `--extensionDevelopmentPath=${root}`, folder], {
      stdio: "inherit",
    });
    if (opened.status === 0) {
      console.log(`Opened ${folder} in ${desktop}.`);
      return 0;
    }
    console.log(`${desktop} did not open; serving the editor instead.`);
  }
  if (Number(process.versions.node.split(".")[0]) < 24) {
    console.error(`The editor in the browser needs Node 24, and this is ${process.version}.`);
    return 2;
  }
  const problem = installEditor();
  if (problem !== undefined) {
    console.error(problem);
    return 3;
  }
  const server = await startServer({ dataFolder: join(import.meta.dirname, ".work/editor") });
  const url = workbenchUrl(server.port, folder, root);
  console.log(`The shop is open at\n\n  ${url}\n\nThe editor listens on this machine only. Ctrl+C ends it.`);
  const opener = process.platform === "darwin" ? "open" : "xdg-open";
  if (!values["no-open"] && onPath(opener) !== undefined) {
    // Where no browser opens, the printed address serves.
    spawn(opener, [url], { stdio: "ignore", detached: true })
      .on("error", () => undefined)
      .unref();
  }
  await new Promise<void>((done) => {
    for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"] as const) process.once(signal, () => done());
  });
  await server.stop();
  return 0;
}

process.exitCode = await main();
