/** Records read from the disk of this machine. */
import { readEvidence } from "../host/evidence-files.ts";
import { lengthOf } from "../host/file-length.ts";
import { pathOfUri } from "../host/file-uri.ts";
import { streamFile } from "../host/log-files.ts";
import { fileState, readRecord, recordFiles } from "../host/shop-files.ts";
import { watchFolder } from "../host/watcher.ts";
import { type Files, LONGEST_RECORD } from "./files.ts";
import { withoutMark } from "./text-lines.ts";

/** @throws Error when the address is not of the disk */
function folder(root: string): string {
  const path = pathOfUri(root);
  if (path === undefined) throw new Error(`${root} is not a folder of this machine`);
  return path;
}

export const filesOfDisk: Files = {
  records: async (root, deep) => (deep ? recordFiles(folder(root)) : recordFiles(folder(root), 0)),
  async text(root, path) {
    const length = lengthOf(folder(root), path);
    if (length === undefined) return undefined;
    if (length > LONGEST_RECORD) throw new Error(`it is longer than ${LONGEST_RECORD / 1024 / 1024} MB`);
    return withoutMark(readRecord(folder(root), path));
  },
  state: (root, path) => fileState(folder(root), path),
  evidence: async (root, path, most) => readEvidence(folder(root), path, most),
  stream: (root, path, most, reader) => streamFile(folder(root), path, most, reader),
  watch: (root, changed, failed) => watchFolder(folder(root), changed, failed),
};
