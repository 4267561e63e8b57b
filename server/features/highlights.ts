/** Where in this file the thing under the cursor is named; the declaration is a writing, the rest are readings. */
import type { Context, Highlight, Position } from "./feature.ts";
import { inFile, nameAtColumn, namesInLine } from "./names.ts";
import { rangeOn, underCursor } from "./under-cursor.ts";

export function highlights(ctx: Context, path: string, position: Position): Highlight[] {
  const under = underCursor(ctx, path, position);
  const name = under && nameAtColumn(namesInLine(under, under.block, ctx.checker.ask), position.character);
  if (!name) return [];
  return inFile(ctx, path, name.kind, name.key).map((one) => ({
    range: rangeOn(one.line, one.from, one.to),
    kind: one.declares ? "write" : "read",
  }));
}
