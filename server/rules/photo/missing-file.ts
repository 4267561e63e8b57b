import { NAMING_FILES, type NamedFile, namedFiles } from "../named-files.ts";
import { JOB } from "../record-shops.ts";
import { rule } from "../rule.ts";

type Found = Pick<NamedFile, "kind" | "path">;

const SHOP = `${JOB}entry E1 2026-02-17 strip job J26-014\n`;

export default rule<(typeof NAMING_FILES)[number], Found>({
  id: "photo/missing-file",
  severity: "error",
  on: NAMING_FILES,
  reads: ["photos", "logFiles"],
  page: {
    what: "A photo, or a data logger's file, that a line names is not in the workspace.",
    why: "Evidence that is not there shows nothing. Paths are relative to the folder of the shop, with forward slashes; upper and lower case count.",
    remedy: "Put the file in its place, or correct the path.",
    faulty: [
      {
        text: `${SHOP}  photo "photos/baffle-4.jpg" "Crack, lower lug"\n`,
        files: { "photos/baffle-4.jpg": "missing" },
      },
    ],
    sound: [{ text: `${SHOP}  photo "photos/baffle-4.jpg" "Crack, lower lug"\n` }],
  },
  check(block, ask, report) {
    for (const { kind, path, at, role } of namedFiles(block)) {
      const state = ask.file(path);
      if (state && !state.exists && !state.outside) report({ at, role }, { kind, path });
    }
  },
  say: ({ kind, path }) =>
    `The ${kind} "${path}" is not in the workspace, so it shows nothing. Put the file in its place, or correct the path.`,
});
