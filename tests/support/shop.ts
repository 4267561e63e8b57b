/** Shops made of text, for tests of everything that stands on the checker. */

import type { FileState, RunTableRequest, SignatureState } from "../../server/checking/ask.ts";
import { Checker } from "../../server/checking/checker.ts";
import type { LocatedFinding } from "../../server/checking/finding.ts";
import type { CivilDate } from "../../server/quantity/civil-date.ts";
import { parseDate } from "../../server/quantity/civil-date.ts";
import type { AnyRule } from "../../server/rules/rule.ts";
import { Workspace } from "../../server/workspace/workspace.ts";

export interface Shop {
  readonly workspace: Workspace;
  readonly checker: Checker;
}

/** @throws Error for a day that does not exist */
export function day(text: string): CivilDate {
  const date = parseDate(text);
  if (date === undefined) throw new Error(`no such day: ${text}`);
  return date;
}

/** A checked shop. @param files text by path */
export function shopOf(
  files: Record<string, string>,
  options: {
    readonly asOf?: string;
    readonly rules?: readonly AnyRule[];
    readonly files?: Record<string, FileState>;
    readonly signatures?: Record<string, SignatureState>;
  } = {},
): Shop {
  const workspace = new Workspace();
  // What is named like a logger's file is one: the text of the file as the host finds it.
  const logs = new Map(Object.entries(files).filter(([path]) => path.endsWith(".csv")));
  for (const [path, text] of Object.entries(files)) if (!logs.has(path)) workspace.setText(path, text);
  const checker = new Checker(workspace, {
    asOf: day(options.asOf ?? "2026-05-01"),
    ...(options.rules ? { rules: options.rules } : {}),
  });
  // A file that a test does not mention is there, unchanged: tests of other things need not list their photos.
  for (const path of checker.filesNamed()) {
    checker.setFile(path, options.files?.[path] ?? { exists: true, outside: false, size: 1, digest: "" });
  }
  for (const request of checker.runTablesNamed()) tellRunTable(checker, request, logs.get(request.path));
  checker.sweep();
  // A signature file that a test does not mention is not there.
  for (const request of checker.signaturesWanted) {
    checker.setSignature(request, options.signatures?.[request.path] ?? { standing: "absent", message: "" });
  }
  checker.sweep();
  return { workspace, checker };
}

/** Gives a logger's file to a checker, as a host does that reads it. @param text of the file; undefined where there is none */
export function tellRunTable(checker: Checker, request: RunTableRequest, text: string | undefined): void {
  if (text === undefined) {
    checker.setRunTable(request, { standing: "absent" });
    return;
  }
  const reader = checker.runTableReader(request);
  reader.push(new TextEncoder().encode(text));
  checker.setRunTable(request, reader.end(text));
}

/** Open findings as `path:line code`, for short assertions. */
export function codesOf(shop: Shop): string[] {
  return shop.checker
    .allFindings()
    .filter((one) => !one.quiet)
    .map((one) => `${one.path}:${one.line + 1} ${one.finding.code}`);
}

export type { LocatedFinding };
