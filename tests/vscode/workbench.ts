// Starts the editor's server on loopback, and makes the address under which a browser opens a folder in it with the
// extension under development.

import { type ChildProcess, spawn } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { join } from "node:path";
import { serverMain } from "./install.ts";

/** Settings that keep the workbench quiet, so that what a test or a person sees comes from the extension. */
const quiet = {
  "chat.disableAIFeatures": true,
  "git.enabled": false,
  "extensions.autoCheckUpdates": false,
  "workbench.startupEditor": "none",
  "telemetry.telemetryLevel": "off",
  "workbench.secondarySideBar.defaultVisibility": "hidden",
};

export type ServerOptions = {
  /** Where the server keeps its data; made if missing. */
  readonly dataFolder: string;
  /** Opens every folder in restricted mode until a person trusts it. */
  readonly restricted?: boolean;
  /** Lets a test runner drive the workbench. */
  readonly driver?: boolean;
  /** Settings on top of the quiet ones. */
  readonly settings?: Readonly<Record<string, unknown>>;
  /** A folder of installed extensions. */
  readonly extensionsFolder?: string;
};

export type RunningServer = { readonly port: number; stop(): Promise<void> };

function freePort(): Promise<number> {
  return new Promise((done, fail) => {
    const probe = createServer();
    probe.once("error", fail);
    probe.listen(0, "127.0.0.1", () => {
      const address = probe.address();
      const port = typeof address === "object" && address !== null ? address.port : 0;
      probe.close(() => done(port));
    });
  });
}

/** Starts the server and waits until it listens. @throws with the server's own output when it does not within 60 s. */
export async function startServer(options: ServerOptions): Promise<RunningServer> {
  for (const scope of ["Machine", "User"]) {
    const folder = join(options.dataFolder, "data", scope);
    mkdirSync(folder, { recursive: true });
    writeFileSync(join(folder, "settings.json"), JSON.stringify({ ...quiet, ...options.settings }, null, 2));
  }
  const port = await freePort();
  const args = [serverMain, "--host", "127.0.0.1", "--port", String(port), "--without-connection-token"];
  args.push("--accept-server-license-terms", "--telemetry-level", "off", "--server-data-dir", options.dataFolder);
  args.push("--extensions-dir", options.extensionsFolder ?? join(options.dataFolder, "extensions"));
  if (options.driver) args.push("--enable-smoke-test-driver");
  if (!options.restricted) args.push("--disable-workspace-trust");
  // A group of its own, so that stopping it takes the extension hosts along.
  const server = spawn(process.execPath, args, { detached: true, stdio: ["ignore", "pipe", "pipe"] });
  const stop = (): Promise<void> => stopGroup(server);

  let output = "";
  await new Promise<void>((done, fail) => {
    const timer = setTimeout(() => fail(new Error(`the editor's server did not start:\n${output}`)), 60_000);
    const listen = (chunk: Buffer): void => {
      output += chunk.toString();
      if (!/listening on/.test(output)) return;
      clearTimeout(timer);
      done();
    };
    server.stdout?.on("data", listen);
    server.stderr?.on("data", listen);
    server.once("exit", (code) => {
      clearTimeout(timer);
      fail(new Error(`the editor's server ended with code ${code}:\n${output}`));
    });
  }).catch(async (error: unknown) => {
    await stop();
    throw error;
  });
  return { port, stop };
}

async function stopGroup(child: ChildProcess): Promise<void> {
  const { pid } = child;
  if (pid === undefined || child.exitCode !== null || child.signalCode !== null) return;
  const ended = new Promise<void>((done) => {
    child.once("exit", () => done());
  });
  const signal = (name: NodeJS.Signals): void => {
    try {
      process.kill(-pid, name);
    } catch {
      // The group is gone already.
    }
  };
  signal("SIGTERM");
  const hard = setTimeout(() => signal("SIGKILL"), 3_000);
  await ended;
  clearTimeout(hard);
}

/** The address that opens `folder`, with the extension in `extensionPath` and, in a test, the module `testsPath`. */
export function workbenchUrl(port: number, folder: string, extensionPath?: string, testsPath?: string): string {
  const remote = (path: string): string => `vscode-remote://127.0.0.1:${port}${encodeURI(path)}`;
  const payload: [string, string][] = [
    ["skipWelcome", "true"],
    ["skipReleaseNotes", "true"],
  ];
  if (extensionPath !== undefined) payload.push(["extensionDevelopmentPath", remote(extensionPath)]);
  if (testsPath !== undefined) payload.push(["extensionTestsPath", remote(testsPath)]);
  const query = `folder=${encodeURIComponent(folder)}&payload=${encodeURIComponent(JSON.stringify(payload))}`;
  return `http://127.0.0.1:${port}/?${query}`;
}
