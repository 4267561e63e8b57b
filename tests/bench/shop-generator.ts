/**
 * A shop of any size, made from the clean sample: its reference files once, then its engine and job again and again under other names, so that the
 * mix of line kinds is the sample's own. Every so many lines one is broken, and one reading is out of its limit, so that checkers
 * have something to say.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

export interface GeneratedShop {
  readonly files: ReadonlyMap<string, string>;
  readonly lines: number;
  readonly bytes: number;
}

const JOB = "J26-014";
const ENGINE = "C9-0412";
/** A record that says nothing wrong is no test: one line in so many is broken, and another reading out of limit. */
const BROKEN_EVERY = 997;

const count = (text: string): number => text.split("\n").length - 1;

function breakSome(text: string, seed: number): string {
  const lines = text.split("\n");
  for (let i = seed % BROKEN_EVERY; i < lines.length; i += BROKEN_EVERY) {
    const line = lines[i] as string;
    if (/^\s+(measure|torque|check|grid|photo)\b/u.test(line)) lines[i] = line.replace(/(\d)/u, "$1,");
  }
  return lines.join("\n");
}

/**
 * @param wanted about how many lines
 * @param files about how many files; each job is one file, or as many as make up the number
 * @param sample the folder of the clean sample
 */
export function generateShop(wanted: number, files: number, sample: string = join(import.meta.dirname, "../../samples/clean")): GeneratedShop {
  const reference = new Map<string, string>();
  const job: string[] = [];
  for (const name of readdirSync(sample).filter((one) => one.endsWith(".gudgeon")).sort()) {
    const text = readFileSync(join(sample, name), "utf8");
    if (name.startsWith(JOB) || name.startsWith(ENGINE)) job.push(text);
    else reference.set(name, text);
  }
  const made = new Map(reference);
  let lines = [...reference.values()].reduce((sum, text) => sum + count(text), 0);
  const jobLines = job.reduce((sum, text) => sum + count(text), 0);
  const jobs = Math.max(1, Math.round((wanted - lines) / jobLines));
  const left = Math.max(jobs, files - made.size);
  for (let i = 0; i < jobs; i++) {
    const tag = String(i).padStart(5, "0");
    const texts = job.map((text, n) =>
      breakSome(
        text
          .replaceAll(JOB, `J-${tag}`)
          .replaceAll(ENGINE, `E-${tag}`)
          .replace(/serial( [a-z.-]+)? "([^"]+)"/gu, (_, place: string | undefined, number: string) => `serial${place ?? ""} "${number}-${tag}"`),
        i * 31 + n * 7,
      ),
    );
    // Jobs share the files that are to be: some in one piece, some in several.
    const pieces = Math.max(1, Math.min(texts.length, Math.round(((i + 1) * left) / jobs) - Math.round((i * left) / jobs)));
    const each = Math.ceil(texts.length / pieces);
    for (let piece = 0; piece * each < texts.length; piece++) {
      const text = texts.slice(piece * each, (piece + 1) * each).join("");
      made.set(`jobs/J-${tag}-${piece + 1}.gudgeon`, text);
      lines += count(text);
    }
  }
  const bytes = [...made.values()].reduce((sum, text) => sum + text.length, 0);
  return { files: made, lines, bytes };
}
