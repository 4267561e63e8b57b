/** What the server offers, known before anything is loaded. */
import type { ServerCapabilities } from "vscode-languageserver";
import type { ExplainMethod, ReportMethod, RulePageScheme, StatusMethod } from "./protocol.ts";

const SCHEME: RulePageScheme = "gudgeon-rule";
const INCREMENTAL = 2;

export const CAPABILITIES: ServerCapabilities = {
  positionEncoding: "utf-16",
  textDocumentSync: { openClose: true, change: INCREMENTAL, save: { includeText: false } },
  hoverProvider: true,
  completionProvider: { triggerCharacters: [" ", "[", "/", "."] },
  definitionProvider: true,
  referencesProvider: true,
  documentHighlightProvider: true,
  renameProvider: { prepareProvider: true },
  documentSymbolProvider: true,
  workspaceSymbolProvider: true,
  foldingRangeProvider: true,
  selectionRangeProvider: true,
  documentLinkProvider: {},
  codeActionProvider: { codeActionKinds: ["quickfix", "refactor", "source.fixAll.gudgeon"] },
  documentFormattingProvider: true,
  documentRangeFormattingProvider: true,
  workspace: {
    workspaceFolders: { supported: true, changeNotifications: true },
    textDocumentContent: { schemes: [SCHEME] },
  },
};

const STATUS: StatusMethod = "gudgeon/status";
const REPORT: ReportMethod = "gudgeon/report";
const EXPLAIN: ExplainMethod = "gudgeon/explain";

/** Every request that the server answers; `requests.ts` has what answers it. */
export const REQUESTS = [
  ...([
    "textDocument/hover",
    "textDocument/completion",
    "textDocument/definition",
    "textDocument/references",
    "textDocument/documentHighlight",
    "textDocument/prepareRename",
    "textDocument/rename",
    "textDocument/documentSymbol",
    "workspace/symbol",
    "textDocument/foldingRange",
    "textDocument/selectionRange",
    "textDocument/documentLink",
    "textDocument/codeAction",
    "textDocument/formatting",
    "textDocument/rangeFormatting",
    "workspace/textDocumentContent",
  ] as const),
  STATUS,
  REPORT,
  EXPLAIN,
] as const;

export type RequestMethod = (typeof REQUESTS)[number];
