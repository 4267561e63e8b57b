/** Writing sample files: folders, texts and pictures, and the digest of each picture for the line that names it. */
import { mkdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { canonicalBlock } from "../../grammar/canonical.ts";
import { formatLines } from "../../grammar/print.ts";
import { digestOf, type Motif, picture } from "./picture.ts";

/** Puts a seal on each `sign` line of the blocks whose header matches: the digest of the canonical text above it (grammar/seals.md). */
function sealed(lines: readonly string[], headers: RegExp | undefined): string[] {
  const out: string[] = [];
  let header = -1;
  for (const line of lines) {
    if (/^[a-z]/u.test(line)) header = headers?.test(line) ? out.length : -1;
    const isSign = header >= 0 && line.startsWith("  sign ");
    out.push(
      isSign
        ? `${line} seal ${digestOf(Buffer.from(canonicalBlock(out.slice(header)))).replace("sha256:", "1:")}`
        : line,
    );
  }
  return out;
}

export class SampleFolder {
  readonly root: string;
  #pictures = 0;

  readonly #sealedBlocks: RegExp | undefined;

  /** @param sealedBlocks header lines of the blocks whose signatures carry a seal */
  constructor(root: string, sealedBlocks?: RegExp) {
    this.root = root;
    this.#sealedBlocks = sealedBlocks;
  }

  write(name: string, text: string): void {
    const path = join(this.root, name);
    mkdirSync(dirname(path), { recursive: true });
    const lines = text.trimEnd().split("\n");
    const laidOut = name.endsWith(".gudgeon") ? sealed(formatLines(lines), this.#sealedBlocks) : lines;
    writeFileSync(path, `${laidOut.join("\n")}\n`);
  }

  /** Writes a data file as it is and gives its digest. */
  data(name: string, text: string): string {
    const path = join(this.root, name);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, text);
    return digestOf(Buffer.from(text, "utf8"));
  }

  /** Writes the picture and gives the `photo` line that pins it. */
  photo(name: string, caption: string, motif: Motif): string {
    this.#pictures += 1;
    const bytes = picture(motif, this.#pictures);
    const path = join(this.root, "photos", name);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, bytes);
    return `photo "photos/${name}" "${caption}" ${digestOf(bytes)}`;
  }
}
