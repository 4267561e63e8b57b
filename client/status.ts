/** The item in the status bar: what the server said last, and nothing that it did not say. */
import { type Disposable, LanguageStatusSeverity, languages } from "vscode";
import { State } from "vscode-languageclient";
import type { ServerStatus } from "../server/lsp/protocol.ts";

function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

const WORDS: Readonly<Record<ServerStatus["state"], string>> = {
  loading: "reading records",
  checking: "checking",
  ready: "checked",
  waiting: "waits for a save",
  failed: "stopped checking",
};

export class StatusItem implements Disposable {
  readonly #item;

  constructor(language: string) {
    this.#item = languages.createLanguageStatusItem("gudgeon.status", { language });
    this.#item.name = "Gudgeon";
    this.#item.command = { command: "gudgeon.showOutput", title: "Show Output" };
    this.starting();
  }

  starting(): void {
    this.#item.severity = LanguageStatusSeverity.Information;
    this.#item.busy = true;
    this.#item.text = "Gudgeon: starting";
    this.#item.detail = "";
  }

  stopped(why: string): void {
    this.#item.severity = LanguageStatusSeverity.Error;
    this.#item.busy = false;
    this.#item.text = "Gudgeon: not running";
    this.#item.detail = why;
    this.#item.command = { command: "gudgeon.restartServer", title: "Restart" };
  }

  serverState(state: State): void {
    if (state === State.Stopped) this.stopped("The server ended; records are not checked.");
    else if (state === State.Starting) this.starting();
  }

  show(status: ServerStatus): void {
    const { state, files, errors, warnings, notes, lastSweep_ms, asOf, problems } = status;
    this.#item.severity =
      state === "failed"
        ? LanguageStatusSeverity.Error
        : problems.length > 0
          ? LanguageStatusSeverity.Warning
          : LanguageStatusSeverity.Information;
    this.#item.busy = state === "loading" || state === "checking";
    this.#item.text = `Gudgeon: ${WORDS[state]}, ${counted(files, "file")}`;
    const found = `${counted(errors, "error")}, ${counted(warnings, "warning")}, ${counted(notes, "note")} as of ${asOf}`;
    const took =
      lastSweep_ms === undefined
        ? ""
        : `; last check ${lastSweep_ms < 10 ? lastSweep_ms.toFixed(1) : lastSweep_ms.toFixed(0)} ms`;
    this.#item.detail = [found + took, ...problems].join(" | ");
    this.#item.command = { command: "gudgeon.showOutput", title: "Show Output" };
  }

  dispose(): void {
    this.#item.dispose();
  }
}
