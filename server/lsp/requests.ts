/** What answers each request: a table to scan. Everything here is synchronous; what fails is contained by the caller. */
import { rulePage } from "../report/rule-page.ts";
import type { RequestMethod } from "./capabilities.ts";
import { codeOfPage } from "./diagnostics.ts";
import { diagnosticsReport } from "./diagnostics-report.ts";
import type { ExplainParams, ExplainResult } from "./protocol.ts";
import type { Session } from "./session.ts";

type Answer = (session: Session, params: never) => unknown;

function pageFor(code: string): string {
  return rulePage(code) ?? `# ${code}\n\nNo rule has this name in this version of Gudgeon.\n`;
}

export const ANSWERS: Readonly<Record<RequestMethod, Answer>> = {
  "workspace/textDocumentContent": (_session, { uri }: { uri: string }) => ({ text: pageFor(codeOfPage(uri) ?? uri) }),
  "gudgeon/status": (session) => session.status(),
  "gudgeon/report": (session) => diagnosticsReport(session),
  "gudgeon/explain": (_session, { code }: ExplainParams): ExplainResult => ({ markdown: pageFor(code) }),
};
