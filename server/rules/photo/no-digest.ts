import { NAMING_FILES, type NamedFile, namedFiles } from "../named-files.ts";
import { JOB } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found extends Pick<NamedFile, "kind" | "path" | "caption"> {
  /** Digest of the file as it is, for the line; "" where it must not be written or is not known. */
  readonly digest: string;
}

const SHOP = `${JOB}entry E1 2026-02-17 strip job J26-014\n`;

export default rule<(typeof NAMING_FILES)[number], Found>({
  id: "photo/no-digest",
  severity: "hint",
  on: NAMING_FILES,
  reads: ["photos", "logFiles"],
  page: {
    what: "A photo, or a data logger's file, is named without the digest of its bytes.",
    why: "A seal covers the text of the line, not the file. With a digest it covers the file too, and any change of it is seen.",
    remedy: "Add `sha256:` and the digest at the end of the line; the repair does it.",
    faulty: [{ text: `${SHOP}  photo "photos/baffle-4.jpg" "Crack, lower lug"\n` }],
    sound: [{ text: `${SHOP}  photo "photos/baffle-4.jpg" "Crack, lower lug" sha256:${"3f".repeat(32)}\n` }],
  },
  check(block, ask, report) {
    // A line below which someone signed is not written to.
    const signed = "signs" in block && block.signs.length > 0;
    for (const { kind, path, at, role, digest, caption } of namedFiles(block)) {
      if (digest !== "") continue;
      const state = ask.file(path);
      if (state && (!state.exists || state.outside)) continue;
      report({ at, role }, { kind, path, caption, digest: signed ? "" : (state?.digest ?? "") });
    }
  },
  say: ({ kind, path }) =>
    `The ${kind} "${path}" has no digest, so a change of the file would not be seen. Pin it with sha256: at the end of the line.`,
  repair({ kind, digest }, spot, line) {
    if (digest === "") return [];
    // The digest is the last word of the line, before a comment.
    const role = kind === "photo" ? "caption" : "file";
    const quoted = [...line.matchAll(/"(?:[^"]|"")*"/gu)].map((match) => match[0]);
    const text = kind === "photo" ? quoted[1] : quoted[0];
    return text === undefined
      ? []
      : [
          {
            title: "Pin the file with its digest",
            grade: "review",
            edits: [{ kind: "replace", spot: { at: spot.at, role }, text: `${text} sha256:${digest}` }],
          },
        ];
  },
});
