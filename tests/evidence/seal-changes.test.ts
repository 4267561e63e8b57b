/** A seal breaks with any change of substance and with no change of layout: on the sealed entries of the whole-job sample. */
import { join } from "node:path";
import { expect, test } from "vitest";
import { canonicalBlock } from "../../grammar/canonical.ts";
import { scan } from "../../grammar/tokens.ts";
import { summarise } from "../../server/facts/summarise.ts";
import { textDigest } from "../../server/facts/text-digest.ts";
import type { WorkBlock } from "../../server/facts/types.ts";
import { Workspace } from "../../server/workspace/workspace.ts";
import { recordsOf, seeded } from "../incremental/random-edits.ts";

interface Sealed {
  readonly lines: readonly string[];
  /** Position of the first sealed signature. */
  readonly sign: number;
}

function sealedBlocks(): Sealed[] {
  const workspace = new Workspace();
  const found: Sealed[] = [];
  for (const [path, text] of recordsOf(join(import.meta.dirname, "../../samples/clean"))) {
    workspace.setText(path, text);
    const document = workspace.document(path);
    for (const { from, to, facts } of document?.blocks ?? []) {
      // The seal of a release also covers blocks elsewhere; this is about a block's own text.
      if (facts.kind !== "entry" && facts.kind !== "run") continue;
      const lines = document?.lines.slice(from, to) ?? [];
      const sign = lines.findIndex((line) => SEAL.test(line));
      if (sign > 0) found.push({ lines, sign });
    }
  }
  return found;
}

const SEAL = /^\s*sign .* seal (1:[0-9a-f]{64})/u;

/** Whether the first seal of a block still fits the text above it, whatever a change made of its header. */
function holds(lines: readonly string[]): boolean {
  const at = lines.findIndex((line) => SEAL.test(line));
  return SEAL.exec(lines[at] ?? "")?.[1] === `1:${textDigest(canonicalBlock(lines.slice(0, at)))}`;
}

/** The same as the checker sees it. */
function holdsInFacts(lines: readonly string[]): boolean {
  const block = summarise(lines, 0, lines.length) as WorkBlock;
  const sign = block.signs.find((one) => one.seal !== "");
  return sign !== undefined && sign.seal === `1:${sign.textDigest}`;
}

const blocks = sealedBlocks();
const CHANGES = 10_000;

test("the sample has sealed entries, and all of them hold", () => {
  expect(blocks.length).toBeGreaterThan(5);
  for (const { lines } of blocks) expect([holds(lines), holdsInFacts(lines)]).toEqual([true, true]);
});

test("10,000 changes of one token: every one breaks the seal", () => {
  const random = seeded(41);
  const pick = (n: number): number => Math.floor(random() * n);
  let caught = 0;
  const missed: string[] = [];
  while (caught + missed.length < CHANGES) {
    const { lines, sign } = blocks[pick(blocks.length)];
    const at = pick(sign);
    const line = lines[at];
    const { count, starts, ends } = scan(line);
    if (count === 0) continue;
    const token = pick(count);
    const place = starts[token] + pick(ends[token] - starts[token]);
    const old = line[place];
    // Another digit for a digit, another letter for anything else, or the character gone.
    const fresh = /\d/u.test(old)
      ? String((Number(old) + 1 + pick(9)) % 10)
      : random() < 0.3
        ? ""
        : old === "x"
          ? "y"
          : "x";
    const changed = [...lines];
    changed[at] = line.slice(0, place) + fresh + line.slice(place + 1);
    if (holds(changed)) missed.push(`${line} -> ${changed[at]}`);
    else caught++;
  }
  expect(missed).toEqual([]);
  expect(caught).toBe(CHANGES);
});

test("10,000 changes of layout: none breaks it", () => {
  const random = seeded(43);
  const pick = (n: number): number => Math.floor(random() * n);
  const broken: string[] = [];
  let changes = 0;
  for (let n = 0; n < CHANGES; n++) {
    const { lines, sign } = blocks[pick(blocks.length)];
    const at = pick(sign);
    const line = lines[at];
    const { count, starts } = scan(line);
    const isNote = /^\s*note\b/u.test(line);
    const changed = [...lines];
    const kind = pick(5);
    if (kind === 0) changed[at] = `${" ".repeat(pick(6))}\t${line.trimStart()}`;
    else if (kind === 1) changed[at] = `${line}${isNote ? " " : "   # looked at again"}\r`;
    else if (kind === 2) changed.splice(at + 1, 0, "", "    # a line of its own");
    else if (kind === 3) changed[at] = `${line} \t `;
    else {
      // A note's text keeps its blanks; between the tokens of any other line they are layout.
      const token = isNote ? Math.min(1, count - 1) : pick(Math.max(1, count));
      const place = count === 0 ? 0 : starts[token];
      changed[at] = `${line.slice(0, place)}  \t${line.slice(place)}`;
    }
    if (changed.join("\n") !== lines.join("\n")) changes++;
    if (!holds(changed)) broken.push(`${JSON.stringify(line)} -> ${JSON.stringify(changed[at])}`);
  }
  expect(broken.slice(0, 5)).toEqual([]);
  expect(changes).toBe(CHANGES);
});
