/** Where the server gets the text of records and the state of the files that they name: from disk, or through the client. */
import type { EvidenceFile } from "../evidence/signature-state.ts";
import type { FileState } from "../workspace/ports.ts";
import { isRecordPath, RECORD_ENDING } from "../workspace/record-paths.ts";
import type {
  FileParams,
  FileStateMethod,
  FileStateResult,
  ListRecordsMethod,
  ListRecordsParams,
  ListRecordsResult,
  ReadBytesMethod,
  ReadBytesParams,
  ReadBytesResult,
  ReadRecordMethod,
  ReadRecordResult,
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
  /** A short text that proves something: a signature. @param most bytes; a longer file is refused */
  evidence(root: string, path: string, most: number): Promise<EvidenceFile>;
  /** A long file, piece by piece. @param most bytes; a longer file is refused */
  stream<T>(root: string, path: string, most: number, reader: PieceReader<T>): Promise<Streamed<T>>;
  /** Watches a folder where the client does not; undefined where that cannot be done. */
  watch?(root: string, changed: (paths: string[]) => void, failed: (reason: string) => void): () => void;
}

/** Takes a file in pieces. */
export interface PieceReader<T> {
  push(piece: Uint8Array): void;
  /** @param digest SHA-256 of all pieces, 64 hex digits */
  end(digest: string): T;
}

export type Streamed<T> =
  | { readonly standing: "absent" }
  | { readonly standing: "refused"; readonly message: string }
  | { readonly standing: "ended"; readonly value: T };

/** Sends a request to the client. */
export type AskClient = <R>(method: string, params: unknown) => Promise<R>;

/** A path that leads out of the folder or is no path of it. */
function leadsOut(path: string): boolean {
  return /^[/\\]|^[A-Za-z]:|\0/u.test(path) || path.split(/[/\\]/u).includes("..");
}

function tooLong(size: number, most: number): string {
  return `The file has ${size} bytes; one of more than ${most} is not read.`;
}

function fromBase64(text: string): Uint8Array {
  return Uint8Array.from(atob(text), (character) => character.charCodeAt(0));
}

/** Reads through the client: for browsers, and for folders that are not on this machine. */
export function filesOfClient(ask: AskClient): Files {
  const bytes = (root: string, path: string, most: number): Promise<ReadBytesResult> => {
    const method: ReadBytesMethod = "gudgeon/readBytes";
    const params: ReadBytesParams = { root, path, most };
    return ask<ReadBytesResult>(method, params);
  };
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
    async evidence(root, path, most) {
      if (leadsOut(path)) return { refused: "The file leads outside the shop's folder and is not read." };
      const read = await bytes(root, path, most);
      if (read.base64 !== undefined) return { text: new TextDecoder().decode(fromBase64(read.base64)) };
      return read.size === undefined ? { absent: true } : { refused: tooLong(read.size, most) };
    },
    async stream(root, path, most, reader) {
      if (leadsOut(path)) return { standing: "absent" };
      const read = await bytes(root, path, most);
      if (read.base64 === undefined)
        return read.size === undefined
          ? { standing: "absent" }
          : { standing: "refused", message: tooLong(read.size, most) };
      reader.push(fromBase64(read.base64));
      return { standing: "ended", value: reader.end(read.digest ?? "") };
    },
  };
}

/** Nothing but what is open in the editor: for documents without a folder. */
export const noFiles: Files = {
  records: async () => [],
  text: async () => undefined,
  state: async () => ({ exists: false, outside: false, size: 0, digest: "" }),
  evidence: async () => ({ absent: true }),
  stream: async () => ({ standing: "absent" }),
};
