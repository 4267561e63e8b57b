/** Loads the shop that a path belongs to, and checks it once. */

import { basename, dirname, join, relative, resolve, sep } from "node:path";
import type { RunTableRequest, SignatureRequest } from "../checking/ask.ts";
import { Checker } from "../checking/checker.ts";
import { existsSync, readdirSync, statSync } from "../host/disk.ts";
import { readEvidence } from "../host/evidence-files.ts";
import { streamFile } from "../host/log-files.ts";
import { fileState, RECORD_ENDING, readRecord, recordFiles } from "../host/shop-files.ts";
import { today } from "../host/today.ts";
import { type CivilDate, parseDate } from "../quantity/civil-date.ts";
import { Workspace } from "../workspace/workspace.ts";
import { progress, Refusal } from "./terminal.ts";

export interface LoadedShop {
  readonly root: string;
  readonly checker: Checker;
  /** Files that could not be read, with the reason: said, never skipped in silence. */
  readonly unreadable: readonly { readonly path: string; readonly reason: string }[];
  /** Whether a file was asked for; all are when only folders were named. */
  readonly wanted: (path: string) => boolean;
}

/** @throws Refusal for a day that does not exist */
export function asOfDate(text: string | undefined): CivilDate {
  const written = text ?? today();
  const date = parseDate(written);
  if (date === undefined) throw new Refusal(`--as-of wants a day such as 2026-05-02, not "${written}".`);
  return date;
}

const hasRecords = (folder: string): boolean => readdirSync(folder).some((name) => name.endsWith(RECORD_ENDING));

/** The shop's folder of a file: the highest folder above it in an unbroken chain of folders with records. */
function rootOf(path: string): string {
  if (statSync(path).isDirectory()) return path;
  let root = dirname(path);
  while (dirname(root) !== root && hasRecords(dirname(root))) root = dirname(root);
  return root;
}

/**
 * Reads and checks the shop of the paths.
 * @param paths folders or record files of one shop; the current folder when empty
 * @throws Refusal when a path does not exist, or the paths belong to more than one shop
 */
export async function loadShop(paths: readonly string[], asOf: CivilDate, recording = false): Promise<LoadedShop> {
  const full = (paths.length === 0 ? ["."] : paths).map((path) => resolve(path));
  for (const [i, path] of full.entries())
    if (!existsSync(path)) throw new Refusal(`There is no file or folder ${paths[i] ?? "."}.`);
  const roots = [...new Set(full.map(rootOf))];
  const root = roots.reduce((least, one) => (one.length < least.length ? one : least));
  for (const other of roots) {
    if (other !== root && !other.startsWith(root + sep))
      throw new Refusal("The paths belong to more than one shop; check one shop at a time.");
  }
  const workspace = new Workspace();
  const unreadable: { path: string; reason: string }[] = [];
  const files = recordFiles(root);
  if (files.length === 0) throw new Refusal(`There are no ${RECORD_ENDING} files below ${paths[0] ?? "."}.`);
  for (const [i, path] of files.entries()) {
    if ((i & 63) === 63) progress(`reading ${i} of ${files.length} files`);
    try {
      workspace.setText(path, readRecord(root, path));
    } catch (error) {
      unreadable.push({ path, reason: error instanceof Error ? error.message : String(error) });
    }
  }
  const checker = new Checker(workspace, { asOf, recording });
  const named = checker.filesNamed();
  let done = 0;
  for (const path of named) {
    if ((done++ & 63) === 63) progress(`hashing ${done} of ${named.size} files`);
    checker.setFile(path, await fileState(root, path));
  }
  await answerSignatures(checker, root, checker.signaturesNamed());
  await answerRunTables(checker, root, checker.runTablesNamed());
  if (files.length > 64) progress(`checking ${files.length} files`);
  checker.sweep();
  progress("");
  const only = full.filter((path) => path !== root).map((path) => relative(root, path).split(sep).join("/"));
  const all = only.length < full.length;
  return {
    root,
    checker,
    unreadable,
    wanted: (path) => all || only.some((one) => path === one || path.startsWith(`${one}/`)),
  };
}

/** A path of the shop as the person would write it from where they stand. */
export function shownPath(root: string, path: string): string {
  const shown = relative(".", join(root, path));
  return shown === "" ? basename(path) : shown;
}

/** Reads the files of data loggers, and tells the checker. */
export async function answerRunTables(
  checker: Checker,
  root: string,
  requests: readonly RunTableRequest[],
): Promise<void> {
  for (const [i, request] of requests.entries()) {
    progress(`reading ${request.path} (${i + 1} of ${requests.length} logs)`);
    const read = await streamFile(root, request.path, checker.longestLog_bytes, checker.runTableReader(request));
    checker.setRunTable(request, read.standing === "ended" ? read.value : read);
  }
}

/** Reads and verifies signature files, and tells the checker. */
export async function answerSignatures(
  checker: Checker,
  root: string,
  requests: readonly SignatureRequest[],
): Promise<void> {
  if (requests.length === 0) return;
  // Most shops have no signatures, and start without what verifies them.
  const { signatureState } = await import("../evidence/signature-state.ts");
  const { LONGEST_SIGNATURE } = await import("../evidence/ssh-signature.ts");
  for (const [i, request] of requests.entries()) {
    if ((i & 63) === 63) progress(`verifying ${i} of ${requests.length} signatures`);
    checker.setSignature(request, await signatureState(readEvidence(root, request.path, LONGEST_SIGNATURE), request));
  }
}
