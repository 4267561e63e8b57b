/** Every place that names the thing under the cursor. */
import type { Context, Location, Position } from "./feature.ts";
import { everywhere, nameAtColumn, namesInLine } from "./names.ts";
import { rangeOn, underCursor } from "./under-cursor.ts";

export function references(ctx: Context, path: string, position: Position, includeDeclaration: boolean): Location[] {
  const under = underCursor(ctx, path, position);
  const name = under && nameAtColumn(namesInLine(under, under.block, ctx.checker.ask), position.character);
  if (!name) return [];
  return everywhere(ctx, name.kind, name.key)
    .filter((one) => includeDeclaration || !one.declares)
    .map((one) => ({ path: one.path, range: rangeOn(one.line, one.from, one.to) }));
}
