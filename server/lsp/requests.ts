/** What answers each request: a table to scan. Everything here is synchronous; what fails is contained by the caller. */
import type {
  CodeActionParams,
  DocumentRangeFormattingParams,
  ReferenceParams,
  RenameParams,
  SelectionRangeParams,
  TextDocumentPositionParams,
} from "vscode-languageserver";
import {
  codeActions,
  completion,
  definition,
  documentLinks,
  documentSymbols,
  fixAll,
  foldingRanges,
  formatDocument,
  formatRange,
  highlights,
  hover,
  prepareRename,
  references,
  rename,
  selectionRanges,
  workspaceSymbols,
} from "../features/index.ts";
import { rulePage } from "../report/rule-page.ts";
import type { RequestMethod } from "./capabilities.ts";
import {
  codeAction,
  completionItem,
  documentLink,
  documentSymbol,
  foldingRange,
  protocolEdit,
  protocolEdits,
  protocolLocation,
  selectionRange,
  workspaceSymbol,
} from "./convert.ts";
import { codeOfPage } from "./diagnostics.ts";
import { diagnosticsReport } from "./diagnostics-report.ts";
import type { ExplainParams, ExplainResult } from "./protocol.ts";
import type { Session } from "./session.ts";
import type { Shop } from "./shop.ts";

/** A request that is answered with "no", in words for the person: the caller sends them as an error that the editor shows. */
class Refusal extends Error {
  override readonly name = "Refusal";
}

interface OfDocument {
  readonly textDocument: { readonly uri: string };
}

type Answer = (session: Session, params: never) => unknown;

/** An answer about a document; null for one that no shop has. */
function about<P extends OfDocument>(run: (shop: Shop, path: string, params: P, session: Session) => unknown): Answer {
  return (session: Session, params: P) => {
    const home = session.locate(params.textDocument.uri);
    return (home && run(home.shop, home.path, params, session)) ?? null;
  };
}

const FIX_ALL = "source.fixAll.gudgeon";
const READ = 2;
const WRITE = 3;
/** Most symbols that a search over the workspace answers with. */
const MOST_SYMBOLS = 1_000;

function pageFor(code: string): string {
  return rulePage(code) ?? `# ${code}\n\nNo rule has this name in this version of Gudgeon.\n`;
}

export const ANSWERS: Readonly<Record<RequestMethod, Answer>> = {
  "textDocument/hover": about<TextDocumentPositionParams>((shop, path, { position }) => {
    const found = hover(shop, path, position);
    return found && { range: found.range, contents: { kind: "markdown", value: found.markdown } };
  }),

  "textDocument/completion": about<TextDocumentPositionParams>((shop, path, { position }, session) =>
    completion(shop, path, position).map((one) => completionItem(one, session.abilities.snippets)),
  ),

  "textDocument/definition": about<TextDocumentPositionParams>((shop, path, { position }) =>
    definition(shop, path, position).map((one) => protocolLocation(shop, one)),
  ),

  "textDocument/references": about<ReferenceParams>((shop, path, { position, context }) =>
    references(shop, path, position, context.includeDeclaration).map((one) => protocolLocation(shop, one)),
  ),

  "textDocument/documentHighlight": about<TextDocumentPositionParams>((shop, path, { position }) =>
    highlights(shop, path, position).map(({ range, kind }) => ({ range, kind: kind === "write" ? WRITE : READ })),
  ),

  "textDocument/prepareRename": about<TextDocumentPositionParams>((shop, path, { position }) => {
    const found = prepareRename(shop, path, position);
    if (found && "refused" in found) throw new Refusal(found.refused);
    return found && { range: found.range, placeholder: found.name };
  }),

  "textDocument/rename": about<RenameParams>((shop, path, { position, newName }, session) => {
    const found = rename(shop, path, position, newName);
    if ("refused" in found) throw new Refusal(found.refused);
    return protocolEdits(shop, found.edits, session.abilities.versionedEdits);
  }),

  "textDocument/documentSymbol": about((shop, path) => documentSymbols(shop, path).map(documentSymbol)),

  "workspace/symbol": (session, { query }: { query: string }) =>
    session.shops
      .flatMap((shop) => workspaceSymbols(shop, query).map((one) => workspaceSymbol(shop, one)))
      .slice(0, MOST_SYMBOLS),

  "textDocument/foldingRange": about((shop, path) => foldingRanges(shop, path).map(foldingRange)),

  "textDocument/selectionRange": about<SelectionRangeParams & OfDocument>((shop, path, { positions }) =>
    // The protocol wants one answer for each position, also where there is nothing to select.
    selectionRanges(shop, path, positions).map(
      (ranges, i) => selectionRange(ranges) ?? { range: { start: positions[i], end: positions[i] } },
    ),
  ),

  "textDocument/documentLink": about((shop, path) => documentLinks(shop, path).map((one) => documentLink(shop, one))),

  "textDocument/formatting": about((shop, path) => formatDocument(shop, path).map(protocolEdit)),

  "textDocument/rangeFormatting": about<DocumentRangeFormattingParams>((shop, path, { range }) =>
    formatRange(shop, path, range).map(protocolEdit),
  ),

  "textDocument/codeAction": about<CodeActionParams>((shop, path, { range, context }, session) => {
    // What is offered repairs what the text says now, not what it said before the last key.
    session.settle(shop);
    const wants = (kind: string): boolean =>
      context.only === undefined ||
      context.only.some((one) => one === "" || kind === one || kind.startsWith(`${one}.`));
    const { versionedEdits } = session.abilities;
    const found = codeActions(shop, path, range)
      .filter(
        (one) => (one.opens === undefined || session.abilities.options.opensRulePages === true) && wants(one.kind),
      )
      .map((one) => codeAction(shop, one, versionedEdits));
    if (wants(FIX_ALL)) {
      const edits = fixAll(shop, path);
      if (edits.length > 0)
        found.push({
          title: "Apply all safe repairs of this file",
          kind: FIX_ALL,
          edit: protocolEdits(shop, { [path]: edits }, versionedEdits),
        });
    }
    return found;
  }),

  "workspace/textDocumentContent": (_session, { uri }: { uri: string }) => ({ text: pageFor(codeOfPage(uri) ?? uri) }),
  "gudgeon/status": (session) => session.status(),
  "gudgeon/report": (session) => diagnosticsReport(session),
  "gudgeon/explain": (_session, { code }: ExplainParams): ExplainResult => ({ markdown: pageFor(code) }),
};
