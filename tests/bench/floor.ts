/**
 * The floor that everything is measured against: read all files, split them into lines, make a number of every word that begins like one. Run as a
 * program it is a process that reads and writes as much as the command does, and knows nothing else.
 */
import { readdirSync, readFileSync, writeSync } from "node:fs";
import { join } from "node:path";

/** Record files of a folder, in order, relative to it. */
export function recordPaths(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".gudgeon"))
    .sort();
}

export function readAll(folder: string, paths: readonly string[]): string[] {
  return paths.map((path) => readFileSync(join(folder, path), "utf8"));
}

/** @returns how many lines and numbers there were, and their sum, so that no work can be left out */
export function splitAndParse(texts: readonly string[]): { lines: number; numbers: number; sum: number } {
  let lines = 0;
  let numbers = 0;
  let sum = 0;
  for (const text of texts) {
    for (const line of text.split("\n")) {
      lines++;
      for (const word of line.split(" ")) {
        const code = word.charCodeAt(0);
        if ((code >= 48 && code <= 57) || code === 43 || code === 45) {
          const value = Number(word);
          numbers++;
          if (!Number.isNaN(value)) sum += value;
        }
      }
    }
  }
  return { lines, numbers, sum };
}

const [folder, bytes, alone] = process.argv.slice(2);
if (alone === "alone" && folder !== undefined) {
  const { sum } = splitAndParse(readAll(folder, recordPaths(folder)));
  const text = "x".repeat(Number(bytes));
  writeSync(1, sum === Number.MIN_VALUE ? "" : text);
}
