/** One keystroke over stdio: the language server against the echo server, key by key in turn. */
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { pathToFileURL } from "node:url";
import { ms, quantile, type Row } from "./figures.ts";
import { LanguageClient } from "./language-client.ts";
import { readingAt } from "./typing.ts";

export interface StdioOptions {
  readonly server: string;
  readonly echo: string;
  readonly work: string;
  /** Folder with one record, `record.gudgeon`. */
  readonly folder: string;
  readonly asOf: string;
  readonly keys?: number;
}

/** Between two keys, as a quick typist leaves it; the server's work for other files falls in here. */
const BETWEEN_MS = 25;
const ROUNDS = 3;

interface Typist {
  readonly client: LanguageClient;
  readonly times: number[];
  version: number;
}

/** @throws Error when the server is not built or does not answer */
export async function stdioRows(options: StdioOptions): Promise<Row[]> {
  if (!existsSync(options.server)) throw new Error("the language server is not built");
  const text = readFileSync(join(options.folder, "record.gudgeon"), "utf8");
  const uri = pathToFileURL(join(options.folder, "record.gudgeon")).href;
  const rootUri = pathToFileURL(options.folder).href;
  const open = { textDocument: { uri, languageId: "gudgeon", version: 1, text } };

  const gudgeon = new LanguageClient([options.server, "--stdio"], {
    asOf: options.asOf,
    run: "onType",
    delay: 0,
    scope: "workspace",
  });
  await gudgeon.start(rootUri);
  const first = await gudgeon.publishedAfter(uri, 1, () => gudgeon.notify("textDocument/didOpen", open));
  const last = (await gudgeon.settled(uri, 2_000)) ?? first.published;
  const list = join(options.work, "findings.json");
  writeFileSync(list, JSON.stringify(last.diagnostics));

  const echo = new LanguageClient([options.echo, list]);
  await echo.start(rootUri);
  await echo.publishedAfter(uri, 1, () => echo.notify("textDocument/didOpen", open));

  const ours: Typist = { client: gudgeon, times: [], version: 1 };
  const theirs: Typist = { client: echo, times: [], version: 1 };
  const places = readingAt(text.split("\n"));
  const keys = options.keys ?? 600;
  const bytes = { ours: 0, theirs: 0 };
  for (let i = 0; i < keys; i++) {
    const place = places[((i >> 1) * 7919) % places.length] as { line: number; character: number };
    const end = i % 2 === 0 ? place : { line: place.line, character: place.character + 1 };
    const change = { range: { start: place, end }, text: i % 2 === 0 ? "3" : "" };
    // Who goes first changes from key to key, so that neither always meets a warm cache.
    for (const one of i % 4 < 2 ? [ours, theirs] : [theirs, ours]) {
      const version = ++one.version;
      const answer = await one.client.publishedAfter(uri, version, () =>
        one.client.notify("textDocument/didChange", { textDocument: { uri, version }, contentChanges: [change] }),
      );
      one.times.push(answer.ms);
      bytes[one === ours ? "ours" : "theirs"] = answer.bytes;
      await pause(BETWEEN_MS);
    }
  }
  await Promise.all([gudgeon.stop(), echo.stop()]);

  const warm = (one: Typist): number[] => one.times.slice(Math.min(100, keys >> 2));
  const thirds = (values: readonly number[], share: number): number[] =>
    Array.from({ length: ROUNDS }, (_, i) =>
      quantile(values.slice((i * values.length) / ROUNDS, ((i + 1) * values.length) / ROUNDS), share),
    );
  const note = `keystroke over stdio, ${text.split("\n").length - 1} lines, ${last.diagnostics.length} findings (${bytes.ours} B; echo ${bytes.theirs} B)`;
  return (
    [
      ["p50", 0.5],
      ["p95", 0.95],
      ["p99", 0.99],
    ] as const
  ).map(([name, share]) => {
    const mine = quantile(warm(ours), share);
    const floor = quantile(warm(theirs), share);
    const parts = thirds(warm(ours), share);
    return {
      what: `${note}: ${name}`,
      figure: `${ms(mine)} (echo ${ms(floor)})`,
      spread: `${ms(Math.min(...parts))}..${ms(Math.max(...parts))} by thirds`,
      ratio: mine / floor,
      ...(name === "p50" ? { target: { first: 1.15 } } : name === "p95" ? { target: { first: 1.5 } } : {}),
    };
  });
}
