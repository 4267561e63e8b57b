/**
 * The encodings that OpenSSH keys and signatures are made of, read with bounds: nothing is allocated by a length that the input claims.
 *
 * Source: RFC 4251, section 5 (string, uint32, mpint).
 */
import { Refused } from "./refused.ts";

const text = new TextDecoder("utf-8", { fatal: true });
const bytesOf = new TextEncoder();

/** Reads one value after another from bytes that come from somewhere else. */
export class Reader {
  readonly #bytes: Uint8Array<ArrayBuffer>;
  readonly #what: string;
  #at = 0;

  /** @param what names the whole in messages: `The signature`, `The key` */
  constructor(bytes: Uint8Array<ArrayBuffer>, what: string) {
    this.#bytes = bytes;
    this.#what = what;
  }

  /** @throws Refused when fewer bytes are left */
  take(count: number): Uint8Array<ArrayBuffer> {
    if (count > this.#bytes.length - this.#at)
      throw new Refused(
        "truncated",
        `${this.#what} ends in the middle: it says that ${count} more bytes follow, and ${this.#bytes.length - this.#at} do.`,
      );
    const part = this.#bytes.subarray(this.#at, this.#at + count);
    this.#at += count;
    return part;
  }

  byte(): number {
    return this.take(1)[0];
  }

  uint32(): number {
    const [a, b, c, d] = this.take(4);
    return ((a << 24) | (b << 16) | (c << 8) | d) >>> 0;
  }

  /** @param most greatest length that makes sense here, in bytes */
  string(most: number): Uint8Array<ArrayBuffer> {
    const length = this.uint32();
    if (length > most)
      throw new Refused(
        "malformed",
        `${this.#what} holds a field of ${length} bytes where at most ${most} make sense.`,
      );
    return this.take(length);
  }

  /** A string that is a name: printable ASCII. */
  name(most: number): string {
    const bytes = this.string(most);
    for (const byte of bytes)
      if (byte < 0x20 || byte > 0x7e)
        throw new Refused("malformed", `${this.#what} holds a name with unprintable characters.`);
    return text.decode(bytes);
  }

  /** A positive integer without leading zeros. */
  positive(most: number): Uint8Array<ArrayBuffer> {
    const bytes = this.string(most + 1);
    if (bytes.length === 0 || bytes[0] >= 0x80)
      throw new Refused("malformed", `${this.#what} holds a number that is not positive.`);
    if (bytes[0] !== 0) return bytes;
    if (bytes.length === 1 || bytes[1] < 0x80)
      throw new Refused("malformed", `${this.#what} holds a number with needless zeros before it.`);
    return bytes.subarray(1);
  }

  /** @throws Refused when something follows */
  end(): void {
    const left = this.#bytes.length - this.#at;
    if (left > 0) throw new Refused("left-over", `${this.#what} has ${left} bytes after its end.`);
  }
}

/** One or several byte strings in a row. */
export function joined(...parts: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

export function utf8(value: string): Uint8Array<ArrayBuffer> {
  return joined(bytesOf.encode(value));
}

/** A `string` of RFC 4251: its length as four bytes, then itself. */
export function wireString(value: Uint8Array | string): Uint8Array<ArrayBuffer> {
  const bytes = typeof value === "string" ? utf8(value) : value;
  const { length } = bytes;
  return joined(Uint8Array.of(length >>> 24, (length >>> 16) & 255, (length >>> 8) & 255, length & 255), bytes);
}

/**
 * Strict base64 (RFC 4648, section 4): full groups of four, padding only at the end, no unused bits set.
 * @throws Refused for anything else
 */
export function fromBase64(written: string, what: string): Uint8Array<ArrayBuffer> {
  if (written.length === 0 || written.length % 4 !== 0 || !/^[A-Za-z0-9+/]*={0,2}$/u.test(written))
    throw new Refused("not-base64", `${what} is not whole base64 text.`);
  const bytes = Uint8Array.from(atob(written), (ch) => ch.charCodeAt(0));
  if (toBase64(bytes) !== written)
    throw new Refused("not-base64", `${what} is base64 text whose last character says more than it holds.`);
  return bytes;
}

export function toBase64(bytes: Uint8Array): string {
  let binary = "";
  for (const byte of bytes) binary += String.fromCharCode(byte);
  return btoa(binary);
}

export function toBase64Url(bytes: Uint8Array): string {
  return toBase64(bytes).replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/u, "");
}

export function sameBytes(a: Uint8Array, b: Uint8Array): boolean {
  return a.length === b.length && a.every((byte, i) => byte === b[i]);
}
