/** Edits of a file: what is touched, what is not, and that the result is what a fresh reading gives. */
import { describe, expect, test } from "vitest";
import { same } from "../../server/facts/same.ts";
import { atOf, blockAt, lineOf, Workspace } from "../../server/workspace/workspace.ts";
import { seeded } from "../incremental/random-edits.ts";

const TEXT = `# preface
person AB "Ada"
  role fitter from 2024-01-01

person CD "Cid"
  role inspector from 2024-01-01
  # a comment
  note a note
  licence "X" from 2024-01-01
`;

function shop(text: string = TEXT): Workspace {
  const workspace = new Workspace();
  workspace.setText("a.gudgeon", text);
  return workspace;
}

const names = (workspace: Workspace): string[] =>
  workspace.document("a.gudgeon")?.blocks.map((one) => `${one.facts.ref}@${one.from}-${one.to}`) ?? [];

describe("an edit", () => {
  test("inside a block changes that block and keeps the identity of all", () => {
    const workspace = shop();
    const before = [...(workspace.document("a.gudgeon")?.blocks ?? [])];
    const change = workspace.edit("a.gudgeon", 2, 1, ["  role inspector from 2024-01-01"]);
    expect(change.changed.map(({ entry }) => entry.facts.ref)).toEqual(["person/AB"]);
    expect([change.added, change.removed]).toEqual([[], []]);
    expect(workspace.document("a.gudgeon")?.blocks.every((one, i) => one === before[i])).toBe(true);
  });

  test("of blanks and comments changes nothing but the lines below", () => {
    const workspace = shop();
    const change = workspace.edit("a.gudgeon", 2, 1, ["", "    role   fitter from 2024-01-01   # since the start", ""]);
    expect(change).toMatchObject({ added: [], removed: [], changed: [] });
    expect(names(workspace)).toEqual(["@0-1", "person/AB@1-6", "person/CD@6-12"]);
  });

  test("of a header makes a new block of it", () => {
    const workspace = shop();
    const change = workspace.edit("a.gudgeon", 4, 1, ['person EF "Eve"']);
    expect(change.added.map((one) => one.facts.ref)).toContain("person/EF");
    expect(change.removed.map((one) => one.facts.ref)).toContain("person/CD");
  });

  test("that takes a header away joins its lines to the block above; a misspelt one does not", () => {
    const gone = shop();
    gone.edit("a.gudgeon", 4, 1, []);
    expect(names(gone)).toEqual(["@0-1", "person/AB@1-9"]);
    const slipped = shop();
    slipped.edit("a.gudgeon", 4, 1, ['persn CD "Cid"']);
    expect(slipped.document("a.gudgeon")?.blocks.map((one) => one.facts.kind)).toEqual([
      "preface",
      "person",
      "unnamed",
    ]);
  });

  test("at the very end, in an empty file, of everything", () => {
    const workspace = shop("");
    workspace.edit("a.gudgeon", 0, 1, ['person AB "Ada"']);
    expect(names(workspace)).toEqual(["person/AB@0-1"]);
    workspace.edit("a.gudgeon", 1, 0, ["  role fitter from 2024-01-01"]);
    expect(workspace.document("a.gudgeon")?.blocks[0]?.facts).toMatchObject({ roles: [{ role: "fitter" }] });
    workspace.edit("a.gudgeon", 0, 2, [""]);
    expect(workspace.document("a.gudgeon")?.lines).toEqual([""]);
  });
});

test("after random edits of lines, blocks are those of a fresh reading", () => {
  const random = seeded(11);
  const pool = [...TEXT.split("\n"), "engine E1 T1", "  hours tsn 1.0 h on 2026-01-01", "persn X", "1 2 3", ""];
  const workspace = shop();
  for (let n = 0; n < 3000; n++) {
    const length = workspace.document("a.gudgeon")?.lines.length ?? 0;
    const from = Math.floor(random() * (length + 1));
    const count = Math.min(length - from, Math.floor(random() * 3));
    const insert = Array.from({ length: Math.floor(random() * 3) }, () => pool[Math.floor(random() * pool.length)]);
    if (length - count + insert.length < 1) continue;
    workspace.edit("a.gudgeon", from, count, insert);
    const text = workspace.document("a.gudgeon")?.lines.join("\n") ?? "";
    const fresh = shop(text);
    expect(names(workspace)).toEqual(names(fresh));
    const here = workspace.document("a.gudgeon")?.blocks.map((one) => one.facts);
    expect(
      same(
        here,
        fresh.document("a.gudgeon")?.blocks.map((one) => one.facts),
      ),
      text,
    ).toBe(true);
  }
});

test("a fact's line is found by counting lines with content, and back", () => {
  const workspace = shop();
  const document = workspace.document("a.gudgeon");
  const entry = document && blockAt(document, 8);
  if (!entry) throw new Error("no block");
  expect([0, 1, 2].map((at) => lineOf(entry, at))).toEqual([4, 5, 8]);
  expect([4, 5, 6, 7, 8].map((line) => atOf(entry, line))).toEqual([0, 1, undefined, undefined, 2]);
});

test("setting the whole text again keeps the blocks that did not change", () => {
  const workspace = shop();
  const before = workspace.document("a.gudgeon")?.blocks[1];
  const change = workspace.setText("a.gudgeon", TEXT.replace('"X"', '"Y"'));
  expect(change.changed.map(({ entry }) => entry.facts.ref)).toEqual(["person/CD"]);
  expect(workspace.document("a.gudgeon")?.blocks[1]).toBe(before);
  expect(workspace.setText("a.gudgeon", TEXT.replace('"X"', '"Y"'))).toMatchObject({
    added: [],
    removed: [],
    changed: [],
  });
});
