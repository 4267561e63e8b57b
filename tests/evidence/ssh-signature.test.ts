// Signatures both ways with the machine's own OpenSSH: what it signs verifies here, what is accepted here it accepts too, and each kind of
// refusal is its own. The outside authority is ssh-keygen; the hardware kinds follow OpenSSH's PROTOCOL.u2f and are put before ssh-keygen as well.

import { execFileSync } from "node:child_process";
import { afterAll, describe, expect, test } from "vitest";
import { allowedSignersLine } from "../../server/evidence/allowed-signers.ts";
import { fingerprint, readPublicKey } from "../../server/evidence/public-key.ts";
import { type Claim, readSignature, verifySignature } from "../../server/evidence/ssh-signature.ts";
import { day } from "../support/shop.ts";
import { armour, makeHardwareKey, makeKey, signWithSshKeygen, temporaryFolder, verifyWithSshKeygen } from "./keys.ts";

const folder = temporaryFolder();
afterAll(() => folder.remove());

const TEXT = `sign inspector RPE 2026-02-20 seal 1:${"ab".repeat(32)}\n`;
const kinds = {
  ed25519: makeKey(folder.path, "ed25519", "-t", "ed25519"),
  ecdsa: makeKey(folder.path, "ecdsa", "-t", "ecdsa", "-b", "256"),
  rsa: makeKey(folder.path, "rsa", "-t", "rsa", "-b", "2048"),
};
const other = makeKey(folder.path, "other", "-t", "ed25519");
const hardware = { "sk-ssh-ed25519": makeHardwareKey("ed25519"), "sk-ecdsa": makeHardwareKey("ecdsa") };

const claim = (line: string, more: Partial<Claim> = {}): Claim => ({
  statement: TEXT,
  signer: "RPE",
  keys: [line],
  lapsedKeys: [],
  ...more,
});
const signersOf = (line: string, from = "2026-01-01", until?: string): string =>
  `${allowedSignersLine("RPE", readPublicKey(line), day(from), until === undefined ? undefined : day(until))}\n`;

describe.each(Object.entries(kinds))("%s", (_name, key) => {
  const signature = signWithSshKeygen(key, TEXT);
  test("ssh-keygen signs, both verify", async () => {
    expect(await verifySignature(signature, claim(key.line))).toMatchObject({ good: true });
    expect(
      verifyWithSshKeygen(folder.path, {
        signers: signersOf(key.line),
        person: "RPE",
        signature,
        text: TEXT,
        time: "20260220",
      }),
    ).toMatch(/Good "gudgeon" signature for RPE/u);
  });
  test("the fingerprint is the one that ssh-keygen prints", async () => {
    const printed = execFileSync("ssh-keygen", ["-l", "-f", `${key.path}.pub`], { encoding: "utf8" });
    expect(printed).toContain(await fingerprint(readPublicKey(key.line)));
  });
  test("a changed text is refused by both", async () => {
    const changed = TEXT.replace("02-20", "02-21");
    expect(await verifySignature(signature, claim(key.line, { statement: changed }))).toMatchObject({
      good: false,
      reason: "does-not-verify",
    });
    expect(
      verifyWithSshKeygen(folder.path, {
        signers: signersOf(key.line),
        person: "RPE",
        signature,
        text: changed,
        time: "20260220",
      }),
    ).toBeUndefined();
  });
  test("every single bit of the signature file counts", async () => {
    const body = Buffer.from(signature.split("\n").slice(1, -2).join(""), "base64");
    for (let at = 0; at < body.length; at += 7) {
      const bent = Uint8Array.from(body);
      bent[at] ^= 1 << (at % 8);
      expect(await verifySignature(armour(bent), claim(key.line)), `byte ${at}`).toMatchObject({ good: false });
    }
  });
  test("every length but the whole is refused, and none makes it throw", async () => {
    for (let length = 0; length < signature.trimEnd().length; length += 3) {
      expect(await verifySignature(signature.slice(0, length), claim(key.line)), `${length} characters`).toMatchObject({
        good: false,
      });
    }
  });
});

test("RSA with SHA-256 and with SHA-512, and messages hashed with SHA-256", async () => {
  for (const hash of ["sha256", "sha512"]) {
    const signature = signWithSshKeygen(kinds.rsa, TEXT, "gudgeon", "-O", `hashalg=${hash}`);
    expect(readSignature(signature).hash).toBe(hash);
    expect(await verifySignature(signature, claim(kinds.rsa.line))).toMatchObject({ good: true });
  }
});

describe.each(Object.entries(hardware))("%s, built by hand", (_name, key) => {
  test("both verify", async () => {
    const signature = key.sign(TEXT, { counter: 41 });
    expect(await verifySignature(signature, claim(key.line))).toMatchObject({ good: true, counter: 41 });
    expect(
      verifyWithSshKeygen(folder.path, {
        signers: signersOf(key.line),
        person: "RPE",
        signature,
        text: TEXT,
        time: "20260220",
      }),
    ).toMatch(/Good "gudgeon" signature/u);
  });
  test("another counter than the one signed is refused by both", async () => {
    const signature = key.sign(TEXT, { counter: 41, claimedCounter: 42 });
    expect(await verifySignature(signature, claim(key.line))).toMatchObject({ good: false, reason: "does-not-verify" });
    expect(
      verifyWithSshKeygen(folder.path, {
        signers: signersOf(key.line),
        person: "RPE",
        signature,
        text: TEXT,
        time: "20260220",
      }),
    ).toBeUndefined();
  });
  test("without a touch it proves nothing", async () => {
    expect(await verifySignature(key.sign(TEXT, { flags: 0 }), claim(key.line))).toMatchObject({
      good: false,
      reason: "not-touched",
    });
    expect(await verifySignature(key.sign(TEXT, { flags: 4 }), claim(key.line))).toMatchObject({
      good: false,
      reason: "not-touched",
    });
    // Touched and the person verified by a PIN: one flag more.
    expect(await verifySignature(key.sign(TEXT, { flags: 5 }), claim(key.line))).toMatchObject({ good: true });
  });
});

describe("each refusal says its own", () => {
  const key = kinds.ed25519;
  test.each([
    ["another person's key", signWithSshKeygen(other, TEXT), claim(key.line), "wrong-key", /none of RPE's/u],
    ["a signer without keys", signWithSshKeygen(key, TEXT), claim(key.line, { keys: [] }), "no-key", /no key line/u],
    [
      "a key out of its dates",
      signWithSshKeygen(key, TEXT),
      claim(other.line, { lapsedKeys: [key.line] }),
      "lapsed-key",
      /not on the day/u,
    ],
    ["another purpose", signWithSshKeygen(key, TEXT, "git"), claim(key.line), "namespace", /made for "git"/u],
    ["an empty file", "", claim(key.line), "not-armoured", /does not begin/u],
    ["a text that is no signature", "Signed, Ruth Pell\n", claim(key.line), "not-armoured", /does not begin/u],
    [
      "a file that goes on and on",
      signWithSshKeygen(key, TEXT) + "A".repeat(20_000),
      claim(key.line),
      "too-long",
      /needs more than/u,
    ],
  ] as const)("%s", async (_name, file, what, reason, says) => {
    const verdict = await verifySignature(file, what);
    expect(verdict).toMatchObject({ good: false, reason });
    expect((verdict as { message: string }).message).toMatch(says);
  });
  test("ssh-keygen refuses the same key on a day out of its dates, and takes it on the last of them", async () => {
    const signature = signWithSshKeygen(key, TEXT);
    const signers = signersOf(key.line, "2026-01-01", "2026-02-20");
    const verify = (time: string) =>
      verifyWithSshKeygen(folder.path, { signers, person: "RPE", signature, text: TEXT, time });
    expect(verify("20251231")).toBeUndefined();
    expect(verify("20260101")).toMatch(/Good/u);
    expect(verify("20260220235959")).toMatch(/Good/u);
    expect(verify("20260221")).toBeUndefined();
  });
  test("ssh-keygen refuses another purpose, and a file of another purpose than the signers line allows", async () => {
    const signature = signWithSshKeygen(key, TEXT, "git");
    expect(
      verifyWithSshKeygen(folder.path, {
        signers: signersOf(key.line),
        person: "RPE",
        signature,
        text: TEXT,
        time: "20260220",
        namespace: "git",
      }),
    ).toBeUndefined();
  });
  test("a weak RSA key is refused in a key line", () => {
    const weak = makeKey(folder.path, "weak", "-t", "rsa", "-b", "1024");
    expect(() => readPublicKey(weak.line)).toThrow(/1024 bits/u);
  });
  test("kinds that are not taken are refused by name", () => {
    const wide = makeKey(folder.path, "wide", "-t", "ecdsa", "-b", "384");
    expect(() => readPublicKey(wide.line)).toThrow(/ecdsa-sha2-nistp384/u);
  });
});
