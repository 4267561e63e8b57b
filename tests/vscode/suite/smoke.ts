// The editor itself: is the extension there, does the window answer. Everything else builds on these.

import * as vscode from "vscode";
import { press, run, texts } from "./driver.ts";
import { check, checkEqual, test } from "./testing.ts";

const extensionId = "gudgeon.gudgeon";

test("the extension is installed and becomes active", async () => {
  const extension = vscode.extensions.getExtension(extensionId);
  check(extension, `${extensionId} is not among the extensions`);
  await extension.activate();
  check(extension.isActive, "the extension is not active");
});

test("it runs in the extension host that this run is about", async () => {
  // A worker has no `process` of Node; the other host has.
  const inNode =
    typeof (globalThis as { process?: { versions?: { node?: string } } }).process?.versions?.node === "string";
  checkEqual(inNode ? "node" : "browser", run.host, "the kind of extension host");
});

test("the folder is trusted, or not, as this run asked", async () => {
  checkEqual(vscode.workspace.isTrusted, !run.restricted, "whether the folder is trusted");
});

test("the window answers keys", async () => {
  await press("F1");
  const [input] = await texts(".quick-input-widget .quick-input-box");
  check(input !== undefined, "F1 opened no command list");
  await press("Escape");
});
