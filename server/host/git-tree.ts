/**
 * The files of a shop as a commit holds them, read from git's objects: nothing is checked out, and the work tree, the index and the network are left alone.
 *
 * Source: git-ls-tree(1), git-cat-file(1), git(1) for the environment.
 */
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";

export interface TreeFile {
  /** Relative to the shop's folder. */
  readonly path: string;
  readonly blob: string;
  readonly size: number;
}

export interface Tree {
  /** 40 or 64 hexadecimal digits. */
  readonly commit: string;
  readonly files: ReadonlyMap<string, TreeFile>;
}

/** More files than any shop has; a tree beyond it is refused rather than read for ever. */
const MOST_FILES = 200_000;
const MOST_BYTES = 1024 * 1024 * 1024;

export class GitRefusal extends Error {}

/** A repository from elsewhere may name programs in its settings: none is started for reading, and nothing is fetched. */
function git(folder: string, args: readonly string[], input?: string): Buffer {
  const done = spawnSync(
    "git",
    [
      "--no-replace-objects",
      "--literal-pathspecs",
      "-c",
      "core.fsmonitor=false",
      "-c",
      "core.hooksPath=/dev/null",
      "-c",
      "protocol.allow=never",
      ...args,
    ],
    {
      cwd: folder,
      maxBuffer: MOST_BYTES,
      ...(input === undefined ? {} : { input }),
      env: {
        ...process.env,
        GIT_OPTIONAL_LOCKS: "0",
        GIT_NO_LAZY_FETCH: "1",
        GIT_TERMINAL_PROMPT: "0",
        GIT_PAGER: "cat",
      },
    },
  );
  if (done.error)
    throw new GitRefusal(
      (done.error as NodeJS.ErrnoException).code === "ENOENT"
        ? "git is not on this machine."
        : `git could not be read: ${done.error.message}`,
    );
  if (done.status !== 0)
    throw new GitRefusal(done.stderr.toString("utf8").trim().split("\n")[0] ?? `git ended with ${done.status}`);
  return done.stdout;
}

/**
 * Lists what a commit holds below a folder.
 * @param folder full path of the shop's folder, inside a repository
 * @param revision as git understands it; one that begins with a dash is refused
 * @throws GitRefusal with git's own words
 */
export function readTree(folder: string, revision: string): Tree {
  if (revision.startsWith("-") || revision.includes("\0")) throw new GitRefusal(`"${revision}" is no revision.`);
  const prefix = git(folder, ["rev-parse", "--show-prefix"]).toString("utf8").replace(/\n$/u, "");
  let commit: string;
  try {
    commit = git(folder, ["rev-parse", "--verify", "--quiet", "--end-of-options", `${revision}^{commit}`])
      .toString("utf8")
      .trim();
  } catch {
    throw new GitRefusal(`git knows no commit "${revision}" here.`);
  }
  const list = git(folder, [
    "ls-tree",
    "-r",
    "-l",
    "-z",
    "--full-tree",
    commit,
    ...(prefix === "" ? [] : ["--", prefix]),
  ]).toString("utf8");
  const files = new Map<string, TreeFile>();
  for (const row of list.split("\0")) {
    // mode SP type SP object SP+ size TAB path. Links and submodules are not followed.
    const match = /^(100644|100755|100664) blob ([0-9a-f]{40,64}) +(\d+)\t([\s\S]+)$/u.exec(row);
    if (!match?.[4]?.startsWith(prefix)) continue;
    const path = match[4].slice(prefix.length);
    files.set(path, { path, blob: match[2] ?? "", size: Number(match[3]) });
    if (files.size > MOST_FILES) throw new GitRefusal(`The commit holds more than ${MOST_FILES} files.`);
  }
  return { commit, files };
}

/** The bytes of several files, in one run of git. @throws GitRefusal when they are too many to hold */
export function readBlobs(folder: string, files: readonly TreeFile[]): Map<string, Buffer> {
  const found = new Map<string, Buffer>();
  if (files.length === 0) return found;
  const total = files.reduce((sum, file) => sum + file.size, 0);
  if (total > MOST_BYTES / 2)
    throw new GitRefusal(`The files to be compared have ${total} bytes together, which is more than is read.`);
  const out = git(folder, ["cat-file", "--batch"], files.map((file) => `${file.blob}\n`).join(""));
  let at = 0;
  for (const file of files) {
    const end = out.indexOf(10, at);
    const head = out.toString("utf8", at, end);
    const size = Number(/^[0-9a-f]+ blob (\d+)$/u.exec(head)?.[1] ?? Number.NaN);
    if (!Number.isSafeInteger(size)) throw new GitRefusal(`git does not have the content of ${file.path} (${head}).`);
    found.set(file.path, out.subarray(end + 1, end + 1 + size));
    at = end + 1 + size + 1;
  }
  return found;
}

/** SHA-256 of bytes, 64 hexadecimal digits. */
export function sha256(bytes: Buffer): string {
  return createHash("sha256").update(bytes).digest("hex");
}
