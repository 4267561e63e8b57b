// The sample shops as a person sees them first. The pictures of the README are taken here, so that they show what the
// editor shows.

import * as vscode from "vscode";
import { press, run, screenshot, texts, until } from "./driver.ts";
import { findingOf, openAt, record } from "./records-of-fixture.ts";
import { check, test } from "./testing.ts";

const closeSideBar = (): Thenable<unknown> => vscode.commands.executeCommand("workbench.action.closeSidebar");

if (run.name === "sample-faulty") {
  test("the faulty sample fills the Problems view", async () => {
    await openAt("shop.gudgeon", "shop");
    await findingOf(record("limit.gudgeon"), "limit/out-of-limit");
    await closeSideBar();
    await vscode.commands.executeCommand("workbench.actions.view.problems");
    // The view goes to the findings of the file that is opened while it is there.
    await openAt("limit.gudgeon", "98.084", 2);
    const rows = await until("the readings out of limit", async () => {
      const all = await texts(".markers-panel .monaco-list-row");
      return all.some((row) => row.includes("over the wear limit")) ? all : undefined;
    });
    check(rows.length > 5, rows.join("\n"));
    await vscode.commands.executeCommand("workbench.action.focusActiveEditorGroup");
    await screenshot("findings");
    await vscode.commands.executeCommand("workbench.action.closePanel");
  });

  test("a slip of the pen has its quick fixes", async () => {
    const editor = await openAt("syntax.gudgeon", "98,0", 2);
    await findingOf(record("syntax.gudgeon"), "syntax/comma-number");
    await closeSideBar();
    await vscode.commands.executeCommand("editor.action.quickFix");
    const rows = await until("the menu", async () => {
      const all = await texts(".action-widget .monaco-list-row");
      return all.length > 1 ? all : undefined;
    });
    check(
      rows.some((row) => row.startsWith("Decimal")),
      rows.join("\n"),
    );
    await screenshot("quick-fixes");
    await press("Escape");
    check(!editor.document.isDirty, "looking at the menu changed the text");
  });
} else {
  test("resting on the job of the bench sample shows its totals", async () => {
    await openAt("J26-021.gudgeon", "\njob J26-021", 7);
    await closeSideBar();
    // Findings come first, so that the picture shows both.
    await until("findings", () => vscode.languages.getDiagnostics(record("J26-021.gudgeon")).length > 10);
    await vscode.commands.executeCommand("editor.action.showHover");
    const shown = await until("the totals", async () => {
      const all = (await texts(".monaco-hover .hover-contents")).join("\n");
      return all.includes("places measured") ? all : undefined;
    });
    check(/places measured: \d+ of \d+/.test(shown), shown);
    await screenshot("totals");
    await press("Escape");
  });
}
