/** A shop's folder on disk: its records as text, and what is known of the files that they name. Never follows a path out of the folder. */
import { createReadStream, lstatSync, readdirSync, readFileSync, realpathSync, statSync } from "node:fs";
import { isAbsolute, join, relative, resolve, sep } from "node:path";
import type { FileState } from "../workspace/ports.ts";
import { mayHoldRecords, RECORD_ENDING } from "../workspace/record-paths.ts";

export { RECORD_ENDING };

/** Deeper than any shop's folders, so that a loop of links ends. */
const DEEPEST = 32;

/**
 * Paths of all record files below a folder, relative to it, with forward slashes, in order. Links to folders are not followed.
 * @param deepest 0 for the folder's own files only
 */
export function recordFiles(root: string, deepest = DEEPEST): string[] {
  const found: string[] = [];
  const walk = (folder: string, depth: number): void => {
    if (depth > deepest) return;
    for (const entry of readdirSync(join(root, folder), { withFileTypes: true })) {
      if (entry.name.startsWith(".")) continue;
      const path = folder === "" ? entry.name : `${folder}/${entry.name}`;
      if (entry.isDirectory()) {
        if (mayHoldRecords(entry.name)) walk(path, depth + 1);
      } else if (entry.name.endsWith(RECORD_ENDING) && (entry.isFile() || entry.isSymbolicLink())) found.push(path);
    }
  };
  walk("", 0);
  return found.sort();
}

/** Whether a path stays inside the root once links are resolved. */
function inside(root: string, path: string): boolean {
  const from = relative(root, path);
  return from === "" || (!from.startsWith(`..${sep}`) && from !== ".." && !isAbsolute(from));
}

/** @throws when the file cannot be read or leads outside the folder */
export function readRecord(root: string, path: string): string {
  const full = join(root, path);
  if (lstatSync(full).isSymbolicLink() && !inside(realpathSync(root), realpathSync(full)))
    throw new Error("the link leads outside the folder");
  return readFileSync(full, "utf8");
}

const digests = new Map<string, string>();

/**
 * What is known of a file that a record names. The bytes are hashed as a stream, and again only when size or time of change differ.
 * @param path as the record gives it, relative to the root
 */
export async function fileState(root: string, path: string): Promise<FileState> {
  const full = resolve(root, path);
  const none = { exists: false, outside: false, size: 0, digest: "" };
  if (isAbsolute(path) || /^[A-Za-z]:|^[/\\]/u.test(path) || path.includes("\0") || !inside(resolve(root), full))
    return { ...none, outside: true };
  try {
    const real = realpathSync(full);
    if (!inside(realpathSync(root), real)) return { ...none, exists: true, outside: true };
    const stats = statSync(real);
    if (!stats.isFile()) return none;
    const key = `${real}\0${stats.size}\0${stats.mtimeMs}`;
    let digest = digests.get(key);
    if (digest === undefined) {
      digest = await hashFile(real);
      digests.set(key, digest);
    }
    return { exists: true, outside: false, size: stats.size, digest };
  } catch {
    return none;
  }
}

async function hashFile(path: string): Promise<string> {
  // Loaded only where something is hashed: it would cost every other start a few milliseconds.
  const { createHash } = await import("node:crypto");
  return new Promise((done, failed) => {
    const hash = createHash("sha256");
    createReadStream(path)
      .on("data", (chunk) => hash.update(chunk))
      .on("error", failed)
      .on("end", () => done(hash.digest("hex")));
  });
}
