/**
 * A shop of any size, made from the samples.
 *
 * The clean sample stands in it again and again under other names – engine types, routes, engines, jobs and all that happened to them – so that
 * the mix of line kinds is the sample's own; people, instruments and stands are there once, as in a shop that has grown. One line in a thousand is
 * broken, one reading in a thousand lines is another than was written, and the faulty sample stands beside it all, so that every rule has
 * something to say.
 */
import { createHash } from "node:crypto";
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { canonicalBlock } from "../../grammar/canonical.ts";

export interface GeneratedShop {
  /** Text by path. */
  readonly files: ReadonlyMap<string, string>;
  /** Photos and logs that the records name: where to copy them from, by path in the shop. */
  readonly assets: ReadonlyMap<string, string>;
  readonly lines: number;
  readonly bytes: number;
  /** Lines that were broken on purpose. */
  readonly broken: number;
}

export interface ShopOptions {
  /** Folder with the samples `clean` and `faulty`. */
  readonly samples?: string;
  /** False leaves out the faulty sample. */
  readonly faulty?: boolean;
}

export const SAMPLES = join(import.meta.dirname, "../../samples");
const BROKEN_EVERY = 1000;
/** Lines after a broken one, so that the two never meet. */
const CHANGED_AFTER = 500;
/** Files of the clean sample that a shop has once, however many jobs it does. */
const ONCE = new Set(["people.gudgeon", "instruments.gudgeon", "stands.gudgeon", "shop.gudgeon"]);
/** Kinds of block whose names are the shop's own and must differ from copy to copy. */
const NAMED = /^(?:engine-type|task|bulletin|route|engine|job) ([\w.-]+)/u;
const HEADER = /^[a-z]/u;
const SERIAL = /(serial(?: [a-z][\w.-]*(?:\[[^\]]*\])?)? "[^"]+)"/u;

const isRecord = (name: string): boolean => name.endsWith(".gudgeon");
const linesOf = (text: string): string[] => text.replace(/\n$/u, "").split("\n");

const SEAL = / seal 1:[0-9a-f]{64}/u;

/**
 * What the faulty sample does not hold: a seal that no signature file backs, though its signer has a key. Its seal is made with those of the copies.
 */
const UNBACKED = [
  'person KPT "Keeps a key"',
  "  role fitter from 2019-03-01",
  '  key "ssh-ed25519 AAAAC3NzaC1lZDI1NTE5AAAAIKGGT0Omz2zS+DeXBKFFuUwPzZUvRvfnHA1ENAZwnQ4W" from 2026-01-01',
  "engine P3-170 Plover-3",
  "  hours tsn 20.0 h on 2026-02-01",
  "job F-KEY engine P3-170 limits A",
  "  received 2026-02-02",
  'entry E1 2026-02-19 inspect "Nothing in it" job F-KEY',
  `  sign fitter KPT 2026-02-19 seal 1:${"0".repeat(64)}`,
];

/** A line in pieces: the copy's tag goes between them. */
type Template = readonly string[];

function templateOf(line: string, names: RegExp): Template {
  const mark = "\0";
  // Outside quotes a name is tagged as a word; inside them only a serial number is, since two engines cannot hold the same part.
  const tagged = line
    .split(/("[^"]*")/u)
    .map((piece, i) => (i % 2 === 1 ? piece : piece.replace(names, `$&${mark}`)))
    .join("")
    .replace(SERIAL, `$1${mark}"`);
  return tagged.split(mark);
}

function namesPattern(names: Iterable<string>): RegExp {
  const longestFirst = [...names].sort((a, b) => b.length - a.length).map((name) => name.replaceAll(".", "\\."));
  return new RegExp(`(?<![\\w.-])(?:${longestFirst.join("|")})(?![\\w-])`, "gu");
}

function declared(lines: readonly string[]): Set<string> {
  const names = new Set<string>();
  for (const line of lines) {
    const name = NAMED.exec(line)?.[1];
    if (name !== undefined) names.add(name);
  }
  return names;
}

/** Ways to break a line, in turn; each gives undefined where it does not apply. */
const BREAKS: readonly ((line: string) => string | undefined)[] = [
  (line) => (/\d\.\d/u.test(line) ? line.replace(/(\d)\.(\d)/u, "$1,$2") : undefined),
  (line) => (/^\s+[a-z]{4}/u.test(line) ? line.replace(/([a-z])([a-z])/u, "$2$1x") : undefined),
  (line) => (/\d mm\b/u.test(line) ? line.replace(/(\d) mm\b/u, "$1 mn") : undefined),
  (line) => (/"\s*$/u.test(line) ? line.replace(/"\s*$/u, "") : undefined),
  (line) => (/^\s+\d+:? .* \S+$/u.test(line) ? line.replace(/ \S+$/u, "") : undefined),
  (line) => (/\d N\.m\b/u.test(line) ? line.replace(/(\d) N\.m\b/u, "$1") : undefined),
  (line) => `${line} )`,
];

function broken(line: string, turn: number): string {
  for (let i = 0; i < BREAKS.length; i++) {
    const made = BREAKS[(turn + i) % BREAKS.length]?.(line);
    if (made !== undefined) return made;
  }
  return line;
}

/** Another figure before the point of the last decimal number: a reading that is out of its limit. */
function otherReading(line: string): string {
  return line.replace(
    /(\d)(\.\d+)(?!.*\d\.\d)/u,
    (_, digit: string, rest: string) => `${(Number(digit) + 1) % 10}${rest}`,
  );
}

/** Spoils the lines of copies as they come; counts on from copy to copy. */
class Spoiler {
  #line = 0;
  #breakAt = CHANGED_AFTER;
  #changeAt = BROKEN_EVERY;
  broken = 0;

  spoil(line: string): string {
    this.#line++;
    const isMember = line.startsWith("  ") && !/^\s*(?:#|note\b|$)/u.test(line);
    if (this.#line >= this.#breakAt && isMember) {
      this.#breakAt += BROKEN_EVERY;
      return broken(line, this.broken++);
    }
    if (this.#line >= this.#changeAt && /^\s+(?:measure|\d+)\b.*\d\.\d/u.test(line)) {
      this.#changeAt += BROKEN_EVERY;
      return otherReading(line);
    }
    return line;
  }
}

/**
 * Seals again what was sealed, over the text as it now stands: the names in it are others, and what was spoiled was spoiled before it was signed.
 * Changes the lines in place.
 */
function reseal(lines: string[]): void {
  let header = 0;
  for (const [i, line] of lines.entries()) {
    if (HEADER.test(line)) header = i;
    if (!SEAL.test(line)) continue;
    const digest = createHash("sha256")
      .update(canonicalBlock(lines.slice(header, i)), "utf8")
      .digest("hex");
    lines[i] = line.replace(SEAL, ` seal 1:${digest}`);
  }
}

/** Cuts lines into about so many pieces, each beginning with a header. */
function pieces(lines: readonly string[], count: number): string[][] {
  const cut: string[][] = [];
  const each = lines.length / count;
  let piece: string[] = [];
  for (const [i, line] of lines.entries()) {
    if (piece.length > 0 && HEADER.test(line) && cut.length < count - 1 && i >= (cut.length + 1) * each) {
      cut.push(piece);
      piece = [];
    }
    piece.push(line);
  }
  cut.push(piece);
  return cut;
}

/** The faulty sample with the names that the clean one has too given an ending of their own; its shop's one bad setting goes to the shop. */
function faultyFiles(samples: string, taken: ReadonlySet<string>): { files: Map<string, string[]>; setting: string[] } {
  const folder = join(samples, "faulty");
  const names = namesPattern(taken);
  const files = new Map<string, string[]>();
  let setting: string[] = [];
  for (const name of readdirSync(folder).filter(isRecord).sort()) {
    const lines = linesOf(readFileSync(join(folder, name), "utf8"));
    if (name === "shop.gudgeon") setting = lines.filter((line) => /^\s+severity\b/u.test(line));
    else {
      const ended = lines.map((line) =>
        line
          .split(/("[^"]*")/u)
          .map((piece, i) => (i % 2 === 1 ? piece : piece.replace(names, "$&-f")))
          .join(""),
      );
      files.set(`faulty/${name}`, ended);
    }
  }
  const unbacked = [...UNBACKED];
  reseal(unbacked);
  files.set("faulty/unbacked.gudgeon", unbacked);
  return { files, setting };
}

/** Names of the files kept once, and of the alerts and instruments in them, in every spelling. */
function namesOnce(lines: readonly string[], faultyLines: readonly string[]): Set<string> {
  const pattern = /^(?:person|instrument|stand|alert) ([\w.-]+)/u;
  const lower = new Set<string>();
  for (const line of lines) {
    const name = pattern.exec(line)?.[1];
    if (name !== undefined) lower.add(name.toLowerCase());
  }
  const all = new Set<string>();
  for (const line of faultyLines) {
    const name = pattern.exec(line)?.[1];
    if (name !== undefined && lower.has(name.toLowerCase())) all.add(name);
  }
  return all;
}

function assetsOf(samples: string, sample: string, into: Map<string, string>): void {
  for (const name of readdirSync(join(samples, sample), { recursive: true, encoding: "utf8" })) {
    const path = name.replaceAll("\\", "/");
    if (/\.(?:png|jpg|csv)$/u.test(path) && !into.has(path)) into.set(path, join(samples, sample, name));
  }
}

/**
 * @param wanted about how many lines
 * @param files about how many files; 1 puts everything into one. A block is never cut in two, so very many files of few lines come out fewer.
 */
export function generateShop(wanted: number, files: number, options: ShopOptions = {}): GeneratedShop {
  const samples = options.samples ?? SAMPLES;
  const clean = join(samples, "clean");
  const made = new Map<string, string[]>();
  const copied: string[] = [];
  const alerts: string[] = [];
  const shown = readdirSync(clean).filter(isRecord);
  // Types and routes first, then the jobs: sheets keep their order, since entries of one day without a time go by it.
  const rank = (name: string): number => (/^(?:curlew|tern|routes)/u.test(name) ? 0 : 1);
  for (const name of shown.sort((a, b) => rank(a) - rank(b) || (a < b ? -1 : 1))) {
    const lines = linesOf(readFileSync(join(clean, name), "utf8"));
    if (ONCE.has(name)) made.set(name, lines);
    else {
      // A warning of a bad batch speaks to the whole shop.
      let inAlert = false;
      for (const line of lines) {
        if (HEADER.test(line)) inAlert = line.startsWith("alert ");
        (inAlert ? alerts : copied).push(line);
      }
    }
  }
  made.set("alerts.gudgeon", alerts);
  if (options.faulty ?? true) {
    const once = [...made.values()].flat();
    const folder = join(samples, "faulty");
    const all = readdirSync(folder)
      .filter(isRecord)
      .flatMap((name) => linesOf(readFileSync(join(folder, name), "utf8")));
    const faulty = faultyFiles(samples, namesOnce(once, all));
    for (const [name, lines] of faulty.files) made.set(name, lines);
    made.get("shop.gudgeon")?.push(...faulty.setting);
  }
  const present = [...made.values()].reduce((sum, lines) => sum + lines.length, 0);
  // A shop smaller than the sample is the sample up to there: a job that has just begun.
  if (present + copied.length > wanted) {
    let end = Math.max(1, wanted - present);
    while (end < copied.length && !HEADER.test(copied[end])) end++;
    copied.length = end;
  }
  const copies = Math.max(1, Math.round((wanted - present) / copied.length));
  const names = namesPattern(declared(copied));
  const templates = copied.map((line) => templateOf(line, names));
  const spoiler = new Spoiler();
  const left = Math.max(1, files - made.size);
  const perCopy = left / copies;
  let together: string[] = [];
  for (let i = 0; i < copies; i++) {
    const tag = `-${String(i).padStart(5, "0")}`;
    const lines = templates.map((template) => spoiler.spoil(template.length === 1 ? template[0] : template.join(tag)));
    reseal(lines);
    if (perCopy < 1) {
      together.push(...lines);
      if (Math.floor((i + 1) * perCopy) > Math.floor(i * perCopy) || i === copies - 1) {
        made.set(`jobs/to${tag}.gudgeon`, together);
        together = [];
      }
      continue;
    }
    const share = Math.max(1, Math.round((i + 1) * perCopy) - Math.round(i * perCopy));
    for (const [n, piece] of pieces(lines, share).entries())
      made.set(`jobs/of${tag}-${String(n + 1).padStart(3, "0")}.gudgeon`, piece);
  }
  const texts = new Map<string, string>();
  if (files === 1) {
    texts.set("record.gudgeon", [...made.values()].map((lines) => `${lines.join("\n")}\n`).join(""));
  } else for (const [path, lines] of made) texts.set(path, `${lines.join("\n")}\n`);
  const assets = new Map<string, string>();
  assetsOf(samples, "clean", assets);
  if (options.faulty ?? true) assetsOf(samples, "faulty", assets);
  return {
    files: texts,
    assets,
    lines: [...made.values()].reduce((sum, lines) => sum + lines.length, 0),
    bytes: [...texts.values()].reduce((sum, text) => sum + text.length, 0),
    broken: spoiler.broken,
  };
}

/** Writes a shop into a folder, which is emptied before. */
export function writeShop(shop: GeneratedShop, folder: string): void {
  rmSync(folder, { recursive: true, force: true });
  const write = (path: string, content: string | Buffer): void => {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), content);
  };
  for (const [path, text] of shop.files) write(path, text);
  for (const [path, from] of shop.assets) write(path, readFileSync(from));
}
