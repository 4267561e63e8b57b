/** Files beside the records that Gudgeon itself reads and writes: signatures. Nothing outside the shop's folder is touched, links resolved. */
import {
  closeSync,
  existsSync,
  fstatSync,
  lstatSync,
  mkdirSync,
  openSync,
  readdirSync,
  readSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { dirname, isAbsolute, relative, resolve, sep } from "node:path";

/** Whether a path lies below a folder; both as they are, no link resolved. */
function below(folder: string, path: string): boolean {
  const from = relative(folder, path);
  return from !== "" && from !== ".." && !from.startsWith(`..${sep}`) && !isAbsolute(from);
}

/** The full path of a file of the shop, or undefined where it or a folder on the way leads outside. */
function insideShop(root: string, path: string): string | undefined {
  const full = resolve(root, path);
  if (path.includes("\0") || isAbsolute(path) || !below(resolve(root), full)) return undefined;
  let there = full;
  while (!existsSync(there) && there !== resolve(root)) there = dirname(there);
  const real = realpathSync(there);
  const realRoot = realpathSync(root);
  return real === realRoot || below(realRoot, real) ? full : undefined;
}

/**
 * Reads a small file whole.
 * @param most bytes; a longer file is not read at all
 */
export function readEvidence(
  root: string,
  path: string,
  most: number,
): { text: string } | { absent: true } | { refused: string } {
  const full = insideShop(root, path);
  if (full === undefined) return { refused: "The file leads outside the shop's folder and is not read." };
  try {
    // A pipe or a device would be opened for ever.
    if (!statSync(full).isFile()) return { refused: "There is something of this name that is not a file." };
    const handle = openSync(full, "r");
    try {
      const { size } = fstatSync(handle);
      if (size > most)
        return { refused: `The file has ${size} bytes, and none of its kind needs more than ${most}; it is not read.` };
      const bytes = Buffer.alloc(size);
      const read = readSync(handle, bytes, 0, size, 0);
      return { text: bytes.toString("utf8", 0, read) };
    } finally {
      closeSync(handle);
    }
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "ENOENT"
      ? { absent: true }
      : { refused: `The file cannot be read (${(error as NodeJS.ErrnoException).code ?? "unknown"}).` };
  }
}

/** Replaces a file at once: a crash leaves the old one or the new one, never half. @throws when it leads outside or cannot be written */
export function writeAtOnce(root: string, path: string, text: string): void {
  const full = insideShop(root, path);
  if (full === undefined) throw new Error(`${path} leads outside the shop's folder; nothing was written`);
  mkdirSync(dirname(full), { recursive: true });
  // A link that stays inside is written through, not replaced.
  const real = existsSync(full) ? realpathSync(full) : full;
  if (!existsSync(full) && isDangling(full)) throw new Error(`${path} is a link to nothing; nothing was written`);
  const beside = `${real}.${process.pid}.new`;
  try {
    writeFileSync(beside, text, { flag: "wx", ...(existsSync(real) ? { mode: statSync(real).mode } : {}) });
    renameSync(beside, real);
  } catch (error) {
    rmSync(beside, { force: true });
    throw error;
  }
}

function isDangling(path: string): boolean {
  return lstatSync(path, { throwIfNoEntry: false })?.isSymbolicLink() === true;
}

/** Folders that hold no evidence of the work. */
const PASSED = new Set(["node_modules", "dist", "seals"]);
const MOST_LISTED = 50_000;

/**
 * All files of a shop that are no records, relative to it, in order; links are neither listed nor followed.
 * @returns the files, and whether there were more than are looked at
 */
export function otherFiles(
  root: string,
  recordEnding: string,
): { readonly paths: readonly string[]; readonly cut: boolean } {
  const paths: string[] = [];
  let cut = false;
  const walk = (folder: string, depth: number): void => {
    for (const entry of readdirSync(resolve(root, folder), { withFileTypes: true })) {
      if (entry.name.startsWith(".")) continue;
      const path = folder === "" ? entry.name : `${folder}/${entry.name}`;
      if (paths.length >= MOST_LISTED || depth > 32) {
        cut = true;
        return;
      }
      if (entry.isDirectory()) {
        if (!PASSED.has(entry.name)) walk(path, depth + 1);
      } else if (entry.isFile() && !entry.name.endsWith(recordEnding)) paths.push(path);
    }
  };
  walk("", 0);
  return { paths: paths.sort(), cut };
}
