/**
 * Detached OpenSSH signatures: what `ssh-keygen -Y sign` writes, read and verified with the platform's WebCrypto, so that the command, the editor and the browser
 * agree.
 *
 * Source: OpenSSH PROTOCOL.sshsig (the file and what is signed), PROTOCOL.u2f (hardware kinds), RFC 8332 (rsa-sha2-256, rsa-sha2-512), RFC 5656
 * section 3.1.2 (ECDSA), RFC 8709 section 6 (Ed25519).
 */
import { fingerprint, type PublicKey, padded, readKeyBlob, readPublicKey, sha } from "./public-key.ts";
import { type Reason, Refused } from "./refused.ts";
import { fromBase64, joined, Reader, sameBytes, toBase64Url, utf8, wireString } from "./wire.ts";

/** What a signature is for. One made for mail or for git proves nothing here, and the other way round. */
export const NAMESPACE = "gudgeon";
/** Longest signature file that is read, in characters: one by an RSA key of 16384 bits has under 6 kB. */
export const LONGEST_SIGNATURE = 16_384;

const BEGIN = "-----BEGIN SSH SIGNATURE-----";
const END = "-----END SSH SIGNATURE-----";
const MAGIC = utf8("SSHSIG");

export interface SshSignature {
  readonly key: PublicKey;
  readonly namespace: string;
  readonly reserved: Uint8Array<ArrayBuffer>;
  readonly hash: "sha256" | "sha512";
  /** `ssh-ed25519`, `rsa-sha2-512`, ...: how it was signed. */
  readonly format: string;
  /** Bytes of the signature itself; of ECDSA r and s, 32 bytes each. */
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** Hardware kinds only. */
  readonly flags: number;
  readonly counter: number;
}

/**
 * Takes a signature file apart.
 * @throws Refused with a reason of its own for whatever is not exactly a signature that this program knows
 */
export function readSignature(file: string): SshSignature {
  if (file.length > LONGEST_SIGNATURE)
    throw new Refused(
      "too-long",
      `The signature file has ${file.length} characters; no signature needs more than ${LONGEST_SIGNATURE}.`,
    );
  const lines = file.replace(/\r\n/gu, "\n").trimEnd().split("\n");
  if (lines[0] !== BEGIN) throw new Refused("not-armoured", `The file does not begin with "${BEGIN}".`);
  if (lines.length < 3 || lines[lines.length - 1] !== END)
    throw new Refused("truncated", `The file does not end with "${END}": it was cut off, or something follows.`);
  const reader = new Reader(fromBase64(lines.slice(1, -1).join(""), "The signature"), "The signature");
  if (!sameBytes(reader.take(MAGIC.length), MAGIC))
    throw new Refused("not-sshsig", "The file is armoured, but what it holds is no SSH signature.");
  const version = reader.uint32();
  if (version !== 1) throw new Refused("version", `The signature is of version ${version}; only version 1 is known.`);
  const key = readKeyBlob(reader.string(4096));
  const namespace = reader.name(256);
  const reserved = reader.string(4096);
  const hash = reader.name(32);
  if (hash !== "sha256" && hash !== "sha512")
    throw new Refused("hash", `The signature hashes its message with ${hash}; sha256 and sha512 are taken.`);
  const signed = new Reader(reader.string(4096), "The signature");
  reader.end();
  const format = signed.name(64);
  return { key, namespace, reserved, hash, format, ...readInner(key, format, signed) };
}

/** Ways to sign with each kind of key. */
const FORMATS: Readonly<Record<PublicKey["kind"], readonly string[]>> = {
  "ssh-ed25519": ["ssh-ed25519"],
  "ecdsa-sha2-nistp256": ["ecdsa-sha2-nistp256"],
  // Not "ssh-rsa", which signs with SHA-1.
  "ssh-rsa": ["rsa-sha2-256", "rsa-sha2-512"],
  "sk-ssh-ed25519@openssh.com": ["sk-ssh-ed25519@openssh.com"],
  "sk-ecdsa-sha2-nistp256@openssh.com": ["sk-ecdsa-sha2-nistp256@openssh.com"],
};

function readInner(key: PublicKey, format: string, signed: Reader): Pick<SshSignature, "bytes" | "flags" | "counter"> {
  if (!FORMATS[key.kind].includes(format))
    throw new Refused(
      "kind-mismatch",
      `The signature is of the kind ${format}, which a key of the kind ${key.kind} does not make here.`,
    );
  let bytes: Uint8Array<ArrayBuffer>;
  if (key.kind === "ssh-rsa") {
    bytes = signed.string(key.modulus.length);
    if (bytes.length === 0) throw new Refused("malformed", "The signature is empty.");
    bytes = padded(bytes, key.modulus.length);
  } else if (format.includes("ed25519")) {
    bytes = signed.string(64);
    if (bytes.length !== 64) throw new Refused("malformed", `The signature has ${bytes.length} bytes instead of 64.`);
  } else {
    const pair = new Reader(signed.string(74), "The signature");
    const r = pair.positive(32);
    const s = pair.positive(32);
    pair.end();
    bytes = joined(padded(r, 32), padded(s, 32));
  }
  const hardware = key.kind.startsWith("sk-");
  const flags = hardware ? signed.byte() : 0;
  const counter = hardware ? signed.uint32() : 0;
  signed.end();
  return { bytes, flags, counter };
}

/** What the key really signed: a preamble, the purpose, and the digest of the message. */
async function signedBytes(
  signature: SshSignature,
  message: Uint8Array<ArrayBuffer>,
): Promise<Uint8Array<ArrayBuffer>> {
  const digest = await sha(signature.hash === "sha256" ? "SHA-256" : "SHA-512", message);
  const inner = joined(
    MAGIC,
    wireString(signature.namespace),
    wireString(signature.reserved),
    wireString(signature.hash),
    wireString(digest),
  );
  if (!signature.key.kind.startsWith("sk-")) return inner;
  const { flags, counter } = signature;
  const number = Uint8Array.of(flags, counter >>> 24, (counter >>> 16) & 255, (counter >>> 8) & 255, counter & 255);
  return joined(await sha("SHA-256", utf8(signature.key.application)), number, await sha("SHA-256", inner));
}

async function importKey(
  key: PublicKey,
  format: string,
): Promise<{ key: CryptoKey; algorithm: AlgorithmIdentifier | EcdsaParams }> {
  if (key.kind === "ssh-rsa") {
    const hash = format === "rsa-sha2-256" ? "SHA-256" : "SHA-512";
    const jwk = { kty: "RSA", n: toBase64Url(key.modulus), e: toBase64Url(key.exponent) };
    return {
      key: await crypto.subtle.importKey("jwk", jwk, { name: "RSASSA-PKCS1-v1_5", hash }, false, ["verify"]),
      algorithm: "RSASSA-PKCS1-v1_5",
    };
  }
  if (format.includes("ed25519"))
    return { key: await crypto.subtle.importKey("raw", key.point, "Ed25519", false, ["verify"]), algorithm: "Ed25519" };
  return {
    key: await crypto.subtle.importKey("raw", key.point, { name: "ECDSA", namedCurve: "P-256" }, false, ["verify"]),
    algorithm: { name: "ECDSA", hash: "SHA-256" },
  };
}

/** Flag of a hardware key that somebody touched it. Source: WebAuthn level 2, section 6.1 (UP). */
const TOUCHED = 1;

/** @throws Refused when the mathematics does not come out, or cannot be done here */
async function verifyMathematics(signature: SshSignature, message: Uint8Array<ArrayBuffer>): Promise<void> {
  const bytes = await signedBytes(signature, message);
  let imported: Awaited<ReturnType<typeof importKey>>;
  try {
    imported = await importKey(signature.key, signature.format);
  } catch (error) {
    if (error instanceof Error && error.name === "NotSupportedError") {
      throw new Refused(
        "not-supported",
        `This program runs where keys of the kind ${signature.key.kind} cannot be computed with; check it with the command, or with ssh-keygen.`,
      );
    }
    throw new Refused("malformed", "The key inside the signature is no point of its curve, or no usable number.");
  }
  if (!(await crypto.subtle.verify(imported.algorithm, imported.key, signature.bytes, bytes))) {
    throw new Refused(
      "does-not-verify",
      "The signature does not fit the text: what stands there is not what was signed.",
    );
  }
}

/** What a signature is said to be. */
export interface Claim {
  /** The text that was signed. */
  readonly statement: string;
  /** The name of the person, for messages. */
  readonly signer: string;
  /** The person's keys on the day of signing, as their `key` lines quote them. */
  readonly keys: readonly string[];
  /** The person's keys on other days. */
  readonly lapsedKeys: readonly string[];
}

export type Verdict =
  | {
      readonly good: true;
      readonly fingerprint: string;
      readonly kind: PublicKey["kind"] /** Uses of the hardware key so far, or 0. */;
      readonly counter: number;
    }
  | { readonly good: false; readonly reason: Reason; readonly message: string };

/** Keys that can be read; one that cannot is a finding of its own and can have signed nothing. */
function readable(lines: readonly string[]): PublicKey[] {
  return lines.flatMap((line) => {
    try {
      return [readPublicKey(line)];
    } catch (error) {
      if (error instanceof Refused) return [];
      throw error;
    }
  });
}

/**
 * Whether a signature file backs a claim.
 * @param file text of the signature file
 * @returns good with the key's fingerprint, or the reason and a sentence; never throws for what the input holds
 */
export async function verifySignature(file: string, claim: Claim): Promise<Verdict> {
  try {
    const signature = readSignature(file);
    if (signature.namespace !== NAMESPACE)
      throw new Refused(
        "namespace",
        `The signature was made for "${signature.namespace}", not for "${NAMESPACE}": it says nothing about a record.`,
      );
    const print = await fingerprint(signature.key);
    const has = (keys: readonly string[]) => readable(keys).some((key) => sameBytes(key.blob, signature.key.blob));
    if (!has(claim.keys)) {
      if (has(claim.lapsedKeys))
        throw new Refused(
          "lapsed-key",
          `The key ${print} is one of ${claim.signer}'s, but not on the day of this signature.`,
        );
      if (claim.keys.length + claim.lapsedKeys.length === 0)
        throw new Refused("no-key", `${claim.signer} has no key line, so nobody can say whose key ${print} is.`);
      throw new Refused(
        "wrong-key",
        `The signature was made with the key ${print}, which is none of ${claim.signer}'s.`,
      );
    }
    if (signature.key.kind.startsWith("sk-") && (signature.flags & TOUCHED) === 0)
      throw new Refused(
        "not-touched",
        "The hardware key signed without being touched: a program may have done it alone.",
      );
    await verifyMathematics(signature, utf8(claim.statement));
    return { good: true, fingerprint: print, kind: signature.key.kind, counter: signature.counter };
  } catch (error) {
    if (error instanceof Refused) return { good: false, reason: error.reason, message: error.message };
    throw error;
  }
}
