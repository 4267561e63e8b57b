// The colours against the scanner: every character of every token has the scope of what the token is read as.

import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { resolve } from "node:path";
import fc from "fast-check";
import { beforeAll, expect, test } from "vitest";
import { createOnigScanner, createOnigString, loadWASM } from "vscode-oniguruma";
import * as textmate from "vscode-textmate";
import { scopeOf, textmateGrammar } from "../../grammar/textmate.ts";
import { scan, T, typeName } from "../../grammar/tokens.ts";
import { WORDS } from "../../grammar/words.ts";
import { allLines, anyLine } from "./lines.ts";

const { INITIAL, Registry, parseRawGrammar } = textmate;
let grammar: textmate.IGrammar;

beforeAll(async () => {
  const wasm = readFileSync(createRequire(import.meta.url).resolve("vscode-oniguruma/release/onig.wasm"));
  await loadWASM(wasm.buffer.slice(wasm.byteOffset, wasm.byteOffset + wasm.byteLength));
  const registry = new Registry({
    onigLib: Promise.resolve({ createOnigScanner, createOnigString }),
    loadGrammar: async () => parseRawGrammar(JSON.stringify(textmateGrammar()), "gudgeon.json"),
  });
  const loaded = await registry.loadGrammar("source.gudgeon");
  if (!loaded) throw new Error("the grammar was not loaded");
  grammar = loaded;
});

/** The innermost scope of each character, "" where there is none but the language's own. */
function coloured(line: string): string[] {
  const scopes: string[] = [];
  for (const { startIndex, endIndex, scopes: all } of grammar.tokenizeLine(line, INITIAL).tokens) {
    const last = all.at(-1) ?? "";
    const scope = last === "source.gudgeon" ? "" : last.replace(/\.gudgeon$/u, "");
    for (let i = startIndex; i < Math.min(endIndex, line.length); i++) scopes[i] = scope;
  }
  return scopes;
}

/** The same from the scanner. */
function scanned(line: string): string[] {
  const { count, types, starts, ends, comment } = scan(line);
  const scopes = new Array<string>(line.length).fill("");
  for (let i = 0; i < count; i++) {
    const type = types[i];
    const first = i === 0 && !line.slice(0, starts[0]).includes("\u00b0");
    scopes.fill(scopeOf(type, typeName(type), first), starts[i], ends[i]);
  }
  if (comment >= 0) scopes.fill("comment.line.number-sign", comment);
  // The name after a header word is the block's own.
  if (count > 1 && types[1] === T.Name && scopes[starts[0]] === "keyword.control.block") {
    if (/^\s+$/u.test(line.slice(ends[0], starts[1]).replaceAll("\u200b", " ")))
      scopes.fill("entity.name.type.block", starts[1], ends[1]);
  }
  return scopes;
}

test("on every example and sample line", () => {
  for (const line of allLines) expect({ line, scopes: coloured(line) }).toEqual({ line, scopes: scanned(line) });
});

test("on mutated lines", () => {
  fc.assert(
    fc.property(anyLine, (line) => {
      // A lone half of a pair cannot be handed to the engine of the regular expressions.
      if (/\p{Surrogate}/u.test(line)) return;
      // That engine knows the letters of an older Unicode: rare scripts are left out, since records are read by the scanner in the end.
      if (
        /[\u0530-\u1fff\u2070-\u2fff\u3040-\ufefe\uff00-\uffff]/u.test(
          line.replaceAll("日", "").replaceAll("\u1680", ""),
        )
      )
        return;
      expect(coloured(line)).toEqual(scanned(line));
    }),
    { seed: 20260310, numRuns: 40_000 },
  );
});

test("the written file is the generated one", () => {
  const written = readFileSync(resolve(import.meta.dirname, "../../grammar/gudgeon.tmLanguage.json"), "utf8");
  expect(JSON.parse(written)).toEqual(textmateGrammar());
});

interface Configuration {
  readonly wordPattern: string;
  readonly onEnterRules: readonly { readonly beforeText: string }[];
}

test("the language configuration indents after every header word, and its words are whole", () => {
  const text = readFileSync(resolve(import.meta.dirname, "../../grammar/language-configuration.json"), "utf8");
  const { wordPattern, onEnterRules } = JSON.parse(text) as Configuration;
  const beforeText = new RegExp(onEnterRules[0]?.beforeText ?? "", "u");
  for (const row of WORDS) {
    for (const example of row.examples)
      expect([example, beforeText.test(example)]).toEqual([example, row.kind === "header"]);
  }
  const words = (line: string): string[] => line.match(new RegExp(wordPattern, "gu")) ?? [];
  expect(words("measure piston.skirt[1] 97.889 mm # 2026-03-02")).toEqual([
    "measure",
    "piston.skirt",
    "1",
    "97.889",
    "mm",
    "2026-03-02",
  ]);
});
