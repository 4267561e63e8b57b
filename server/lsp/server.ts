/**
 * The server's side of the protocol. `initialize` is answered before the grammar is loaded: the session comes with a later turn, and what arrives
 * meanwhile waits in order.
 */
import {
  type CancellationToken,
  ErrorCodes,
  type InitializeParams,
  type InitializeResult,
  LSPErrorCodes,
  ResponseError,
  type WorkspaceFolder,
} from "vscode-languageserver";
import { CAPABILITIES, REQUESTS } from "./capabilities.ts";
import type { Host } from "./host.ts";
import type { CursorMethod, InitializationOptions, TrustedMethod } from "./protocol.ts";
import type { Session } from "./session.ts";

function foldersOf(params: InitializeParams): WorkspaceFolder[] {
  if (params.workspaceFolders) return params.workspaceFolders;
  const root = params.rootUri;
  return root ? [{ uri: root, name: "" }] : [];
}

export function startServer(host: Host): void {
  const { connection } = host;
  let session: Session | undefined;
  let ended = false;
  let waiting: ((session: Session) => void)[] = [];

  /** Runs with the session, now or once it is there; in the order of the calls. */
  const within = (run: (session: Session) => void): void => {
    if (!session) {
      waiting.push(run);
      return;
    }
    try {
      run(session);
    } catch (error) {
      session.failures.note("a message of the editor", error);
    }
  };

  /** Answers a request, in the order of arrival; a failure is contained and answered as such. */
  const answer = (
    method: (typeof REQUESTS)[number],
    given: unknown,
    token: CancellationToken | undefined,
  ): Promise<unknown> =>
    new Promise((done) => {
      within((ready) => {
        try {
          done(
            token?.isCancellationRequested
              ? new ResponseError(LSPErrorCodes.RequestCancelled, `${method} was cancelled`)
              : ready.answer(method, given),
          );
        } catch (error) {
          if (error instanceof Error && error.name === "Refusal") {
            done(new ResponseError(LSPErrorCodes.RequestFailed, error.message));
            return;
          }
          ready.failures.note(method, error);
          done(
            new ResponseError(
              ErrorCodes.InternalError,
              `${method} failed: ${error instanceof Error ? error.message : String(error)}`,
            ),
          );
        }
      });
    });

  let params: InitializeParams | undefined;
  connection.onInitialize((given): InitializeResult => {
    params = given;
    return { capabilities: CAPABILITIES, serverInfo: { name: "Gudgeon", version: host.version } };
  });

  connection.onInitialized(() => {
    const client = params?.capabilities.workspace;
    const folders = params ? foldersOf(params) : [];
    const options = (params?.initializationOptions ?? {}) as InitializationOptions;
    void import("./session.ts").then(async ({ Session: SessionClass }) => {
      if (ended) return;
      const made = new SessionClass(host, {
        configuration: client?.configuration === true,
        snippets: params?.capabilities.textDocument?.completion?.completionItem?.snippetSupport === true,
        versionedEdits: client?.workspaceEdit?.documentChanges === true,
        watchesFiles: client?.didChangeWatchedFiles?.dynamicRegistration === true,
        options,
      });
      await made.refreshSettings();
      session = made;
      made.changeFolders(folders, []);
      const queue = waiting;
      waiting = [];
      for (const run of queue) within(run);
      await register(client);
    });
  });

  async function register(client: InitializeParams["capabilities"]["workspace"]): Promise<void> {
    const registrations: { id: string; method: string; registerOptions?: unknown }[] = [];
    if (client?.didChangeWatchedFiles?.dynamicRegistration) {
      // All files: records name photos and run logs of any ending, and a folder that goes is told by its own name.
      registrations.push({
        id: "gudgeon-files",
        method: "workspace/didChangeWatchedFiles",
        registerOptions: { watchers: [{ globPattern: "**/*" }] },
      });
    }
    if (client?.didChangeConfiguration?.dynamicRegistration) {
      registrations.push({
        id: "gudgeon-settings",
        method: "workspace/didChangeConfiguration",
        registerOptions: { section: "gudgeon" },
      });
    }
    if (registrations.length === 0) return;
    try {
      await connection.sendRequest("client/registerCapability", { registrations });
    } catch (error) {
      within((ready) => ready.failures.note("asking to be told of changes", error));
    }
  }

  connection.onDidOpenTextDocument(({ textDocument: { uri, version, text } }) =>
    within((ready) => ready.openDocument(uri, version, text)),
  );
  connection.onDidChangeTextDocument(({ textDocument: { uri, version }, contentChanges }) =>
    within((ready) => ready.changeDocument(uri, version, contentChanges)),
  );
  connection.onDidSaveTextDocument(({ textDocument: { uri } }) => within((ready) => ready.saveDocument(uri)));
  connection.onDidCloseTextDocument(({ textDocument: { uri } }) => within((ready) => ready.closeDocument(uri)));
  connection.onDidChangeWatchedFiles(({ changes }) => within((ready) => ready.filesChanged(changes)));
  connection.onDidChangeConfiguration(({ settings }: { settings?: { gudgeon?: unknown } | null }) =>
    within((ready) => void ready.refreshSettings(settings?.gudgeon)),
  );
  connection.onNotification(
    "workspace/didChangeWorkspaceFolders",
    ({ event }: { event: { added: WorkspaceFolder[]; removed: WorkspaceFolder[] } }) =>
      within((ready) => ready.changeFolders(event.added, event.removed)),
  );
  const cursor: CursorMethod = "gudgeon/cursor";
  connection.onNotification(cursor, ({ uri, line }: { uri: string; line: number }) =>
    within((ready) => ready.cursor(uri, line)),
  );
  const trusted: TrustedMethod = "gudgeon/trusted";
  connection.onNotification(trusted, () => within((ready) => ready.trust()));
  for (const method of REQUESTS) {
    connection.onRequest(method, (...parts: unknown[]) => {
      // A request without parameters comes with the token alone.
      const token = parts.pop() as CancellationToken | undefined;
      return answer(method, parts[0], token);
    });
  }
  connection.onShutdown(() => {
    ended = true;
    session?.dispose();
  });
  connection.listen();
}
