/** The files that records name, with what became of each, and the changes of lines that pin them again. */

import type { FileState } from "../checking/ask.ts";
import type { Checker } from "../checking/checker.ts";
import type { At } from "../facts/types.ts";
import { columnsIn } from "../workspace/locate.ts";
import { lineOf } from "../workspace/workspace.ts";

export type FileStanding = "as pinned" | "not pinned" | "changed" | "missing" | "outside" | "not known";

export interface NamedFileLine {
  /** File as the record names it. */
  readonly file: string;
  readonly kind: "photo" | "log";
  readonly caption: string;
  /** 64 hexadecimal digits, or "". */
  readonly digest: string;
  readonly standing: FileStanding;
  /** Record, and line in it from 0. */
  readonly record: string;
  readonly line: number;
  readonly ref: string;
  /** A seal covers the line: it is not changed any more. */
  readonly sealed: boolean;
}

function standingOf(state: FileState | undefined, digest: string): FileStanding {
  if (!state) return "not known";
  if (state.outside) return "outside";
  if (!state.exists) return "missing";
  if (digest === "") return "not pinned";
  return state.digest === digest.toLowerCase() ? "as pinned" : "changed";
}

/** Every line that names a file, in order of record and line. */
export function namedFileLines(checker: Checker): NamedFileLine[] {
  const found: NamedFileLine[] = [];
  for (const document of [...checker.workspace.documents.values()].sort((a, b) => (a.path < b.path ? -1 : 1))) {
    for (const entry of document.blocks) {
      const block = entry.facts;
      const add = (
        kind: "photo" | "log",
        line: { at: At; path: string; digest: string },
        caption: string,
        sealed: boolean,
      ): void => {
        if (line.path === "") return;
        found.push({
          file: line.path,
          kind,
          caption,
          digest: line.digest,
          standing: standingOf(checker.ask.file(line.path), line.digest),
          record: document.path,
          line: lineOf(entry, line.at),
          ref: block.ref,
          sealed,
        });
      };
      if (block.kind === "engine" || block.kind === "job")
        for (const photo of block.photos) add("photo", photo, photo.caption, false);
      else if (
        block.kind === "entry" ||
        block.kind === "run" ||
        block.kind === "release" ||
        block.kind === "dispatch"
      ) {
        const covered = (at: At): boolean => block.signs.some((sign) => sign.seal !== "" && sign.at > at);
        for (const photo of block.photos) add("photo", photo, photo.caption, covered(photo.at));
        for (const log of block.logFiles) add("log", log, "", covered(log.at));
      }
    }
  }
  return found.sort((a, b) => (a.record < b.record ? -1 : a.record > b.record ? 1 : a.line - b.line));
}

/** The line with another path and digest in it; everything else stays as it was typed. */
export function repinned(line: string, kind: "photo" | "log", path: string, digest: string): string {
  const quoted = `"${path.replaceAll('"', '""')}"`;
  const at = columnsIn(line, { role: kind === "photo" ? "path" : "file" });
  let out = line.slice(0, at.from) + quoted + line.slice(at.to);
  const pin = /(?<=\s)sha256:[0-9A-Fa-f]{64}/u;
  const content = columnsIn(out, {});
  const end = content.to;
  const head = out.slice(0, end);
  out = pin.test(head)
    ? head.replace(pin, `sha256:${digest}`) + out.slice(end)
    : `${head} sha256:${digest}${out.slice(end)}`;
  return out;
}
