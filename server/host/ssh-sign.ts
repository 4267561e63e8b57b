/**
 * Signs with the machine's own OpenSSH: the key, its passphrase and the agent stay the user's, and nothing of them passes through this program.
 *
 * Source: ssh-keygen(1), -Y sign.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** A key on disk (private, or public when an agent holds the other half), or a public key that an agent may hold. */
export type SigningKey = { readonly file: string } | { readonly publicKey: string };

export type Signed = { readonly signature: string } | { readonly failed: string };

/** Whether an agent may hold keys. */
export function hasAgent(): boolean {
  return (process.env["SSH_AUTH_SOCK"] ?? "") !== "";
}

/** The public half of a key file, `ssh-ed25519 AAAA... comment`; undefined where there is none beside it. */
export function publicHalf(file: string): string | undefined {
  for (const path of file.endsWith(".pub") ? [file] : [`${file}.pub`]) {
    try {
      return readFileSync(path, "utf8").trim();
    } catch {
      // No such file: the signature will tell which key it was.
    }
  }
  return undefined;
}

/**
 * @param statement what is signed
 * @param namespace what the signature is for
 * @returns the signature file's text, or why there is none; a passphrase or a touch is asked for on the terminal by ssh-keygen itself
 */
export function signStatement(key: SigningKey, statement: string, namespace: string): Signed {
  const folder = mkdtempSync(join(tmpdir(), "gudgeon-sign-"));
  try {
    let file = "file" in key ? key.file : join(folder, "key.pub");
    if ("publicKey" in key) writeFileSync(file, `${key.publicKey}\n`, { mode: 0o600 });
    else if (file.startsWith("-")) file = `./${file}`;
    // No shell: the path is one argument whatever it holds.
    const done = spawnSync("ssh-keygen", ["-q", "-Y", "sign", "-f", file, "-n", namespace], {
      input: statement,
      encoding: "utf8",
      stdio: ["pipe", "pipe", "inherit"],
      maxBuffer: 65_536,
    });
    if (done.error)
      return {
        failed:
          (done.error as NodeJS.ErrnoException).code === "ENOENT"
            ? "ssh-keygen is not on this machine (it comes with OpenSSH)."
            : done.error.message,
      };
    if (done.status !== 0) return { failed: `ssh-keygen ended with ${done.status ?? done.signal}.` };
    return { signature: done.stdout };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
