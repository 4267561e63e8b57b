/** A small shop for tests of the protocol: one reading out of its limit, one misspelled gauge, one comma. */
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { Checker } from "../../server/checking/checker.ts";
import { Workspace } from "../../server/workspace/workspace.ts";
import { day } from "../support/shop.ts";
import { projectRoot } from "./client.ts";

const fixture = join(projectRoot, "tests/vscode/fixture");
const read = (name: string): string => readFileSync(join(fixture, name), "utf8");

export const JOB = "J26-101.gudgeon";
export const SHOP = "shop.gudgeon";
export const SPARE = "spare.gudgeon";

export function shopFiles(): Record<string, string | Uint8Array> {
  return {
    [JOB]: read(JOB),
    [SHOP]: read(SHOP),
    [SPARE]: read(SPARE),
    "photos/barrels.png": readFileSync(join(fixture, "photos/barrels.png")),
  };
}

/** What a fresh check of the fixture finds in a file, as `line:column code`: the editor must show this and nothing else. */
export function freshCodes(path: string): string[] {
  const workspace = new Workspace();
  for (const name of [JOB, SHOP, SPARE]) workspace.setText(name, read(name));
  const checker = new Checker(workspace, { asOf: day("2026-05-01"), recording: false });
  const photo = readFileSync(join(fixture, "photos/barrels.png"));
  checker.setFile("photos/barrels.png", {
    exists: true,
    outside: false,
    size: photo.length,
    digest: createHash("sha256").update(photo).digest("hex"),
  });
  checker.sweep();
  return checker
    .findingsOf(path)
    .filter((one) => one.quiet === undefined)
    .map((one) => `${one.line + 1}:${one.from + 1} ${one.finding.code}`);
}

export const jobText = (): string => read(JOB);
export const shopText = (): string => read(SHOP);

/** The number of the line (from 0) that holds a piece of text. */
export function lineWith(text: string, what: string): number {
  const line = text.split("\n").findIndex((one) => one.includes(what));
  if (line < 0) throw new Error(`no line says ${what}`);
  return line;
}
