/** What features answer, in the shapes of the protocol. */
import type {
  CompletionItem,
  Diagnostic,
  DocumentSymbol,
  FoldingRange,
  CodeAction as ProtocolCodeAction,
  TextEdit as ProtocolEdit,
  DocumentLink as ProtocolLink,
  Location as ProtocolLocation,
  SelectionRange,
  SymbolInformation,
  SymbolKind,
  WorkspaceEdit,
} from "vscode-languageserver";
import type {
  CodeAction,
  Completion,
  DocumentLink,
  Folding,
  Location,
  Range,
  Symbol as ShopSymbol,
  TextEdit,
  WorkspaceEdits,
} from "../features/feature.ts";
import { diagnosticText } from "./diagnostics.ts";
import type { Shop } from "./shop.ts";

/** Numbers of the protocol's kinds of completion: keyword, reference, field, unit, value, snippet, text. */
const COMPLETION_KINDS: Readonly<Record<Completion["kind"], CompletionItem["kind"]>> = {
  word: 14,
  name: 18,
  place: 5,
  unit: 11,
  value: 12,
  snippet: 15,
  text: 1,
};
const SNIPPET_FORMAT = 2;
/** Lines are inserted as they are: the feature has laid out their blanks. */
const AS_IS = 1;

/** Kinds of block among the protocol's kinds of symbol, chosen for icons that tell them apart. */
const SYMBOL_KINDS: Readonly<Record<string, SymbolKind>> = {
  shop: 3,
  person: 20,
  instrument: 13,
  stand: 2,
  "engine-type": 5,
  limits: 14,
  "run-in": 12,
  task: 6,
  bulletin: 15,
  route: 11,
  alert: 24,
  engine: 19,
  job: 4,
  entry: 24,
  run: 12,
  release: 17,
  dispatch: 17,
  account: 16,
};
const LINE_SYMBOL: SymbolKind = 8;

export function protocolEdit({ range, text }: TextEdit): ProtocolEdit {
  return { range, newText: text };
}

export function protocolLocation(shop: Shop, { path, range }: Location): ProtocolLocation {
  return { uri: shop.uriOf(path), range };
}

/** @param versioned whether the client takes edits that name the version they were made for */
export function protocolEdits(shop: Shop, edits: WorkspaceEdits, versioned: boolean): WorkspaceEdit {
  const rows = Object.entries(edits);
  if (!versioned)
    return { changes: Object.fromEntries(rows.map(([path, list]) => [shop.uriOf(path), list.map(protocolEdit)])) };
  return {
    documentChanges: rows.map(([path, list]) => ({
      textDocument: { uri: shop.uriOf(path), version: shop.open.get(path)?.version ?? null },
      edits: list.map(protocolEdit),
    })),
  };
}

/** A snippet's text without its stops, for clients that know none. */
export function withoutStops(snippet: string): string {
  return snippet.replace(
    /\$\{\d+:([^}]*)\}|\$\{\d+\}|\$\d+|\\([$}\\])/gu,
    (_all, text?: string, escaped?: string) => text ?? escaped ?? "",
  );
}

export function completionItem(one: Completion, snippets: boolean): CompletionItem {
  const asSnippet = one.snippet && snippets;
  return {
    label: one.label,
    kind: COMPLETION_KINDS[one.kind],
    textEdit: { range: one.range, newText: one.snippet && !snippets ? withoutStops(one.insert) : one.insert },
    sortText: one.sort,
    insertTextMode: AS_IS,
    ...(asSnippet ? { insertTextFormat: SNIPPET_FORMAT } : {}),
    ...(one.detail === "" ? {} : { detail: one.detail }),
    ...(one.documentation === "" ? {} : { documentation: { kind: "markdown" as const, value: one.documentation } }),
  };
}

export function documentSymbol(one: ShopSymbol): DocumentSymbol {
  return {
    name: one.name === "" ? one.kind : one.name,
    detail: one.detail,
    kind: SYMBOL_KINDS[one.kind] ?? LINE_SYMBOL,
    range: one.range,
    selectionRange: one.selection,
    children: one.children.map(documentSymbol),
  };
}

export function workspaceSymbol(shop: Shop, one: ShopSymbol): SymbolInformation {
  return {
    name: one.name === "" ? one.kind : one.name,
    kind: SYMBOL_KINDS[one.kind] ?? LINE_SYMBOL,
    location: { uri: shop.uriOf(one.path), range: one.selection },
    containerName: one.detail,
  };
}

export function foldingRange({ start, end, kind }: Folding): FoldingRange {
  return { startLine: start, endLine: end, ...(kind === "comment" ? { kind: "comment" } : {}) };
}

export function documentLink(shop: Shop, one: DocumentLink): ProtocolLink {
  return {
    range: one.range,
    target: shop.uriOf(one.path) + (one.line === undefined ? "" : `#L${one.line + 1}`),
    tooltip: one.tooltip,
  };
}

/** @param ranges the innermost first */
export function selectionRange(ranges: readonly Range[]): SelectionRange | undefined {
  let outer: SelectionRange | undefined;
  for (let i = ranges.length - 1; i >= 0; i--) {
    const range = ranges[i];
    outer = outer ? { range, parent: outer } : { range };
  }
  return outer;
}

export function codeAction(shop: Shop, one: CodeAction, versioned: boolean): ProtocolCodeAction {
  const action: ProtocolCodeAction = { title: one.title, kind: one.kind };
  if (one.finding)
    action.diagnostics = [JSON.parse(diagnosticText(one.finding, (path) => shop.uriOf(path))) as Diagnostic];
  if (one.opens !== undefined)
    action.command = { title: one.title, command: "gudgeon.explainRule", arguments: [one.opens] };
  else action.edit = protocolEdits(shop, one.edits, versioned);
  if (one.grade === "safe" && one.opens === undefined) action.isPreferred = true;
  return action;
}
