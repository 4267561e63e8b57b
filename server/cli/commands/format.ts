import { join, resolve } from "node:path";
import process from "node:process";
import { formatLines } from "../../../grammar/print.ts";
import { existsSync, readFileSync, renameSync, statSync, writeFileSync } from "../../host/disk.ts";
import { recordFiles } from "../../host/shop-files.ts";
import { type Command, readArguments } from "../arguments.ts";
import { plain, Refusal, write } from "../terminal.ts";

function filesOf(paths: readonly string[]): string[] {
  return (paths.length === 0 ? ["."] : paths).flatMap((path) => {
    const full = resolve(path);
    if (!existsSync(full)) throw new Refusal(`There is no file or folder ${path}.`);
    return statSync(full).isDirectory() ? recordFiles(full).map((one) => join(full, one)) : [full];
  });
}

/** Formats a text; line ends and a byte-order mark stay as they are. */
function formatText(text: string): string {
  const end = text.includes("\r\n") ? "\r\n" : "\n";
  return formatLines(text.split(/\r?\n/u)).join(end);
}

export const command: Command = {
  usage: "gudgeon format [paths]",
  about: "Aligns columns and blanks; every word, number and comment stays as typed, and no seal breaks.",
  options: [["check", "change nothing; name the files that would change and exit 1"]],
  run(args) {
    const { values, positionals } = readArguments(args, { check: { type: "boolean", default: false } });
    let changed = 0;
    let failed = 0;
    const files = filesOf(positionals);
    for (const path of files) {
      try {
        const before = readFileSync(path, "utf8");
        const after = formatText(before);
        if (after === before) continue;
        changed++;
        write(`${values.check ? "would change" : "formatted"} ${plain(path)}\n`);
        if (!values.check) {
          // Written beside and moved over, so that a full disk or a crash never leaves half a record.
          const beside = `${path}.${process.pid}.new`;
          writeFileSync(beside, after, { mode: statSync(path).mode });
          renameSync(beside, path);
        }
      } catch (error) {
        failed++;
        process.stderr.write(
          `gudgeon: ${plain(path)}: ${plain(error instanceof Error ? error.message : String(error))}\n`,
        );
      }
    }
    write(
      `${files.length} file${files.length === 1 ? "" : "s"}, ${changed} ${values.check ? "would change" : "changed"}.\n`,
    );
    return failed > 0 ? 2 : values.check && changed > 0 ? 1 : 0;
  },
};
