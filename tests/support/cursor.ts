/** A place in a text, marked `<|>`; a stretch, marked `<[>` and `<]>`. */
import type { Context, Position, Range, TextEdit } from "../../server/features/feature.ts";
import { type Shop, shopOf } from "./shop.ts";

export interface Marked {
  readonly ctx: Context;
  readonly shop: Shop;
  readonly path: string;
  readonly position: Position;
  /** From `<[>` to `<]>`, or empty at the cursor. */
  readonly range: Range;
}

function positionOf(text: string, offset: number): Position {
  const before = text.slice(0, offset);
  const line = before.split("\n").length - 1;
  return { line, character: offset - (before.lastIndexOf("\n") + 1) };
}

/** A shop, one of whose files holds the mark. @throws Error when none or more than one does */
export function marked(files: Record<string, string>, options: Parameters<typeof shopOf>[1] = {}): Marked {
  const holders = Object.entries(files).filter(([, text]) => /<\||<\[>/u.test(text));
  const [path, text] = holders[0] ?? [];
  if (path === undefined || text === undefined || holders.length > 1)
    throw new Error("exactly one file must hold a mark");
  const from = text.search(/<\|>|<\[>/u);
  const bare = text.replace(/<\|>|<\[>/u, "");
  const to = bare.indexOf("<]>");
  const plain = bare.replace("<]>", "");
  const shop = shopOf({ ...files, [path]: plain }, options);
  const position = positionOf(plain, from);
  return {
    ctx: { checker: shop.checker },
    shop,
    path,
    position,
    range: { start: position, end: to < 0 ? position : positionOf(plain, to) },
  };
}

/** The text with the edits in it, as an editor applies them: in order where several stand at one place. */
export function edited(text: string, edits: readonly TextEdit[]): string {
  const lines = text.split("\n");
  const offset = ({ line, character }: Position): number =>
    lines.slice(0, line).reduce((sum, one) => sum + one.length + 1, 0) + character;
  const ordered = edits
    .map((edit, i) => ({ edit, i }))
    .sort((a, b) => offset(a.edit.range.start) - offset(b.edit.range.start) || a.i - b.i);
  let out = "";
  let at = 0;
  for (const { edit } of ordered) {
    const from = offset(edit.range.start);
    if (from < at) throw new Error("edits overlap");
    out += text.slice(at, from) + edit.text;
    at = offset(edit.range.end);
  }
  return out + text.slice(at);
}

/** The text of a file of a shop. */
export function textIn(shop: Shop, path: string): string {
  return shop.workspace.document(path)?.lines.join("\n") ?? "";
}

/** What stands in a range of one line. */
export function under(shop: Shop, path: string, range: Range): string {
  return (shop.workspace.document(path)?.lines[range.start.line] ?? "").slice(
    range.start.character,
    range.end.character,
  );
}
