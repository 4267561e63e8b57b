// Keys and signatures for the tests: with the machine's own ssh-keygen, and hardware kinds built by hand from OpenSSH's PROTOCOL.u2f.

import { execFileSync } from "node:child_process";
import { createHash, generateKeyPairSync, type KeyObject, sign as nodeSign } from "node:crypto";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { toBase64, utf8, wireString } from "../../server/evidence/wire.ts";

export interface SoftKey {
  /** Path of the private key. */
  readonly path: string;
  /** `ssh-ed25519 AAAA...` without a comment. */
  readonly line: string;
}

/** A folder that is gone when the tests are done. */
export function temporaryFolder(): { readonly path: string; remove(): void } {
  const path = mkdtempSync(join(tmpdir(), "gudgeon-evidence-"));
  return { path, remove: () => rmSync(path, { recursive: true, force: true, maxRetries: 10, retryDelay: 100 }) };
}

export function makeKey(folder: string, name: string, ...kind: readonly string[]): SoftKey {
  const path = join(folder, name);
  execFileSync("ssh-keygen", ["-q", ...kind, "-N", "", "-C", name, "-f", path]);
  return { path, line: readFileSync(`${path}.pub`, "utf8").trim().split(" ").slice(0, 2).join(" ") };
}

/** `ssh-keygen -Y sign` over a text. @returns the signature file */
export function signWithSshKeygen(
  key: SoftKey,
  text: string,
  namespace = "gudgeon",
  ...more: readonly string[]
): string {
  return execFileSync("ssh-keygen", ["-q", "-Y", "sign", "-f", key.path, "-n", namespace, ...more], {
    input: text,
    encoding: "utf8",
    stdio: ["pipe", "pipe", "ignore"],
  });
}

/** `ssh-keygen -Y verify`. @returns what it says, or undefined when it refuses */
export function verifyWithSshKeygen(
  folder: string,
  parts: { signers: string; person: string; signature: string; text: string; time?: string; namespace?: string },
): string | undefined {
  writeFileSync(join(folder, "signers"), parts.signers);
  writeFileSync(join(folder, "signature.sig"), parts.signature);
  const args = [
    "-Y",
    "verify",
    "-f",
    join(folder, "signers"),
    "-I",
    parts.person,
    "-n",
    parts.namespace ?? "gudgeon",
    "-s",
    join(folder, "signature.sig"),
  ];
  if (parts.time !== undefined) args.push("-O", `verify-time=${parts.time}`);
  try {
    return execFileSync("ssh-keygen", args, { input: parts.text, encoding: "utf8", stdio: ["pipe", "pipe", "ignore"] });
  } catch {
    return undefined;
  }
}

const bytes = (buffer: Buffer): Uint8Array<ArrayBuffer> => Uint8Array.from(buffer);
const concat = (...parts: readonly Uint8Array[]): Uint8Array<ArrayBuffer> => bytes(Buffer.concat(parts));
const sha256 = (data: Uint8Array): Uint8Array<ArrayBuffer> => bytes(createHash("sha256").update(data).digest());
const uint32 = (n: number): Uint8Array<ArrayBuffer> =>
  Uint8Array.of(n >>> 24, (n >>> 16) & 255, (n >>> 8) & 255, n & 255);

export function armour(blob: Uint8Array): string {
  const text = toBase64(blob)
    .replace(/(.{70})/gu, "$1\n")
    .trimEnd();
  return `-----BEGIN SSH SIGNATURE-----\n${text}\n-----END SSH SIGNATURE-----\n`;
}

/** The body of a signature file, field by field, so that a test can get any one of them wrong. */
export function signatureBody(parts: {
  magic?: string;
  version?: number;
  key: Uint8Array;
  namespace?: string;
  reserved?: string;
  hash?: string;
  signature: Uint8Array;
  after?: Uint8Array;
}): Uint8Array<ArrayBuffer> {
  return concat(
    utf8(parts.magic ?? "SSHSIG"),
    uint32(parts.version ?? 1),
    wireString(parts.key),
    wireString(parts.namespace ?? "gudgeon"),
    wireString(parts.reserved ?? ""),
    wireString(parts.hash ?? "sha512"),
    wireString(parts.signature),
    parts.after ?? new Uint8Array(0),
  );
}

/** A key of a hardware kind whose private half is a software key. */
export interface MadeHardwareKey {
  readonly line: string;
  sign(
    text: string,
    how?: { flags?: number; counter?: number; claimedCounter?: number; claimedFlags?: number; namespace?: string },
  ): string;
}

function mpint(number: Uint8Array): Uint8Array<ArrayBuffer> {
  let at = 0;
  while (at < number.length - 1 && number[at] === 0) at++;
  const short = number.subarray(at);
  return wireString(short[0] >= 0x80 ? concat(Uint8Array.of(0), short) : short);
}

export function makeHardwareKey(kind: "ed25519" | "ecdsa", application = "ssh:"): MadeHardwareKey {
  const type = kind === "ed25519" ? "sk-ssh-ed25519@openssh.com" : "sk-ecdsa-sha2-nistp256@openssh.com";
  const pair = kind === "ed25519" ? generateKeyPairSync("ed25519") : generateKeyPairSync("ec", { namedCurve: "P-256" });
  const jwk = pair.publicKey.export({ format: "jwk" });
  const from = (part: string | undefined) => bytes(Buffer.from(part ?? "", "base64url"));
  const key = concat(
    wireString(type),
    kind === "ed25519"
      ? wireString(from(jwk.x))
      : concat(wireString("nistp256"), wireString(concat(Uint8Array.of(4), from(jwk.x), from(jwk.y)))),
    wireString(application),
  );
  return {
    line: `${type} ${toBase64(key)}`,
    sign(text, { flags = 1, counter = 7, claimedCounter = counter, claimedFlags = flags, namespace = "gudgeon" } = {}) {
      const digest = createHash("sha512").update(text, "utf8").digest();
      const inner = concat(
        utf8("SSHSIG"),
        wireString(namespace),
        wireString(""),
        wireString("sha512"),
        wireString(bytes(digest)),
      );
      // PROTOCOL.u2f: SHA256(application), flags, counter, SHA256(message).
      const signed = concat(sha256(utf8(application)), Uint8Array.of(flags), uint32(counter), sha256(inner));
      const raw = rawSignature(kind, pair.privateKey, signed);
      return armour(
        signatureBody({
          key,
          namespace,
          signature: concat(wireString(type), wireString(raw), Uint8Array.of(claimedFlags), uint32(claimedCounter)),
        }),
      );
    },
  };
}

function rawSignature(kind: "ed25519" | "ecdsa", key: KeyObject, signed: Uint8Array): Uint8Array<ArrayBuffer> {
  if (kind === "ed25519") return bytes(nodeSign(null, signed, key));
  const pair = nodeSign("sha256", signed, { key, dsaEncoding: "ieee-p1363" });
  return concat(mpint(pair.subarray(0, 32)), mpint(pair.subarray(32)));
}
