/** Which paths of a shop's folder hold records: one rule for the disk, for a watcher's events and for a browser's file system. */

export const RECORD_ENDING = ".gudgeon";

/** Folders in which nobody keeps records. */
const SKIPPED: ReadonlySet<string> = new Set(["node_modules", "dist"]);

/** @param name of one folder, without its path */
export function mayHoldRecords(name: string): boolean {
  return !name.startsWith(".") && !SKIPPED.has(name);
}

/** @param path relative to the shop's folder, with forward slashes */
export function isRecordPath(path: string): boolean {
  if (!path.endsWith(RECORD_ENDING)) return false;
  const parts = path.split("/");
  const name = parts.pop() as string;
  return !name.startsWith(".") && parts.every(mayHoldRecords);
}
