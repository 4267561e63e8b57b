import { NAMING_FILES, type NamedFile, namedFiles } from "../named-files.ts";
import { JOB } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found extends Pick<NamedFile, "kind" | "path"> {
  readonly pinned: string;
  readonly now: string;
}

const A = "3f".repeat(32);
const B = "a0".repeat(32);
const TEXT = `${JOB}entry E1 2026-02-17 strip job J26-014\n  photo "photos/baffle-4.jpg" "Crack, lower lug" sha256:${A}\n`;

export default rule<(typeof NAMING_FILES)[number], Found>({
  id: "photo/changed-bytes",
  severity: "error",
  on: NAMING_FILES,
  reads: ["photos", "logFiles"],
  page: {
    what: "A photo, or a data logger's file, is not byte for byte the one that its line pinned with a digest.",
    why: "The digest was written so that the evidence stays what it was. Turning, cropping or saving a picture again changes it, and so does a spreadsheet that opened a log.",
    remedy:
      "Put the original back. Where the change was meant, keep the original and name the new file on a line of its own.",
    faulty: [{ text: TEXT, files: { "photos/baffle-4.jpg": `sha256:${B}` } }],
    sound: [{ text: TEXT, files: { "photos/baffle-4.jpg": `sha256:${A}` } }],
  },
  check(block, ask, report) {
    for (const { kind, path, at, digest } of namedFiles(block)) {
      if (digest === "") continue;
      const state = ask.file(path);
      if (!state?.exists || state.outside || state.digest === "" || state.digest === digest.toLowerCase()) continue;
      report({ at, role: "digest" }, { kind, path, pinned: digest.slice(0, 12), now: state.digest.slice(0, 12) });
    }
  },
  say: ({ kind, path, pinned, now }) =>
    `The ${kind} "${path}" is not the file that was pinned here: its digest begins ${now}, not ${pinned}. What was shown may have been changed: put the original back.`,
});
