/** The digest that seals and pins are written with. */
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import { asOfDay, canonicalRelease, type ReliedOn } from "../../grammar/canonical.ts";

/** SHA-256 over the UTF-8 of a text, as 64 lower-case hexadecimal digits. Source: FIPS 180-4. */
export function textDigest(text: string): string {
  return bytesToHex(sha256(utf8ToBytes(text)));
}

/** The digest of a block that goes on growing, as it stood on a day such as `2026-04-20`. @param text canonical text of the whole block */
export function digestOnDay(text: string, day: string): string {
  return textDigest(asOfDay(text, day));
}

/** The digest that a seal of a release has to have. @param above canonical lines above the line that carries it */
export function releaseDigest(above: readonly string[], reliedOn: readonly ReliedOn[]): string {
  return textDigest(canonicalRelease(above, reliedOn));
}

export type { ReliedOn };
