/** Shops made of text, for tests of everything that stands on the checker. */

import type { FileState, SignatureState } from "../../server/checking/ask.ts";
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
  for (const [path, text] of Object.entries(files)) workspace.setText(path, text);
  const checker = new Checker(workspace, {
    asOf: day(options.asOf ?? "2026-05-01"),
    ...(options.rules ? { rules: options.rules } : {}),
  });
  // A file that a test does not mention is there, unchanged: tests of other things need not list their photos.
  for (const path of checker.filesNamed()) {
    checker.setFile(path, options.files?.[path] ?? { exists: true, outside: false, size: 1, digest: "" });
  }
  checker.sweep();
  // A signature file that a test does not mention is not there.
  for (const request of checker.signaturesWanted) {
    checker.setSignature(request, options.signatures?.[request.path] ?? { standing: "absent", message: "" });
  }
  checker.sweep();
  return { workspace, checker };
}

/** Open findings as `path:line code`, for short assertions. */
export function codesOf(shop: Shop): string[] {
  return shop.checker
    .allFindings()
    .filter((one) => !one.quiet)
    .map((one) => `${one.path}:${one.line + 1} ${one.finding.code}`);
}

export type { LocatedFinding };
