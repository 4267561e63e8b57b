// `gudgeon sign` and `gudgeon signers` on a shop on disk, with the machine's own ssh-keygen as the other side.

import { execFileSync } from "node:child_process";
import { existsSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { makeKey, temporaryFolder } from "../evidence/keys.ts";
import { type ShopFolder, shopFolder } from "./run-command.ts";

const keys = temporaryFolder();
const mine = makeKey(keys.path, "mine", "-t", "ed25519");
const other = makeKey(keys.path, "other", "-t", "ed25519");
const folders: ShopFolder[] = [];
afterAll(() => {
  keys.remove();
  for (const folder of folders) folder.remove();
});

const BASE = `person ATH "Ada Thorne"
  role fitter from 2024-01-08
person RPE "Ruth Pell"
  role inspector from 2024-01-08
  role fitter from 2024-01-08
  key "${mine.line}" from 2026-01-01
engine-type Curlew-9
engine C9-0412 Curlew-9
job J26-014 engine C9-0412
`;
const ENTRY = `entry E1 2026-02-19 inspect "Barrels" job J26-014\r\n  check fins ok "Clean"   # by the door\r\n\r\n# The next sheet\r\n`;
const shop = (job = ENTRY): ShopFolder => {
  const folder = shopFolder({ "base.gudgeon": BASE, "job.gudgeon": job });
  folders.push(folder);
  return folder;
};
const record = (folder: ShopFolder): string => readFileSync(join(folder.path, "job.gudgeon"), "utf8");

test("a seal with a signature, which stock ssh-keygen verifies by the printed commands, until a word changes", () => {
  const folder = shop();
  const signed = folder.run(
    "sign",
    "job.gudgeon",
    "E1",
    "--as",
    "RPE",
    "--role",
    "inspector",
    "--on",
    "2026-02-20",
    "--key",
    mine.path,
  );
  expect(signed).toMatchObject({ code: 0, err: "" });
  expect(signed.out).toContain("2 lines of E1");
  // The line stands below the last one that says something, with the file's own line ends; everything else is as it was.
  expect(record(folder)).toMatch(
    /ok "Clean" {3}# by the door\r\n {2}sign inspector RPE 2026-02-20 seal 1:[0-9a-f]{64}\r\n\r\n# The next sheet\r\n$/u,
  );

  writeFileSync(join(folder.path, "signers"), folder.run("signers").out);
  // As grammar/signatures.md prints them.
  const shell = (command: string): string =>
    execFileSync("sh", ["-c", command], { cwd: folder.path, encoding: "utf8", stdio: ["ignore", "pipe", "ignore"] });
  const line = `grep -o 'sign inspector RPE 2026-02-20 seal 1:[0-9a-f]*' job.gudgeon`;
  const verify =
    "ssh-keygen -Y verify -f signers -I RPE -n gudgeon -s seals/J26-014/E1.inspector.RPE.sig -O verify-time=20260220";
  expect(shell(`${line} | ${verify}`)).toContain('Good "gudgeon" signature for RPE');
  const seal = shell(`${line} | grep -o '[0-9a-f]\\{64\\}'`).trim();
  expect(
    shell(`printf 'entry E1 2026-02-19 inspect "Barrels" job J26-014\\ncheck fins ok "Clean"' | sha256sum`),
  ).toContain(seal);

  expect(folder.run("check", "--as-of", "2026-05-01").out).not.toContain("sign/");
  writeFileSync(
    join(folder.path, "job.gudgeon"),
    record(folder).replace("# by the door", "#  by   the gate").replace("  check", "\tcheck"),
  );
  expect(folder.run("check", "--as-of", "2026-05-01").out).not.toContain("sign/");
  writeFileSync(join(folder.path, "job.gudgeon"), record(folder).replace("Clean", "clean"));
  expect(folder.run("check", "--as-of", "2026-05-01").out).toContain("sign/changed-after-seal");
  // Sealed again by hand, the seal fits; the signature does not.
  const forged = execFileSync(
    "sh",
    ["-c", `printf 'entry E1 2026-02-19 inspect "Barrels" job J26-014\\ncheck fins ok "clean"' | sha256sum`],
    { encoding: "utf8" },
  ).slice(0, 64);
  writeFileSync(join(folder.path, "job.gudgeon"), record(folder).replace(/1:[0-9a-f]{64}/u, `1:${forged}`));
  const found = folder.run("check", "--as-of", "2026-05-01").out;
  expect(found).not.toContain("sign/changed-after-seal");
  expect(found).toContain("sign/signature-not-verified");
  expect(found).toContain("does not fit the text");
});

test("a line that waits for its seal is filled; a later signer covers the earlier one; the earlier one cannot be filled afterwards", () => {
  const folder = shop(
    `entry E1 2026-02-19 inspect job J26-014\n  check fins ok "Clean"\n  sign fitter ATH 2026-02-19 # bench two\n  sign inspector RPE 2026-02-20`,
  );
  expect(folder.run("sign", ".", "J26-014/E1", "--as", "RPE", "--on", "2026-02-20")).toMatchObject({ code: 0 });
  expect(record(folder)).toMatch(/# bench two\n {2}sign inspector RPE 2026-02-20 seal 1:[0-9a-f]{64}$/u);
  const late = folder.run("sign", ".", "E1", "--as", "ATH", "--on", "2026-02-20");
  expect(late.code).toBe(2);
  expect(late.err).toContain("would break that one");
});

describe("refused, and nothing written", () => {
  test.each([
    [
      "a line that cannot be read",
      `entry E1 2026-02-19 inspect job J26-014\n  chekc fins ok\n`,
      ["E1", "--as", "ATH"],
      /cannot be read \(job\.gudgeon:2\)/u,
    ],
    ["a person whom nobody declared", ENTRY, ["E1", "--as", "NOBODY"], /no person NOBODY/u],
    [
      "a role that the person does not hold",
      ENTRY,
      ["E1", "--as", "ATH", "--role", "inspector"],
      /does not hold the role inspector/u,
    ],
    ["two roles and none named", ENTRY, ["E1", "--as", "RPE"], /say which with --role/u],
    ["an entry that is not there", ENTRY, ["E9", "--as", "ATH"], /no entry, run, release or dispatch E9/u],
    ["a day before the work", ENTRY, ["E1", "--as", "ATH", "--on", "2026-02-18"], /under work of 2026-02-19/u],
    [
      "a broken seal above",
      `entry E1 2026-02-19 inspect job J26-014\n  sign fitter ATH 2026-02-19 seal 1:${"0".repeat(64)}\n`,
      ["E1", "--as", "RPE", "--role", "inspector"],
      /no longer the one that ATH sealed/u,
    ],
    ["another's key", ENTRY, ["E1", "--as", "RPE", "--role", "inspector", "--key", other.path], /none of RPE's/u],
    ["a key for someone without a key line", ENTRY, ["E1", "--as", "ATH", "--key", mine.path], /has no key line/u],
    [
      "a key file that is not there",
      ENTRY,
      ["E1", "--as", "RPE", "--role", "inspector", "--key", "/nowhere/key; touch x"],
      /no key file/u,
    ],
  ] as const)("%s", (_name, job, args, says) => {
    const folder = shop(job);
    const ran = folder.run(
      "sign",
      "job.gudgeon",
      ...args,
      ...(args.includes("--on" as never) ? [] : ["--on", "2026-02-20"]),
    );
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(says);
    expect(record(folder)).toBe(job);
    expect(existsSync(join(folder.path, "seals"))).toBe(false);
  });
  test("a seals folder that leads out of the shop", () => {
    const folder = shop();
    symlinkSync(keys.path, join(folder.path, "seals"));
    const ran = folder.run(
      "sign",
      "job.gudgeon",
      "E1",
      "--as",
      "RPE",
      "--role",
      "inspector",
      "--on",
      "2026-02-20",
      "--key",
      mine.path,
    );
    expect(ran.code).toBe(2);
    expect(ran.err).toContain("leads outside");
    expect(existsSync(join(keys.path, "J26-014"))).toBe(false);
    expect(record(folder)).toBe(ENTRY);
  });
});
