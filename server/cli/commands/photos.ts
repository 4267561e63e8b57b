import { otherFiles, writeAtOnce } from "../../host/evidence-files.ts";
import { fileState, RECORD_ENDING, readRecord } from "../../host/shop-files.ts";
import { type NamedFileLine, namedFileLines, repinned } from "../../report/named-photos.ts";
import { type Command, readArguments } from "../arguments.ts";
import { asOfDate, type LoadedShop, loadShop, shownPath } from "../shop.ts";
import { plain, progress, write } from "../terminal.ts";

const PICTURE = /\.(?:jpe?g|png|gif|webp|heic|heif|avif|tiff?|bmp)$/iu;

interface Change {
  readonly line: NamedFileLine;
  readonly path: string;
  readonly digest: string;
}

/** Where files that are missing went: the only unnamed file with the pinned bytes. */
async function movedFiles(
  shop: LoadedShop,
  missing: readonly NamedFileLine[],
  unnamed: readonly string[],
): Promise<Change[]> {
  const wanted = new Set(missing.map((line) => line.digest.toLowerCase()).filter((digest) => digest !== ""));
  if (wanted.size === 0) return [];
  const at = new Map<string, string[]>();
  for (const [i, path] of unnamed.entries()) {
    progress(`hashing ${i + 1} of ${unnamed.length} files`);
    const { digest, outside } = await fileState(shop.root, path);
    if (!outside && wanted.has(digest)) at.set(digest, [...(at.get(digest) ?? []), path]);
  }
  progress("");
  return missing.flatMap((line) => {
    const digest = line.digest.toLowerCase();
    const [path, ...more] = at.get(digest) ?? [];
    return path !== undefined && more.length === 0 ? [{ line, path, digest }] : [];
  });
}

/** Writes the changes, record by record. @returns how many lines were changed */
function apply(shop: LoadedShop, changes: readonly Change[]): number {
  for (const record of new Set(changes.map(({ line }) => line.record))) {
    const lines = readRecord(shop.root, record).split("\n");
    for (const { line, path, digest } of changes) {
      if (line.record !== record) continue;
      const text = lines[line.line] ?? "";
      const end = text.endsWith("\r") ? "\r" : "";
      lines[line.line] = repinned(end === "" ? text : text.slice(0, -1), line.kind, path, digest) + end;
    }
    writeAtOnce(shop.root, record, lines.join("\n"));
  }
  return changes.length;
}

export const command: Command = {
  usage: "gudgeon photos [paths]",
  about:
    "Lists the files that records name and verifies their bytes; pins them, and finds them again after they were moved.",
  options: [
    ["pin", "write the digest into lines that have none"],
    ["moved", "where a file is missing and another one has its bytes, write the new path"],
  ],
  async run(args) {
    const { values, positionals } = readArguments(args, {
      pin: { type: "boolean", default: false },
      moved: { type: "boolean", default: false },
    });
    const shop = await loadShop(positionals, asOfDate(undefined), true);
    const lines = namedFileLines(shop.checker).filter((line) => shop.wanted(line.record));
    for (const line of lines) {
      const state = shop.checker.ask.file(line.file);
      const size = state?.exists === true && !state.outside ? `  ${state.size} bytes` : "";
      write(
        `${line.standing.padEnd(10)}  ${plain(line.file)}${size}  ${plain(shownPath(shop.root, line.record))}:${line.line + 1} ${plain(line.ref)}${line.caption === "" ? "" : `  ${plain(line.caption)}`}\n`,
      );
    }
    const { paths, cut } = otherFiles(shop.root, RECORD_ENDING);
    const named = new Set(namedFileLines(shop.checker).map((line) => line.file));
    const unnamed = paths.filter((path) => !named.has(path));
    for (const path of unnamed) if (PICTURE.test(path)) write(`${"not named".padEnd(10)}  ${plain(path)}\n`);
    if (cut) write("There are more files than are looked at; what is not named may be more.\n");

    const changes: Change[] = [];
    if (values.pin)
      for (const line of lines)
        if (line.standing === "not pinned")
          changes.push({ line, path: line.file, digest: shop.checker.ask.file(line.file)?.digest ?? "" });
    if (values.moved)
      changes.push(
        ...(await movedFiles(
          shop,
          lines.filter((line) => line.standing === "missing"),
          unnamed,
        )),
      );
    const free = changes.filter((change) => !change.line.sealed && /^[0-9a-f]{64}$/u.test(change.digest));
    for (const { line, path } of changes.filter((change) => change.line.sealed)) {
      write(
        `\n${plain(shownPath(shop.root, line.record))}:${line.line + 1}: a seal covers the line, so it stays as it is${path === line.file ? "" : `; the file is now ${plain(path)}`}. Put the file back, or name it in an entry that amends ${plain(line.ref)}.\n`,
      );
    }
    for (const { line, path } of free)
      write(
        `\n${plain(shownPath(shop.root, line.record))}:${line.line + 1}: ${path === line.file ? "pinned" : `now ${plain(path)}`}`,
      );
    if (values.pin || values.moved) write(`\n${apply(shop, free)} of ${changes.length} lines changed.\n`);
    const open = lines.filter(
      (line) =>
        (line.standing === "missing" || line.standing === "changed" || line.standing === "outside") &&
        !free.some((change) => change.line === line),
    );
    return open.length > 0 ? 1 : 0;
  },
};
