/** Addresses of files as an editor writes them, and paths of the disk. */
import { fileURLToPath } from "node:url";

/** @returns the path, or undefined for an address that is not of this machine's disk */
export function pathOfUri(uri: string): string | undefined {
  if (!uri.startsWith("file:")) return undefined;
  try {
    return fileURLToPath(uri);
  } catch {
    return undefined;
  }
}
