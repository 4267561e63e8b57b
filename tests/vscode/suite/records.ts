// What a person does all day, in the real editor: reads findings, rests on a name, completes, repairs, renames, formats.
// Runs in both kinds of host, trusted and restricted, so nothing here may need Node.

import * as vscode from "vscode";
import { click, press, run, screenshot, texts, type, until } from "./driver.ts";
import { codesOf, findingOf, noFindingOf, openAt, record, restore } from "./records-of-fixture.ts";
import { check, checkEqual, test } from "./testing.ts";

const JOB = "J26-101.gudgeon";
const SHOP = "shop.gudgeon";
/** No test opens it. */
const SPARE = "spare.gudgeon";

test("findings come for the open record and for one that was never opened", async () => {
  await openAt(JOB, "entry E1");
  const job = await findingOf(record(JOB), "limit/out-of-limit");
  check(job.includes("12 limit/out-of-limit"), job.join(", "));
  check(job.includes("19 syntax/comma-number"), job.join(", "));
  const spare = await findingOf(record(SPARE), "name/never-used");
  checkEqual(spare, ["2 name/never-used"], "the record that is not open");
});

test("a finding points to the line of the limit, and its code leads to the page of the rule", async () => {
  const found = vscode.languages.getDiagnostics(record(JOB)).find((one) => one.message.includes("0.018 mm over"));
  check(found, "the reading over its limit was not found");
  checkEqual(found.severity, vscode.DiagnosticSeverity.Error, "the severity");
  check(typeof found.code === "object", "the code has no page");
  checkEqual(found.code.target.toString(), "gudgeon-rule:/limit/out-of-limit.md", "the page");
  const page = await vscode.workspace.openTextDocument(found.code.target);
  check(page.getText().startsWith("# limit/out-of-limit"), page.getText().slice(0, 80));
  const related = found.relatedInformation?.[0];
  check(related, "the finding names no other place");
  checkEqual(related.location.uri.path, record(SHOP).path, "the file of the limit");
});

test("the Problems view lists them with their messages", async () => {
  await vscode.commands.executeCommand("workbench.actions.view.problems");
  const rows = await until("a row that says so", async () => {
    const all = await texts(".markers-panel .monaco-list-row");
    return all.some((row) => row.includes("0.018 mm over")) ? all : undefined;
  });
  check(
    rows.some((row) => row.includes("has a comma")),
    rows.join("\n"),
  );
  await screenshot("problems");
  await vscode.commands.executeCommand("workbench.action.closePanel");
});

test("files that records name are looked at in a trusted folder and only there", async () => {
  if (run.restricted) {
    check(
      !codesOf(record(JOB)).some((one) => one.includes("photo/changed-bytes")),
      "a photo was opened in restricted mode",
    );
    return;
  }
  const job = await findingOf(record(JOB), "photo/changed-bytes");
  check(job.includes("13 photo/changed-bytes"), job.join(", "));
});

test("resting on a job shows its totals", async () => {
  await openAt(JOB, "J26-101", 2);
  await vscode.commands.executeCommand("editor.action.showHover");
  const shown = await until("the totals", async () => {
    const all = (await texts(".monaco-hover .hover-contents")).join("\n");
    return all.includes("places measured") ? all : undefined;
  });
  check(shown.includes("Job J26-101 on W2-007"), shown);
  await screenshot("hover");
  await press("Escape");
});

test("completion offers the instruments after `with `", async () => {
  const editor = await openAt(JOB, "MIC-6O");
  const before = editor.document.getText();
  const { line } = editor.selection.active;
  await editor.edit((edit) => edit.delete(new vscode.Range(line, 7, line, 13)));
  editor.selection = new vscode.Selection(line, 7, line, 7);
  await vscode.commands.executeCommand("editor.action.triggerSuggest");
  const rows = await until("the list", async () => {
    const all = await texts(".suggest-widget .monaco-list-row");
    return all.some((row) => row.includes("MIC-60")) ? all : undefined;
  });
  check(rows[0]?.includes("MIC-60"), rows.join("\n"));
  await press("Enter");
  await until("the name in the text", () => editor.document.lineAt(line).text === "  with MIC-60");
  checkEqual(editor.document.lineAt(line).text, "  with MIC-60", "the line");
  await noFindingOf(record(SHOP), "name/never-used");
  await restore(editor, before);
  await findingOf(record(SHOP), "name/never-used");
});

test("a quick fix of the menu repairs the text, and its finding goes", async () => {
  const editor = await openAt(JOB, "59,911", 3);
  const before = editor.document.getText();
  const { line } = editor.selection.active;
  await findingOf(record(JOB), "syntax/comma-number");
  await vscode.commands.executeCommand("editor.action.quickFix");
  const rows = await until("the menu", async () => {
    const all = await texts(".action-widget .monaco-list-row");
    return all.some((row) => row.includes("Decimal: 59.911")) ? all : undefined;
  });
  check(
    rows.some((row) => row.includes("Thousands: 59911")),
    rows.join("\n"),
  );
  await screenshot("quick-fix");
  await press("Enter");
  await until("the repaired line", () => editor.document.lineAt(line).text.includes("59.911"));
  await noFindingOf(record(JOB), "syntax/comma-number");
  check(!editor.document.lineAt(line).text.includes(","), editor.document.lineAt(line).text);
  await restore(editor, before);
  await findingOf(record(JOB), "syntax/comma-number");
});

test("what is typed is found once the cursor leaves the line, and undo takes it back", async () => {
  const editor = await openAt(JOB, "  air 20 C", "  air 20 C".length);
  const before = editor.document.getText();
  await type("\nmesure piston.skirt[1] 59.914 mm");
  await press("ArrowUp");
  await findingOf(record(JOB), "syntax/unknown-word");
  checkEqual(
    codesOf(record(JOB)).filter((one) => one.endsWith("syntax/unknown-word")),
    ["10 syntax/unknown-word"],
    "the new finding",
  );
  await until("the text as it was", async () => {
    await vscode.commands.executeCommand("undo");
    return editor.document.getText() === before;
  });
  await noFindingOf(record(JOB), "syntax/unknown-word");
  await editor.document.save();
});

test("a rename reaches every file", async () => {
  const editor = await openAt(SHOP, "BG-60", 2);
  const shopText = editor.document.getText();
  const jobDocument = await vscode.workspace.openTextDocument(record(JOB));
  const jobText = jobDocument.getText();
  // The command ends when the box is closed, so it is not waited for here.
  const renamed = vscode.commands.executeCommand("editor.action.rename");
  await texts(".rename-box .rename-input:focus");
  await press("Control+A");
  await type("BG-61");
  await press("Enter");
  await until("the new name in the job", () => jobDocument.getText().includes("with BG-61"));
  await renamed;
  check(editor.document.getText().includes('instrument BG-61 "Bore gauge'), "the declaration kept its old name");
  check(!jobDocument.getText().includes("BG-60"), "the job kept the old name");
  check(
    !codesOf(record(JOB)).some((one) => one.endsWith("name/unknown") && one.startsWith("10 ")),
    "the new name is not known",
  );
  await restore(editor, shopText);
  await restore(await vscode.window.showTextDocument(jobDocument), jobText);
});

test("formatting lays a line out and changes no figure", async () => {
  const editor = await openAt(JOB, "measure   piston");
  const before = editor.document.getText();
  await vscode.commands.executeCommand("editor.action.formatDocument");
  await until("the laid out line", () => !editor.document.getText().includes("measure   piston"));
  const bare = (text: string): string => text.replace(/\s+/g, " ");
  checkEqual(bare(editor.document.getText()), bare(before), "the words of the record");
  await restore(editor, before);
});

test("symbols, definition, references, folding and links answer", async () => {
  const uri = record(JOB);
  const symbols = await vscode.commands.executeCommand<vscode.DocumentSymbol[]>(
    "vscode.executeDocumentSymbolProvider",
    uri,
  );
  check(
    symbols.some((one) => one.name.includes("J26-101")),
    symbols.map((one) => one.name).join(", "),
  );
  const editor = await openAt(JOB, "BG-60", 2);
  const at = editor.selection.active;
  const targets = await vscode.commands.executeCommand<vscode.Location[]>("vscode.executeDefinitionProvider", uri, at);
  checkEqual(
    targets.map((one) => one.uri.path),
    [record(SHOP).path],
    "where the gauge is declared",
  );
  const uses = await vscode.commands.executeCommand<vscode.Location[]>("vscode.executeReferenceProvider", uri, at);
  const files = new Set(uses.map((one) => one.uri.path.split("/").pop()));
  checkEqual([files.size, files.has(JOB), files.has(SHOP)], [2, true, true], "where the gauge is named");
  const folds = await vscode.commands.executeCommand<vscode.FoldingRange[]>("vscode.executeFoldingRangeProvider", uri);
  check(folds.length >= 4, `${folds.length} folds`);
  const links = await vscode.commands.executeCommand<vscode.DocumentLink[]>("vscode.executeLinkProvider", uri);
  check(
    links.some((one) => one.target?.path.endsWith("photos/barrels.png")),
    links.map((one) => String(one.target)).join(", "),
  );
});

test("a record that appears, changes or goes outside the editor is followed", async () => {
  const uri = record("extra.gudgeon");
  const write = (text: string) => vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(text));
  await write('person PEB "Pip Ebbets again"\n');
  await until("a name declared twice", () => codesOf(uri).length + codesOf(record(SHOP)).length > 1, 20_000);
  const twice = [...codesOf(uri), ...codesOf(record(SHOP))];
  check(
    twice.some((one) => one.includes("name/")),
    twice.join(", "),
  );
  await vscode.workspace.fs.delete(uri);
  await until("the findings to go", () => codesOf(uri).length === 0, 20_000);
  checkEqual(codesOf(record(SHOP)), ["8 name/never-used"], "what is left");
});

test("the code in a finding's hover opens the page of its rule", async () => {
  await openAt(JOB, "60.078", 2);
  await vscode.commands.executeCommand("editor.action.showHover");
  await texts(".monaco-hover a.code-link");
  await click(".monaco-hover a.code-link");
  await until("the page", () => vscode.window.activeTextEditor?.document.uri.scheme === "gudgeon-rule");
  checkEqual(vscode.window.activeTextEditor?.document.uri.path, "/limit/out-of-limit.md", "the page");
  await vscode.commands.executeCommand("workbench.action.closeActiveEditor");
});

test("the command shows the page of a rule as a page", async () => {
  await vscode.commands.executeCommand("gudgeon.explainRule", "limit/out-of-limit");
  await until("a preview", () =>
    vscode.window.tabGroups.all.some((group) => group.tabs.some((tab) => tab.label.includes("out-of-limit"))),
  );
  check(true, "");
  await screenshot("rule-page");
  await vscode.commands.executeCommand("workbench.action.closeEditorsInOtherGroups");
  await vscode.commands.executeCommand("workbench.action.closeAllEditors");
});

test("the status item says what the server said", async () => {
  await openAt(JOB, "entry E1");
  await vscode.commands.executeCommand("workbench.action.focusActiveEditorGroup");
  await click("#status\\.languageStatus");
  const said = await until("the item", async () => {
    const all = (await texts(".hover-language-status")).join("\n");
    return all.includes("Gudgeon: checked") ? all : undefined;
  });
  check(said.includes("3 files"), said);
  check(said.includes("as of 2026-05-01"), said);
  checkEqual(said.includes("not trusted"), run.restricted, "whether it says that the folder is not trusted");
  await screenshot("status");
  await press("Escape");
});

test("the report of diagnostics is on the clipboard and holds no line of a record", async () => {
  await vscode.commands.executeCommand("gudgeon.copyDiagnosticsReport");
  const report = await until("the report", async () => (await vscode.env.clipboard.readText()) || undefined);
  check(report.includes("server running"), report);
  check(report.includes("failures: none"), report);
  check(report.includes(run.host === "browser" ? "browser worker" : "Node "), report);
  check(!report.includes("Ebbets") && !report.includes("W2-007"), report);
});

test("a setting holds at once", async () => {
  await openAt(JOB, "entry E1");
  await findingOf(record(SPARE), "name/never-used");
  const settings = vscode.workspace.getConfiguration("gudgeon");
  await settings.update("scope", "openFiles", vscode.ConfigurationTarget.Global);
  await until("closed files to show nothing", () => codesOf(record(SPARE)).length === 0);
  check(codesOf(record(JOB)).length > 0, "the open file shows nothing either");
  await settings.update("scope", undefined, vscode.ConfigurationTarget.Global);
  checkEqual(await findingOf(record(SPARE), "name/never-used"), ["2 name/never-used"], "what comes back");
});

test("a restart loses nothing", async () => {
  const editor = await openAt(JOB, "entry E1");
  await findingOf(record(JOB), "limit/out-of-limit");
  const before = codesOf(record(JOB));
  let gone = false;
  const watch = vscode.languages.onDidChangeDiagnostics(() => {
    if (codesOf(record(JOB)).length === 0) gone = true;
  });
  await vscode.commands.executeCommand("gudgeon.restartServer");
  await until("the same findings", () => JSON.stringify(codesOf(record(JOB))) === JSON.stringify(before));
  watch.dispose();
  check(gone, "the old findings stayed during the restart, so nothing was restarted");
  checkEqual(codesOf(record(JOB)), before, "the findings after the restart");
  check(!editor.document.isDirty, "the restart changed the text");
});
