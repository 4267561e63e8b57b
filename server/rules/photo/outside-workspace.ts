import { NAMING_FILES, type NamedFile, namedFiles } from "../named-files.ts";
import { JOB } from "../record-shops.ts";
import { rule } from "../rule.ts";

type Found = Pick<NamedFile, "kind" | "path">;

const SHOP = `${JOB}entry E1 2026-02-17 strip job J26-014\n`;

export default rule<(typeof NAMING_FILES)[number], Found>({
  id: "photo/outside-workspace",
  severity: "error",
  on: NAMING_FILES,
  reads: ["photos", "logFiles"],
  page: {
    what: "A photo, or a data logger's file, is named by a path that leads out of the folder of the shop. It is never opened.",
    why: "The folder is the record. What lies outside is not kept, copied or sealed with it, and is another file on another computer.",
    remedy: "Copy the file into the folder and name it by its path there.",
    faulty: [
      {
        text: `${SHOP}  photo "../camera/baffle-4.jpg" "Crack, lower lug"\n`,
        files: { "../camera/baffle-4.jpg": "outside" },
      },
    ],
    sound: [{ text: `${SHOP}  photo "photos/baffle-4.jpg" "Crack, lower lug"\n` }],
  },
  check(block, ask, report) {
    for (const { kind, path, at, role } of namedFiles(block))
      if (ask.file(path)?.outside) report({ at, role }, { kind, path });
  },
  say: ({ kind, path }) =>
    `The ${kind} "${path}" lies outside the folder of the shop, so it is no part of the record and is not opened. Copy it into the folder.`,
});
