/** The files that the lines of a block name: photos, and logs of a data logger. */
import type { At, EngineBlock, JobBlock, WorkBlock } from "../facts/types.ts";

export interface NamedFile {
  readonly kind: "photo" | "log";
  readonly at: At;
  readonly path: string;
  /** SHA-256 as pinned by the line, 64 hex digits, or "". */
  readonly digest: string;
  /** Field of the line that holds the path. */
  readonly role: "path" | "file";
  readonly caption: string;
}

/** Blocks whose lines may name files. */
export const NAMING_FILES = ["entry", "run", "release", "dispatch", "job", "engine"] as const;

export function namedFiles(block: WorkBlock | JobBlock | EngineBlock): NamedFile[] {
  const photos = block.photos.map(
    ({ at, path, digest, caption }): NamedFile => ({ kind: "photo", at, path, digest, role: "path", caption }),
  );
  if (block.kind === "job" || block.kind === "engine") return photos;
  return [
    ...photos,
    ...block.logFiles.map(
      ({ at, path, digest }): NamedFile => ({ kind: "log", at, path, digest, role: "file", caption: "" }),
    ),
  ].filter((file) => file.path !== "");
}
