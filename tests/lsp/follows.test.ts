import { mkdirSync, renameSync, rmSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { expect, test } from "vitest";
import type { Diagnostic } from "vscode-languageserver/node";
import { Checker } from "../../server/checking/checker.ts";
import { applyLineEdit, lineEditOf, linesOf } from "../../server/lsp/text-lines.ts";
import { Workspace } from "../../server/workspace/workspace.ts";
import { recordsOf, seeded } from "../incremental/random-edits.ts";
import { day } from "../support/shop.ts";
import { type Client, type Folder, folderWith, projectRoot } from "./client.ts";
import { serverInProcess } from "./in-process.ts";
import { freshCodes, JOB, jobText, lineWith, SHOP, SPARE, shopFiles, shopText } from "./records.ts";

const settings = { asOf: "2026-05-01" };

/** What a fresh check of the texts finds, in the words of the protocol. Restricted to what both sides can know: nobody looks at named files. */
function fresh(texts: ReadonlyMap<string, string>, folder: Folder): string[] {
  const workspace = new Workspace();
  for (const [path, text] of texts) workspace.setText(path, text);
  const checker = new Checker(workspace, { asOf: day("2026-05-01"), recording: false });
  checker.sweep();
  return checker
    .allFindings()
    .filter((one) => one.quiet === undefined)
    .map((one) => {
      const related = one.related.map((other) => `${folder.uriOf(other.path)}:${other.line}:${other.from}-${other.to}`);
      return `${folder.uriOf(one.path)}:${one.line}:${one.from}-${one.to} ${one.finding.code} ${one.finding.message} [${related.join(" ")}]`;
    })
    .sort();
}

function shown(client: Client): string[] {
  const found: string[] = [];
  for (const [uri, { diagnostics }] of client.pushed) {
    for (const one of diagnostics as Diagnostic[]) {
      const related = (one.relatedInformation ?? []).map(
        ({ location }) =>
          `${location.uri}:${location.range.start.line}:${location.range.start.character}-${location.range.end.character}`,
      );
      found.push(
        `${uri}:${one.range.start.line}:${one.range.start.character}-${one.range.end.character} ${String(one.code)} ${typeof one.message === "string" ? one.message : one.message.value} [${related.join(" ")}]`,
      );
    }
  }
  return found.sort();
}

test("after random edits of open records what is shown equals a fresh run", { timeout: 300_000 }, async () => {
  const texts = recordsOf(join(projectRoot, "samples/bench"));
  using folder = folderWith(Object.fromEntries(texts));
  await using server = await serverInProcess({ folders: [folder], settings, initialization: { trusted: false } });
  const { client } = server;
  await client.ready();
  const random = seeded(11);
  const pick = (count: number): number => Math.floor(random() * count);
  const names = [...texts.keys()];
  for (const name of names) await client.open(folder.uriOf(name), texts.get(name) as string);
  const compared: { after: number; shown: string[]; fresh: string[] }[] = [];
  for (let i = 0; i < 1_000; i++) {
    const name = names[pick(names.length)];
    const lines = (texts.get(name) as string).split("\n");
    const line = pick(lines.length);
    const text = lines[line];
    const from = pick(text.length + 1);
    const kind = pick(6);
    const all = [...texts.values()].join("\n").split("\n");
    const change =
      kind === 0
        ? { start: { line, character: 0 }, end: { line: line + 1, character: 0 }, text: "" }
        : kind === 1
          ? { start: { line, character: 0 }, end: { line, character: 0 }, text: `${all[pick(all.length)]}\n` }
          : kind === 2
            ? { start: { line, character: 0 }, end: { line: line + 1 + pick(12), character: 0 }, text: "" }
            : kind === 3
              ? {
                  start: { line, character: from },
                  end: { line, character: Math.min(text.length, from + pick(4)) },
                  text: ["", "9", "x", " ", "#", '"'][pick(6)],
                }
              : kind === 4
                ? { start: { line, character: from }, end: { line, character: from }, text: "\n" }
                : {
                    start: { line, character: 0 },
                    end: { line, character: text.length },
                    text: all[pick(all.length)],
                  };
    const edit = lineEditOf(lines, { range: { start: change.start, end: change.end }, text: change.text });
    applyLineEdit(lines, edit);
    texts.set(name, lines.join("\n"));
    await client.change(folder.uriOf(name), { range: { start: change.start, end: change.end }, text: change.text });
    if (i % 20 !== 19) continue;
    // The cursor goes elsewhere: nothing is held back.
    await client.connection.sendNotification("gudgeon/cursor", { uri: folder.uriOf(name), line: -1 });
    await client.ready();
    compared.push({ after: i, shown: shown(client), fresh: fresh(texts, folder) });
  }
  expect(compared).toHaveLength(50);
  for (const one of compared) expect(one.shown, `after edit ${one.after}`).toEqual(one.fresh);
  // The edits did something: a comparison of nothing with nothing proves nothing.
  expect(new Set(compared.map((one) => one.shown.join("\n"))).size).toBeGreaterThan(40);
});

test("a fix, an undo, a close without saving: nothing stale stays", async () => {
  using folder = folderWith(shopFiles());
  await using server = await serverInProcess({ folders: [folder], settings });
  const { client } = server;
  const uri = folder.uriOf(JOB);
  await client.ready();
  const before = client.codes(uri);
  expect(before.length).toBe(freshCodes(JOB).length);
  await client.open(uri, jobText());
  const line = lineWith(jobText(), "59,911");
  await client.changeLine(uri, line, 28, 29, ".");
  await client.until("the fix", () => !client.codes(uri).some((code) => code.endsWith("comma-number")));
  await client.changeLine(uri, line, 28, 29, ",");
  await client.connection.sendNotification("gudgeon/cursor", { uri, line: 0 });
  await client.until("the undo", () => client.codes(uri).length === before.length);
  expect(client.codes(uri)).toEqual(before);
  await client.change(uri, { text: "" });
  await client.until("an empty record", () => client.codes(uri).length === 0);
  await client.close(uri);
  await client.until("the text of the disk", () => client.codes(uri).length === before.length);
  expect(client.codes(uri)).toEqual(before);
  expect(client.pushed.get(uri)?.version).toBeUndefined();
});

test("a record that is renamed, deleted, or goes with its folder takes its findings along", async () => {
  using folder = folderWith(shopFiles());
  await using server = await serverInProcess({ folders: [folder], settings });
  const { client } = server;
  await client.ready();
  const old = folder.uriOf(JOB);
  const inFolder = folder.uriOf(`year/${JOB}`);
  const before = client.codes(old).filter((code) => !code.includes("photo/"));
  // A watcher tells of a new folder by its own name.
  mkdirSync(join(folder.path, "year"));
  renameSync(join(folder.path, JOB), join(folder.path, "year", JOB));
  await client.changedOnDisk([old, 3], [folder.uriOf("year"), 1]);
  await client.until("the record in its folder", () => client.codes(inFolder).length >= before.length);
  expect(client.codes(old)).toEqual([]);
  expect(client.codes(inFolder).filter((code) => !code.includes("photo/"))).toEqual(before);
  renameSync(join(folder.path, "year"), join(folder.path, ".hidden"));
  await client.changedOnDisk([folder.uriOf("year"), 3]);
  await client.until("the folder to be gone", () => client.codes(inFolder).length === 0);
  expect((await client.status()).files).toBe(2);
  rmSync(join(folder.path, SPARE));
  await client.changedOnDisk([folder.uriOf(SPARE), 3]);
  await client.until("the spare gauge to be gone", () => client.codes(folder.uriOf(SPARE)).length === 0);
});

test("a line put in above moves what other files point to", async () => {
  using folder = folderWith(shopFiles());
  await using server = await serverInProcess({ folders: [folder], settings });
  const { client } = server;
  await client.ready();
  const shop = folder.uriOf(SHOP);
  const related = (): number | undefined =>
    client.pushed.get(folder.uriOf(JOB))?.diagnostics.find((one) => one.code === "limit/out-of-limit")
      ?.relatedInformation?.[0]?.location.range.start.line;
  const before = related() as number;
  await client.open(shop, shopText());
  await client.changeLine(shop, 0, 0, 0, "# a line more\n");
  await client.until("the moved limit", () => related() === before + 1);
  expect(client.codes(folder.uriOf(JOB))).toContain("12:5 limit/out-of-limit");
});

test("a photo is followed: changed, put back, gone", async () => {
  using folder = folderWith(shopFiles());
  await using server = await serverInProcess({ folders: [folder], settings });
  const { client } = server;
  await client.ready();
  const uri = folder.uriOf(JOB);
  const photo = (): string[] => client.codes(uri).filter((code) => code.includes("photo/"));
  expect(photo()).toEqual(["13:45 photo/changed-bytes"]);
  rmSync(join(folder.path, "photos"), { recursive: true });
  await client.changedOnDisk([folder.uriOf("photos"), 3]);
  await client.until("the photo to be gone", () => photo().length === 1 && !photo()[0]?.endsWith("changed-bytes"));
  folder.write("photos/barrels.png", "other bytes");
  await client.changedOnDisk([folder.uriOf("photos/barrels.png"), 1]);
  await client.until(
    "the photo to be back",
    () => photo().length === 1 && photo()[0]?.endsWith("changed-bytes") === true,
  );
  expect(photo()).toEqual(["13:45 photo/changed-bytes"]);
});

test("edits of lines equal edits of the text", () => {
  const textArbitrary = fc
    .array(fc.constantFrom("a", "ä", "😀", "\n", "\r\n", "b c", " "), { maxLength: 30 })
    .map((parts) => parts.join(""));
  fc.assert(
    fc.property(
      textArbitrary,
      fc.array(fc.tuple(fc.nat(40), fc.nat(40), textArbitrary), { maxLength: 6 }),
      (text, edits) => {
        let whole = linesOf(text).join("\n");
        const lines = linesOf(text);
        for (const [a, b, put] of edits) {
          const from = Math.min(a, b, whole.length);
          const to = Math.min(Math.max(a, b), whole.length);
          const place = (at: number): { line: number; character: number } => {
            const before = whole.slice(0, at).split("\n");
            return { line: before.length - 1, character: (before.at(-1) as string).length };
          };
          applyLineEdit(lines, lineEditOf(lines, { range: { start: place(from), end: place(to) }, text: put }));
          whole = whole.slice(0, from) + linesOf(put).join("\n") + whole.slice(to);
          expect(lines).toEqual(whole.split("\n"));
        }
      },
    ),
  );
});
