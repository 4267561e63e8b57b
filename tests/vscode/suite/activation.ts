// The extension sleeps until a record is opened; runs first, since every other suite opens one.

import * as vscode from "vscode";
import { until } from "./driver.ts";
import { record } from "./records-of-fixture.ts";
import { check, test } from "./testing.ts";

test("the extension becomes active with the first record and not before", async () => {
  const extension = vscode.extensions.getExtension("gudgeon.gudgeon");
  check(extension, "the extension is not there");
  check(!extension.isActive, "the extension was active before a record was opened");
  await vscode.window.showTextDocument(record("J26-101.gudgeon"));
  await until("the extension to become active", () => extension.isActive);
  check(extension.isActive, "a record did not wake the extension");
});

test("a record has the language, its own icon and its own colours", async () => {
  const document = await vscode.workspace.openTextDocument(record("shop.gudgeon"));
  check(document.languageId === "gudgeon", `the language is ${document.languageId}`);
});
