/**
 * OpenSSH public keys as `person` blocks write them: `ssh-ed25519 AAAA... comment`.
 *
 * Source: RFC 4253 section 6.6 (ssh-rsa), RFC 5656 section 3.1 (ecdsa-sha2-nistp256), RFC 8709 section 4 (ssh-ed25519), OpenSSH PROTOCOL.u2f (the
 * two kinds that live in a hardware key).
 */
import { Refused } from "./refused.ts";
import { fromBase64, joined, Reader, toBase64 } from "./wire.ts";

export type KeyKind =
  | "ssh-ed25519"
  | "ecdsa-sha2-nistp256"
  | "ssh-rsa"
  | "sk-ssh-ed25519@openssh.com"
  | "sk-ecdsa-sha2-nistp256@openssh.com";

export interface PublicKey {
  readonly kind: KeyKind;
  /** As it travels, from the kind's name on. */
  readonly blob: Uint8Array<ArrayBuffer>;
  /** Ed25519: 32 bytes. */
  readonly point: Uint8Array<ArrayBuffer>;
  /** RSA: modulus and exponent without leading zeros. */
  readonly modulus: Uint8Array<ArrayBuffer>;
  readonly exponent: Uint8Array<ArrayBuffer>;
  /** Hardware kinds: what the key was made for, such as `ssh:`. */
  readonly application: string;
}

/** A line of a key longer than this is not read: the longest that is taken (RSA of 16384 bits) has under 3 kB. */
export const LONGEST_KEY_LINE = 4096;
/** Shorter RSA keys can be broken with means that exist. NIST SP 800-131A allows 2048 bits and more. */
const LEAST_RSA_BITS = 2048;
const MOST_RSA_BYTES = 2048;

const NONE = new Uint8Array(0);

/** @throws Refused for a kind that is not known, and for anything that is not exactly a key of its kind */
export function readKeyBlob(blob: Uint8Array<ArrayBuffer>): PublicKey {
  const reader = new Reader(blob, "The key");
  const kind = reader.name(64);
  const key = { kind: kind as KeyKind, blob, point: NONE, modulus: NONE, exponent: NONE, application: "" };
  switch (kind) {
    case "ssh-ed25519":
    case "sk-ssh-ed25519@openssh.com":
      key.point = reader.string(32);
      if (key.point.length !== 32)
        throw new Refused(
          "malformed",
          `The key is of the kind ${kind} and has ${key.point.length} bytes instead of 32.`,
        );
      break;
    case "ecdsa-sha2-nistp256":
    case "sk-ecdsa-sha2-nistp256@openssh.com": {
      const curve = reader.name(32);
      if (curve !== "nistp256")
        throw new Refused("malformed", `The key is of the kind ${kind} and names the curve ${curve}.`);
      key.point = reader.string(65);
      if (key.point.length !== 65 || key.point[0] !== 4)
        throw new Refused("malformed", "The key's point is not written in full (65 bytes, the first one 4).");
      break;
    }
    case "ssh-rsa": {
      key.exponent = reader.positive(8);
      key.modulus = reader.positive(MOST_RSA_BYTES);
      const bits = (key.modulus.length - 1) * 8 + (32 - Math.clz32(key.modulus[0]));
      if (bits < LEAST_RSA_BITS)
        throw new Refused("key-weak", `The key has ${bits} bits; an RSA key must have at least ${LEAST_RSA_BITS}.`);
      if ((key.exponent[key.exponent.length - 1] & 1) === 0 || (key.exponent.length === 1 && key.exponent[0] < 3))
        throw new Refused("key-weak", "The key's exponent is even or 1; nothing signed with it proves anything.");
      break;
    }
    default:
      throw new Refused(
        "key-kind",
        `Keys of the kind ${kind} are not taken; ssh-ed25519, ecdsa-sha2-nistp256, ssh-rsa, and the sk- kinds of the first two are.`,
      );
  }
  if (kind.startsWith("sk-")) key.application = reader.name(255);
  reader.end();
  return key;
}

/**
 * Reads a key as a file with the ending .pub holds it, or a `key` line quotes it.
 * @param line kind, base64, and perhaps a comment, which says nothing
 * @throws Refused
 */
export function readPublicKey(line: string): PublicKey {
  if (line.length > LONGEST_KEY_LINE)
    throw new Refused(
      "too-long",
      `The key is written with ${line.length} characters; no key needs more than ${LONGEST_KEY_LINE}.`,
    );
  const [kind = "", base64] = line.trim().split(/[ \t]+/u);
  if (base64 === undefined)
    throw new Refused("key-unreadable", 'The key is not a kind and a base64 text, such as "ssh-ed25519 AAAA...".');
  const key = readKeyBlob(fromBase64(base64, "The key"));
  if (key.kind !== kind) throw new Refused("kind-mismatch", `The key says ${kind} in front and ${key.kind} inside.`);
  return key;
}

/** Kind and base64, without a comment. */
export function printPublicKey(key: PublicKey): string {
  return `${key.kind} ${toBase64(key.blob)}`;
}

/** `SHA256:...` as `ssh-keygen -l` prints it. */
export async function fingerprint(key: PublicKey): Promise<string> {
  return `SHA256:${toBase64(await sha("SHA-256", key.blob)).replace(/=+$/u, "")}`;
}

export async function sha(
  algorithm: "SHA-256" | "SHA-512",
  bytes: Uint8Array<ArrayBuffer>,
): Promise<Uint8Array<ArrayBuffer>> {
  return new Uint8Array(await crypto.subtle.digest(algorithm, bytes));
}

/** Left-pads a number to a fixed length. */
export function padded(number: Uint8Array, length: number): Uint8Array<ArrayBuffer> {
  return joined(new Uint8Array(Math.max(0, length - number.length)), number);
}
