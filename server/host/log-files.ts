/** Files of data loggers, read as a stream: a million rows are never in memory as text. */
import { createReadStream, realpathSync, statSync } from "node:fs";
import { isAbsolute, relative, resolve, sep } from "node:path";

/** What takes the bytes, in order. */
export interface PieceReader<T> {
  push(piece: Uint8Array): void;
  /** @param digest SHA-256 of all bytes, 64 hex digits */
  end(digest: string): T;
}

export type Streamed<T> =
  | { readonly standing: "absent" }
  | { readonly standing: "refused"; readonly message: string }
  | { readonly standing: "ended"; readonly value: T };

const PIECE_bytes = 1 << 20;

function leadsOut(root: string, path: string): boolean {
  const from = relative(root, path);
  return from === "" || from === ".." || from.startsWith(`..${sep}`) || isAbsolute(from);
}

/**
 * Reads a file of the shop's folder piece by piece. Never follows a path out of the folder, links resolved.
 * @param path as the record gives it, relative to the root
 * @param most bytes; a longer file is not read at all
 */
export async function streamFile<T>(
  root: string,
  path: string,
  most: number,
  reader: PieceReader<T>,
): Promise<Streamed<T>> {
  const full = resolve(root, path);
  if (path.includes("\0") || isAbsolute(path) || /^[A-Za-z]:|^[/\\]/u.test(path) || leadsOut(resolve(root), full))
    return { standing: "absent" };
  try {
    const real = realpathSync(full);
    if (leadsOut(realpathSync(root), real)) return { standing: "absent" };
    const stats = statSync(real);
    if (!stats.isFile()) return { standing: "absent" };
    if (stats.size > most)
      return {
        standing: "refused",
        message: `The file has ${stats.size} bytes; one of more than ${most} is not read.`,
      };
    // Loaded only where something is hashed: it would cost every other start a few milliseconds.
    const { createHash } = await import("node:crypto");
    const hash = createHash("sha256");
    // No piece larger than the file: a shop has hundreds of short logs, and a buffer is made for each.
    const highWaterMark = Math.min(PIECE_bytes, Math.max(1, stats.size));
    for await (const piece of createReadStream(real, { highWaterMark }) as AsyncIterable<Buffer>) {
      hash.update(piece);
      reader.push(piece);
    }
    return { standing: "ended", value: reader.end(hash.digest("hex")) };
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code === "ENOENT" || code === "ENOTDIR") return { standing: "absent" };
    return { standing: "refused", message: `The file cannot be read (${code ?? String(error)}).` };
  }
}
