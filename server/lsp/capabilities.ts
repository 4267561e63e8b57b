/** What the server offers, known before anything is loaded. */
import type { ServerCapabilities } from "vscode-languageserver";
import type { ExplainMethod, ReportMethod, RulePageScheme, StatusMethod } from "./protocol.ts";

const SCHEME: RulePageScheme = "gudgeon-rule";
const INCREMENTAL = 2;

export const CAPABILITIES: ServerCapabilities = {
  positionEncoding: "utf-16",
  textDocumentSync: { openClose: true, change: INCREMENTAL, save: { includeText: false } },
  workspace: {
    workspaceFolders: { supported: true, changeNotifications: true },
    textDocumentContent: { schemes: [SCHEME] },
  },
};

const STATUS: StatusMethod = "gudgeon/status";
const REPORT: ReportMethod = "gudgeon/report";
const EXPLAIN: ExplainMethod = "gudgeon/explain";

/** Every request that the server answers; `requests.ts` has what answers it. */
export const REQUESTS = ["workspace/textDocumentContent", STATUS, REPORT, EXPLAIN] as const;

export type RequestMethod = (typeof REQUESTS)[number];
