/** Files that records name: a host looks at them and tells what it found. */
import type { Block } from "../facts/types.ts";
import { runTableRequest } from "../totals/run-logs.ts";
import { signatureRequest } from "../totals/signature-requests.ts";
import type { Ask, RunTableRequest, SignatureRequest } from "./ask.ts";
import { isWork } from "./emit.ts";

/** Photos and logs, by path as written. */
export function filesNamedIn(blocks: Iterable<Block>): Set<string> {
  const paths = new Set<string>();
  for (const block of blocks) {
    if (block.kind === "engine" || block.kind === "job") for (const photo of block.photos) paths.add(photo.path);
    else if (isWork(block)) {
      for (const photo of block.photos) paths.add(photo.path);
      for (const log of block.logFiles) paths.add(log.path);
    }
  }
  return paths;
}

/** Signature files that may stand behind seals. */
export function signaturesNamedIn(blocks: Iterable<Block>, ask: Ask): SignatureRequest[] {
  const requests: SignatureRequest[] = [];
  for (const block of blocks) {
    if (!isWork(block)) continue;
    for (const sign of block.signs) {
      const request = signatureRequest(block, sign, ask);
      if (request) requests.push(request);
    }
  }
  return requests;
}

/** Tables of loggers' files. */
export function runTablesNamedIn(blocks: Iterable<Block>): RunTableRequest[] {
  const requests: RunTableRequest[] = [];
  for (const block of blocks) {
    if (!isWork(block)) continue;
    for (const file of block.logFiles) {
      const request = runTableRequest(file);
      if (request) requests.push(request);
    }
  }
  return requests;
}
