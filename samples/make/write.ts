/** Writing sample files: folders, texts and pictures, and the digest of each picture for the line that names it. */
import { mkdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { formatLines } from "../../grammar/print.ts";
import { digestOf, type Motif, picture } from "./picture.ts";

export class SampleFolder {
  readonly root: string;
  #pictures = 0;

  constructor(root: string) {
    this.root = root;
  }

  write(name: string, text: string): void {
    const path = join(this.root, name);
    mkdirSync(dirname(path), { recursive: true });
    const lines = text.trimEnd().split("\n");
    writeFileSync(path, `${(name.endsWith(".gudgeon") ? formatLines(lines) : lines).join("\n")}\n`);
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
