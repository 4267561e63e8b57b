// The records of tests/vscode/fixture, as the suites speak of them.

import * as vscode from "vscode";
import { until } from "./driver.ts";

export function record(name: string): vscode.Uri {
  const folder = vscode.workspace.workspaceFolders?.[0];
  if (folder === undefined) throw new Error("no folder is open");
  return vscode.Uri.joinPath(folder.uri, name);
}

/** Findings of a record as `line code`, in order of line. */
export function codesOf(uri: vscode.Uri): string[] {
  return vscode.languages
    .getDiagnostics(uri)
    .filter((one) => one.source === "gudgeon")
    .map((one) => {
      const code = typeof one.code === "object" ? one.code.value : one.code;
      return `${one.range.start.line + 1} ${code}`;
    });
}

/** Waits until the record shows a finding. @returns all of its findings */
export async function findingOf(uri: vscode.Uri, code: string): Promise<string[]> {
  await until(`${code} in ${uri.path}`, () => codesOf(uri).some((one) => one.endsWith(` ${code}`)), 30_000);
  return codesOf(uri);
}

/** Waits until the record no longer shows a finding. */
export async function noFindingOf(uri: vscode.Uri, code: string): Promise<void> {
  await until(`no ${code} in ${uri.path}`, () => !codesOf(uri).some((one) => one.endsWith(` ${code}`)));
}

/** Opens a record with the cursor at the first place where its text says `what`. */
export async function openAt(name: string, what: string, after = 0): Promise<vscode.TextEditor> {
  const editor = await vscode.window.showTextDocument(record(name));
  const at = editor.document.getText().indexOf(what);
  if (at < 0) throw new Error(`${name} does not say ${what}`);
  const position = editor.document.positionAt(at + after);
  editor.selection = new vscode.Selection(position, position);
  editor.revealRange(editor.selection, vscode.TextEditorRevealType.InCenter);
  return editor;
}

/** The whole text as it was, so that one test does not see what another wrote. */
export async function restore(editor: vscode.TextEditor, text: string): Promise<void> {
  const { document } = editor;
  await editor.edit((edit) => {
    edit.replace(new vscode.Range(document.positionAt(0), document.positionAt(document.getText().length)), text);
  });
  await document.save();
}
