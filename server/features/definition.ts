/** Where a name is declared; of a reading, the limit that it is judged by. */
import { shortRef } from "../facts/refs.ts";
import { jobContext } from "../totals/job-context.ts";
import { limitsFor, limitsKey } from "../totals/limits-for.ts";
import { blockReadings } from "../totals/place-history.ts";
import type { Context, Location, Position } from "./feature.ts";
import { blockOf, lineLocation, type NameAt, nameAtColumn, namesInLine } from "./names.ts";
import { isWorkBlock, scopeOfBlock, type UnderCursor, underCursor } from "./under-cursor.ts";

/** The first line of a job that declares a defect or a concession. */
function inScope(ctx: Context, name: NameAt, member: "defects" | "concessions"): Location[] {
  const scope = name.key.slice(0, name.key.lastIndexOf("/"));
  const placed = ctx.checker.ask.facts(scope, member).find(({ fact }) => fact.name === shortRef(name.key));
  const entry = placed && ctx.checker.entryOf(placed.block.ref);
  return entry ? [lineLocation(ctx, entry, placed.fact.at, name.kind)] : [];
}

/** A feature is laid down by the engine type's places, and limited by the revision that the job works to. */
function ofFeature(ctx: Context, feature: string, under: UnderCursor): Location[] {
  const { ask } = ctx.checker;
  const { block } = under;
  const context = ask.total(jobContext, scopeOfBlock(block));
  const type =
    block?.kind === "limits" || block?.kind === "run-in"
      ? block.type
      : block?.kind === "engine-type"
        ? block.name
        : context.type;
  const revision = block?.kind === "limits" ? block.revision : context.revision;
  const found: Location[] = [];
  const typeBlock = ask.engineType(type);
  const typeEntry = typeBlock && ctx.checker.entryOf(typeBlock.ref);
  for (const line of typeBlock?.places ?? [])
    if (typeEntry && line.place.feature === feature)
      found.push(lineLocation(ctx, typeEntry, line.at, "feature", feature));
  const limits = ask.limits(type, revision);
  const limitsEntry = limits && ctx.checker.entryOf(limits.ref);
  for (const line of [...(limits?.limits ?? []), ...(limits?.torques ?? [])])
    if (limitsEntry && line.place.feature === feature)
      found.push(lineLocation(ctx, limitsEntry, line.at, "feature", feature));
  return found;
}

function locationsOf(ctx: Context, name: NameAt, under: UnderCursor): Location[] {
  const { ask } = ctx.checker;
  switch (name.kind) {
    case "defect":
      return inScope(ctx, name, "defects");
    case "concession":
      return inScope(ctx, name, "concessions");
    case "feature":
      return ofFeature(ctx, name.key, under);
    case "step": {
      const [route = "", step] = name.key.split("/");
      const line = ask.route(route)?.steps.find((one) => one.name === step);
      const entry = ctx.checker.entryOf(`route/${route}`);
      return entry && line ? [lineLocation(ctx, entry, line.at, "step")] : [];
    }
    case "batch":
      // Nobody declares a batch; an alert that names it is what a reader looks for.
      return ask.alerts().flatMap((alert) => {
        const entry = ctx.checker.entryOf(alert.ref);
        return alert.suspects
          .filter((line) => entry && line.batch === name.key)
          .flatMap((line) => (entry ? [lineLocation(ctx, entry, line.at)] : []));
      });
    default: {
      const entry = blockOf(ctx, name.kind, name.key);
      return entry ? [lineLocation(ctx, entry, 0, name.kind)] : [];
    }
  }
}

/** The limit behind the reading in a cell. */
function limitOfCell(ctx: Context, under: UnderCursor): Location[] {
  const { ask } = ctx.checker;
  const { block, at } = under;
  if (!isWorkBlock(block) || at === undefined) return [];
  const reading = block.readings.find(
    (one) => one.at === at && (one.cell === under.cell || one.cell < 0 || under.cell < 0),
  );
  if (!reading) return [];
  const scope = scopeOfBlock(block);
  const judged = ask
    .total(blockReadings, `${scope}|${reading.feature}|${block.ref}`)
    .find((one) => one.at === at && one.cell === reading.cell);
  const { type, revision } = ask.total(jobContext, scope);
  const limits = ask.total(limitsFor, limitsKey(type, revision, reading.feature));
  const entry = limits.ref === "" ? undefined : ctx.checker.entryOf(limits.ref);
  return entry && judged && judged.limitAt >= 0 ? [lineLocation(ctx, entry, judged.limitAt)] : [];
}

export function definition(ctx: Context, path: string, position: Position): Location[] {
  const under = underCursor(ctx, path, position);
  if (!under || under.token < 0) return [];
  const names = namesInLine(under, under.block, ctx.checker.ask).filter(
    (one) => position.character >= one.from && position.character <= one.to,
  );
  const name = nameAtColumn(names, position.character);
  if (name) return locationsOf(ctx, name, under);
  return limitOfCell(ctx, under);
}
