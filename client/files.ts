/** Reads files for a server that has no disk: in a browser, or for a folder that is elsewhere. Nothing is read that lies outside the folder named. */
import { FileType, Uri, workspace } from "vscode";
import type { BaseLanguageClient } from "vscode-languageclient";
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
} from "../server/lsp/protocol.ts";

/** Deeper than any shop's folders, so that a loop of links ends. */
const DEEPEST = 32;

/** @throws Error for a path that leads out of its folder, or a folder that is not open */
function addressOf({ root, path }: FileParams): Uri {
  if (path.split(/[/\\]/u).includes("..")) throw new Error("the path leads outside the folder");
  return Uri.joinPath(Uri.parse(root, true), path);
}

async function listRecords({ root, ending, skip, deep }: ListRecordsParams): Promise<ListRecordsResult> {
  const found: string[] = [];
  const walk = async (folder: Uri, lead: string, depth: number): Promise<void> => {
    if (depth > DEEPEST) return;
    for (const [name, type] of await workspace.fs.readDirectory(folder)) {
      if (name.startsWith(".")) continue;
      const isLink = (type & FileType.SymbolicLink) !== 0;
      if ((type & FileType.Directory) !== 0) {
        if (deep && !isLink && !skip.includes(name))
          await walk(Uri.joinPath(folder, name), `${lead}${name}/`, depth + 1);
      } else if (name.endsWith(ending)) found.push(lead + name);
    }
  };
  await walk(Uri.parse(root, true), "", 0);
  return found;
}

async function readRecord(params: FileParams): Promise<ReadRecordResult> {
  const uri = addressOf(params);
  try {
    await workspace.fs.stat(uri);
  } catch {
    return {};
  }
  return { text: new TextDecoder().decode(await workspace.fs.readFile(uri)) };
}

async function sha256(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const hash = await crypto.subtle.digest("SHA-256", bytes);
  return [...new Uint8Array(hash)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

async function readBytes(params: ReadBytesParams): Promise<ReadBytesResult> {
  const uri = addressOf(params);
  try {
    const { type, size } = await workspace.fs.stat(uri);
    if ((type & FileType.File) === 0) return {};
    if (size > params.most) return { size };
    const bytes = new Uint8Array(await workspace.fs.readFile(uri));
    let text = "";
    // In pieces: a whole file as arguments of one call would overflow the stack.
    for (let at = 0; at < bytes.length; at += 8192) text += String.fromCharCode(...bytes.subarray(at, at + 8192));
    return { size, base64: btoa(text), digest: await sha256(bytes) };
  } catch {
    return {};
  }
}

const digests = new Map<string, string>();

async function fileState(params: FileParams): Promise<FileStateResult> {
  const none = { exists: false, size: 0, digest: "" };
  const uri = addressOf(params);
  try {
    const { type, size, mtime } = await workspace.fs.stat(uri);
    if ((type & FileType.File) === 0) return none;
    const key = `${uri.toString()}\0${size}\0${mtime}`;
    let digest = digests.get(key);
    if (digest === undefined) {
      const bytes = new Uint8Array(await workspace.fs.readFile(uri));
      digest = await sha256(bytes);
      digests.set(key, digest);
    }
    return { exists: true, size, digest };
  } catch {
    return none;
  }
}

export function serveFiles(client: BaseLanguageClient): void {
  const list: ListRecordsMethod = "gudgeon/listRecords";
  client.onRequest(list, listRecords);
  const read: ReadRecordMethod = "gudgeon/readRecord";
  client.onRequest(read, readRecord);
  const state: FileStateMethod = "gudgeon/fileState";
  client.onRequest(state, fileState);
  const bytes: ReadBytesMethod = "gudgeon/readBytes";
  client.onRequest(bytes, readBytes);
}
