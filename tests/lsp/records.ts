/** A small shop for tests of the protocol: one reading out of its limit, one misspelled gauge, one comma. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { projectRoot } from "./client.ts";

const fixture = join(projectRoot, "tests/vscode/fixture");
const read = (name: string): string => readFileSync(join(fixture, name), "utf8");

export const JOB = "J26-101.gudgeon";
export const SHOP = "shop.gudgeon";
export const SPARE = "spare.gudgeon";

export function shopFiles(): Record<string, string | Uint8Array> {
  return { [JOB]: read(JOB), [SHOP]: read(SHOP), [SPARE]: read(SPARE), "photos/barrels.png": readFileSync(join(fixture, "photos/barrels.png")) };
}

export const jobText = (): string => read(JOB);
export const shopText = (): string => read(SHOP);

/** The number of the line (from 0) that holds a piece of text. */
export function lineWith(text: string, what: string): number {
  const line = text.split("\n").findIndex((one) => one.includes(what));
  if (line < 0) throw new Error(`no line says ${what}`);
  return line;
}
