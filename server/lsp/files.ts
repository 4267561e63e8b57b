/** Where the server gets the text of records and the state of the files that they name: from disk, or through the client. */
import type { FileState } from "../workspace/ports.ts";
import { isRecordPath, RECORD_ENDING } from "../workspace/record-paths.ts";
import type {
  FileParams, FileStateMethod, FileStateResult, ListRecordsMethod, ListRecordsParams, ListRecordsResult, ReadRecordMethod, ReadRecordResult,
} from "./protocol.ts";
import { withoutMark } from "./text-lines.ts";

/** Longest record that is read, in bytes: about a million lines. A longer one is said to be too long, never skipped in silence. */
export const LONGEST_RECORD = 64 * 1024 * 1024;

export interface Files {
  /**
   * Paths of the records below a folder.
   * @param deep false for the folder's own files only
   */
  records(root: string, deep: boolean): Promise<readonly string[]>;
  /** @returns undefined when there is no such file. @throws Error with the reason when it cannot be read */
  text(root: string, path: string): Promise<string | undefined>;
  state(root: string, path: string): Promise<FileState>;
  /**
   * Reads a file of a data logger as a stream; undefined where that cannot be done.
   * @param most bytes; a longer file is not read at all
   */
  stream?<T>(
    root: string,
    path: string,
    most: number,
    reader: { push(piece: Uint8Array): void; end(digest: string): T },
  ): Promise<{ readonly standing: "absent" } | { readonly standing: "refused"; readonly message: string } | { readonly standing: "ended"; readonly value: T }>;
  /** Watches a folder where the client does not; undefined where that cannot be done. */
  watch?(root: string, changed: (paths: string[]) => void, failed: (reason: string) => void): () => void;
}

/** Sends a request to the client. */
export type AskClient = <R>(method: string, params: unknown) => Promise<R>;

/** A path that leads out of the folder or is no path of it. */
function leadsOut(path: string): boolean {
  return /^[/\\]|^[A-Za-z]:|\0/u.test(path) || path.split(/[/\\]/u).includes("..");
}

/** Reads through the client: for browsers, and for folders that are not on this machine. */
export function filesOfClient(ask: AskClient): Files {
  return {
    async records(root, deep) {
      const method: ListRecordsMethod = "gudgeon/listRecords";
      const params: ListRecordsParams = { root, ending: RECORD_ENDING, skip: ["node_modules", "dist"], deep };
      const found = await ask<ListRecordsResult>(method, params);
      return found.filter((path) => isRecordPath(path)).sort();
    },
    async text(root, path) {
      const method: ReadRecordMethod = "gudgeon/readRecord";
      const params: FileParams = { root, path };
      const { text } = await ask<ReadRecordResult>(method, params);
      return text === undefined || text === null ? undefined : withoutMark(text);
    },
    async state(root, path) {
      if (leadsOut(path)) return { exists: false, outside: true, size: 0, digest: "" };
      const method: FileStateMethod = "gudgeon/fileState";
      const params: FileParams = { root, path };
      return { ...(await ask<FileStateResult>(method, params)), outside: false };
    },
  };
}

/** Nothing but what is open in the editor: for documents without a folder. */
export const noFiles: Files = {
  records: async () => [],
  text: async () => undefined,
  state: async () => ({ exists: false, outside: false, size: 0, digest: "" }),
};

