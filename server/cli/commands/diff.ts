import { resolve } from "node:path";
import process from "node:process";
import { Checker } from "../../checking/checker.ts";
import { signatureState } from "../../evidence/signature-state.ts";
import { LONGEST_SIGNATURE } from "../../evidence/ssh-signature.ts";
import { GitRefusal, readBlobs, readTree, sha256, type TreeFile } from "../../host/git-tree.ts";
import { RECORD_ENDING } from "../../host/shop-files.ts";
import type { CivilDate } from "../../quantity/civil-date.ts";
import { changeMarkdown, changeText, compareStates } from "../../report/compare-states.ts";
import { Workspace } from "../../workspace/workspace.ts";
import { type Command, readArguments } from "../arguments.ts";
import { asOfDate, loadShop } from "../shop.ts";
import { plain, Refusal, write } from "../terminal.ts";

/** No record comes near it; one that does is said and left out. */
const LONGEST_RECORD = 16 * 1024 * 1024;
/** Named files up to this size are hashed; of larger ones only that they are there is known. */
const LARGEST_HASHED = 64 * 1024 * 1024;

/** The shop as a commit holds it. */
async function shopAt(
  folder: string,
  revision: string,
  asOf: CivilDate,
): Promise<{ checker: Checker; left: string[] }> {
  const tree = readTree(folder, revision);
  const records = [...tree.files.values()].filter(
    (file) =>
      file.path.endsWith(RECORD_ENDING) &&
      !file.path.split("/").some((part) => part.startsWith(".") || part === "node_modules" || part === "dist"),
  );
  const left = records.filter((file) => file.size > LONGEST_RECORD).map((file) => file.path);
  const workspace = new Workspace();
  const texts = readBlobs(
    folder,
    records.filter((file) => file.size <= LONGEST_RECORD),
  );
  for (const [path, bytes] of [...texts].sort(([a], [b]) => (a < b ? -1 : 1)))
    workspace.setText(path, bytes.toString("utf8"));
  const checker = new Checker(workspace, { asOf, recording: false });
  const named = [...checker.filesNamed()];
  const there = named.flatMap((path) => tree.files.get(path) ?? []);
  const digests = new Map<string, string>();
  // A few at a time: photos are large, and only their digests are kept.
  let batch: TreeFile[] = [];
  const hash = (): void => {
    for (const [path, bytes] of readBlobs(folder, batch)) digests.set(path, sha256(bytes));
    batch = [];
  };
  for (const file of there.filter((one) => one.size <= LARGEST_HASHED)) {
    batch.push(file);
    if (batch.reduce((sum, one) => sum + one.size, 0) > LARGEST_HASHED) hash();
  }
  hash();
  for (const path of named) {
    const file = tree.files.get(path);
    checker.setFile(path, {
      exists: file !== undefined,
      outside: /^[/\\]|^[A-Za-z]:|(^|[/\\])\.\.([/\\]|$)/u.test(path),
      size: file?.size ?? 0,
      digest: digests.get(path) ?? "",
    });
  }
  const requests = checker.signaturesNamed();
  const signatures = readBlobs(
    folder,
    [...new Set(requests.map((request) => request.path))]
      .flatMap((path) => tree.files.get(path) ?? [])
      .filter((file) => file.size <= LONGEST_SIGNATURE),
  );
  for (const request of requests) {
    const bytes = signatures.get(request.path);
    const tooLong = tree.files.has(request.path)
      ? { refused: "The signature file is too long and is not read." }
      : { absent: true as const };
    checker.setSignature(request, await signatureState(bytes ? { text: bytes.toString("utf8") } : tooLong, request));
  }
  checker.sweep();
  return { checker, left };
}

export const command: Command = {
  usage: "gudgeon diff REV [REV]",
  about:
    "Compares two commits, or a commit and the files as they are, by what they mean: readings, signatures, due items, findings.",
  options: [
    ["folder FOLDER", "the shop's folder instead of the current one"],
    ["as-of DATE", "judge both as of this day instead of today"],
    ["format FORMAT", "text, json, or markdown for a review comment"],
  ],
  async run(args) {
    const { values, positionals } = readArguments(args, {
      folder: { type: "string", default: "." },
      "as-of": { type: "string" },
      format: { type: "string", default: "text" },
    });
    const [from, to, ...more] = positionals;
    if (from === undefined || more.length > 0) throw new Refusal(`Usage: ${command.usage}`);
    if (!["text", "json", "markdown"].includes(values.format))
      throw new Refusal(`--format wants text, json or markdown, not "${values.format}".`);
    const asOf = asOfDate(values["as-of"]);
    const folder = resolve(values.folder);
    try {
      const before = await shopAt(folder, from, asOf);
      const after =
        to === undefined
          ? { checker: (await loadShop([folder], asOf)).checker, left: [] }
          : await shopAt(folder, to, asOf);
      for (const path of [...before.left, ...after.left])
        process.stderr.write(`gudgeon: ${plain(path)} is longer than ${LONGEST_RECORD} bytes and is left out.\n`);
      const change = compareStates(before.checker, after.checker);
      if (values.format === "json")
        write(`${JSON.stringify({ version: 1, from, to: to ?? "files", ...change }, undefined, 2)}\n`);
      else write(`${plain((values.format === "markdown" ? changeMarkdown : changeText)(change))}\n`);
      return change.signs.some((one) => one.change === "broken") ||
        change.findingsNew.some((one) => one.severity === "error")
        ? 1
        : 0;
    } catch (error) {
      if (error instanceof GitRefusal) throw new Refusal(error.message);
      throw error;
    }
  },
};
