/** Starts and stops the server and connects it to the editor. What the records mean, the server alone knows. */
import {
  commands,
  type ExtensionContext,
  env,
  extensions,
  type LogOutputChannel,
  languages,
  Uri,
  version,
  window,
  workspace,
} from "vscode";
import {
  type BaseLanguageClient,
  type DocumentSelector,
  type LanguageClientOptions,
  RevealOutputChannelOn,
} from "vscode-languageclient";
import type {
  CursorMethod,
  CursorParams,
  InitializationOptions,
  ReportMethod,
  RulePageScheme,
  ServerStatus,
  StatusChangedMethod,
  TrustedMethod,
} from "../server/lsp/protocol.ts";
import { serveFiles } from "./files.ts";
import { StatusItem } from "./status.ts";

/** Makes a client for this kind of host. */
export type MakeClient = (options: LanguageClientOptions) => Promise<BaseLanguageClient>;

const LANGUAGE = "gudgeon";
const SCHEME: RulePageScheme = "gudgeon-rule";

/** Documents that are records and not, say, the old side of a comparison: those of a disk, unsaved ones, and those of the open folders. */
function selector(): DocumentSelector {
  const schemes = new Set([
    "file",
    "untitled",
    ...(workspace.workspaceFolders ?? []).map((folder) => folder.uri.scheme),
  ]);
  return [...schemes].map((scheme) => ({ scheme, language: LANGUAGE }));
}

export class Gudgeon {
  readonly #context: ExtensionContext;
  readonly #make: MakeClient;
  readonly #output: LogOutputChannel;
  readonly #status: StatusItem;
  #client: BaseLanguageClient | undefined;
  /** Starts and stops wait for each other. */
  #turn: Promise<void> = Promise.resolve();

  constructor(context: ExtensionContext, make: MakeClient) {
    this.#context = context;
    this.#make = make;
    this.#output = window.createOutputChannel("Gudgeon", { log: true });
    this.#status = new StatusItem(LANGUAGE);
    // Commands are offered from now on, and not in windows in which no record was ever opened.
    void commands.executeCommand("setContext", "gudgeon.active", true);
    context.subscriptions.push(
      this.#output,
      this.#status,
      commands.registerCommand("gudgeon.restartServer", () => this.restart()),
      commands.registerCommand("gudgeon.showOutput", () => this.#output.show()),
      commands.registerCommand("gudgeon.copyDiagnosticsReport", () => this.copyReport()),
      commands.registerCommand("gudgeon.explainRule", (code?: unknown) => this.explainRule(code)),
      workspace.onDidGrantWorkspaceTrust(() => {
        const method: TrustedMethod = "gudgeon/trusted";
        void this.#client?.sendNotification(method);
      }),
      window.onDidChangeTextEditorSelection(({ textEditor, selections }) => {
        const { document } = textEditor;
        const line = selections[0]?.active.line;
        if (document.languageId !== LANGUAGE || line === undefined || !this.#client?.isRunning()) return;
        const method: CursorMethod = "gudgeon/cursor";
        const params: CursorParams = { uri: this.#client.code2ProtocolConverter.asUri(document.uri), line };
        void this.#client.sendNotification(method, params);
      }),
    );
  }

  start(): Promise<void> {
    return this.#next(() => this.#startNow());
  }

  stop(): Promise<void> {
    return this.#next(() => this.#stopNow());
  }

  restart(): Promise<void> {
    return this.#next(async () => {
      await this.#stopNow();
      await this.#startNow();
    });
  }

  #next(run: () => Promise<void>): Promise<void> {
    this.#turn = this.#turn.then(run, run);
    return this.#turn;
  }

  async #startNow(): Promise<void> {
    this.#status.starting();
    const initializationOptions: InitializationOptions = {
      trusted: workspace.isTrusted,
      readsFiles: true,
      opensRulePages: true,
    };
    try {
      const client = await this.#make({
        documentSelector: selector(),
        diagnosticCollectionName: LANGUAGE,
        outputChannel: this.#output,
        // The output is there for who looks for it; it never opens by itself.
        revealOutputChannelOn: RevealOutputChannelOn.Never,
        initializationOptions,
        markdown: { isTrusted: false, supportHtml: false },
      });
      this.#client = client;
      const changed: StatusChangedMethod = "gudgeon/statusChanged";
      client.onNotification(changed, (status: ServerStatus) => {
        if (this.#client === client) this.#status.show(status);
      });
      client.onDidChangeState(({ newState }) => {
        if (this.#client === client) this.#status.serverState(newState);
      });
      serveFiles(client);
      await client.start();
    } catch (error) {
      this.#status.stopped(`The server did not start: ${error instanceof Error ? error.message : String(error)}`);
      this.#output.error(error instanceof Error ? error : String(error));
      void window
        .showErrorMessage("Gudgeon's server did not start; records are not checked.", "Show Output")
        .then((chosen) => {
          if (chosen) this.#output.show();
        });
    }
  }

  async #stopNow(): Promise<void> {
    const client = this.#client;
    this.#client = undefined;
    if (!client) return;
    try {
      await client.stop();
    } catch (error) {
      // A server that is gone already needs no goodbye.
      this.#output.warn(
        `The server did not stop in good order: ${error instanceof Error ? error.message : String(error)}`,
      );
    }
    await client.dispose().catch(() => undefined);
    this.#status.stopped("The server was stopped.");
  }

  /** Puts on the clipboard what a report of a fault needs. No line of any record is in it. */
  async copyReport(): Promise<void> {
    const extension = extensions.getExtension(this.#context.extension.id);
    const manifest = extension?.packageJSON as { version?: string } | undefined;
    const lines = [
      `extension ${manifest?.version ?? "unknown"}, ${env.appName} ${version} (${env.appHost}${env.remoteName ? `, ${env.remoteName}` : ""})`,
      `server ${this.#client?.isRunning() ? "running" : "not running"}, folder ${workspace.isTrusted ? "trusted" : "restricted"}`,
    ];
    if (this.#client?.isRunning()) {
      const method: ReportMethod = "gudgeon/report";
      try {
        lines.push(await this.#client.sendRequest<string>(method));
      } catch (error) {
        lines.push(`The server gave no report: ${error instanceof Error ? error.message : String(error)}`);
      }
    }
    await env.clipboard.writeText(lines.join("\n"));
    void window.setStatusBarMessage("Gudgeon: the diagnostics report is on the clipboard", 5_000);
  }

  /** Opens the page of a rule. Without a code it takes that of the finding under the cursor, or asks. */
  async explainRule(given: unknown): Promise<void> {
    const code = typeof given === "string" ? given : await this.#codeWanted();
    if (code === undefined) return;
    const uri = Uri.from({ scheme: SCHEME, path: `/${code}.md` });
    try {
      await commands.executeCommand("markdown.showPreviewToSide", uri);
    } catch {
      // An editor without a preview shows the text itself.
      await window.showTextDocument(uri, { preview: true });
    }
  }

  async #codeWanted(): Promise<string | undefined> {
    const editor = window.activeTextEditor;
    const codeOf = (one: { code?: unknown }): string | undefined => {
      const { code } = one;
      const value = typeof code === "object" && code !== null ? (code as { value: unknown }).value : code;
      return typeof value === "string" ? value : undefined;
    };
    const here = editor ? languages.getDiagnostics(editor.document.uri).filter((one) => one.source === "gudgeon") : [];
    const under = editor ? here.filter((one) => one.range.contains(editor.selection.active)) : [];
    const codes = [...new Set((under.length > 0 ? under : here).map(codeOf).filter((code) => code !== undefined))];
    if (codes.length === 1) return codes[0];
    if (codes.length === 0)
      return window.showInputBox({
        title: "Explain a rule",
        prompt: "The code of a finding",
        placeHolder: "family/what",
      });
    return window.showQuickPick(codes, { title: "Explain a rule" });
  }
}
