/** What a reviewer would ask of whatever stands under the cursor. */

import { engineSummary } from "../report/engine-summary.ts";
import { jobSummaryOf } from "../report/job-summary.ts";
import { type Summary, toMarkdown } from "../report/summary.ts";
import type { Context, Hover, Position } from "./feature.ts";
import { channelSummary } from "./hover/channel.ts";
import { compressionSummary } from "./hover/compression.ts";
import type { About, Subject } from "./hover/context.ts";
import { aboutBulletin, aboutTask } from "./hover/due.ts";
import { oilSummary } from "./hover/fluids.ts";
import { aboutInstrument } from "./hover/instrument.ts";
import { limitSummary } from "./hover/limit.ts";
import { logFileSummary } from "./hover/log-file.ts";
import { aboutBatch, aboutPart } from "./hover/part.ts";
import { aboutPerson, aboutRole } from "./hover/person.ts";
import { aboutFeature } from "./hover/place.ts";
import { readingSummary } from "./hover/reading.ts";
import {
  aboutAlert,
  aboutLimits,
  aboutRoute,
  aboutRunIn,
  aboutStand,
  aboutStep,
  aboutType,
} from "./hover/reference.ts";
import { testStandSummary } from "./hover/test-stand.ts";
import { torqueSummary } from "./hover/torque.ts";
import { quantitySummary, ruleHover, wordHover } from "./hover/word.ts";
import { aboutConcession, aboutDefect, aboutWork, blockSummary } from "./hover/work.ts";
import { type NameAt, type NameKind, nameAtColumn, namesInLine } from "./names.ts";
import { isWorkBlock, leadWord, rangeOn, scopeOfBlock, textOfField, underCursor } from "./under-cursor.ts";

const ABOUT: Readonly<Record<Exclude<NameKind, "rule">, About>> = {
  person: aboutPerson,
  instrument: aboutInstrument,
  stand: aboutStand,
  "engine-type": aboutType,
  limits: aboutLimits,
  "run-in": aboutRunIn,
  task: aboutTask,
  bulletin: aboutBulletin,
  route: aboutRoute,
  alert: aboutAlert,
  step: aboutStep,
  feature: aboutFeature,
  part: aboutPart,
  batch: aboutBatch,
  role: aboutRole,
  work: aboutWork,
  defect: aboutDefect,
  concession: aboutConcession,
  engine: ({ key }, { ask }) => engineSummary(ask, key),
  job: ({ key }, { ask }) => jobSummaryOf(ask, key),
};

/** The whole line as a thing of its own: a reading, a torque, a limit, a row of a table. */
function aboutLine(subject: Subject): Summary | undefined {
  const { block, at, cell, plan, field } = subject.under;
  if (at === undefined || !block) return undefined;
  if (block.kind === "limits")
    return field?.role === "place" || field?.role === "value" || field?.type === "bounds"
      ? limitSummary(subject, block, at)
      : undefined;
  if (!isWorkBlock(block)) return undefined;
  if (plan.kind === "row") {
    return (
      readingSummary(subject, block, at, cell) ??
      compressionSummary(subject, block, at) ??
      channelSummary(subject, block, at, cell)
    );
  }
  const word = leadWord(subject.under);
  if (word === "measure" && (field?.role === "place" || field?.role === "value"))
    return readingSummary(subject, block, at, -1);
  if (
    word === "torque" &&
    field &&
    ["place", "value", "set", "adapter", "length", "angle", "drag", "lube", "compound"].includes(field.role)
  )
    return torqueSummary(subject, block, at);
  if (word === "oil") return oilSummary(subject, block, at);
  if (word === "power" || word === "air") return testStandSummary(subject, block, at);
  if (word === "map" || (word === "log" && (field?.role === "file" || field?.role === "digest")))
    return logFileSummary(subject, block, at);
  if (word === "compression" && field && ["method", "supply", "orifice", "state"].includes(field.role))
    return compressionSummary(subject, block, at);
  return undefined;
}

/** Behind the first word of a header stands the block as a whole. */
function aboutBlock(subject: Subject): Summary | undefined {
  const { block, plan } = subject.under;
  if (plan.kind !== "header" || !block) return undefined;
  if (isWorkBlock(block)) return blockSummary(block, subject);
  if (block.kind === "engine") return engineSummary(subject.ask, block.name);
  if (block.kind === "job") return jobSummaryOf(subject.ask, block.name);
  return undefined;
}

function hoverText(subject: Subject, name: NameAt | undefined): string | undefined {
  const { under } = subject;
  if (name?.kind === "rule") return ruleHover(name.key);
  const line = aboutLine(subject);
  if (line) return toMarkdown(line);
  const named = name && ABOUT[name.kind](name, subject);
  if (named) return toMarkdown(named);
  if (name) return `No ${name.kind} of the name ${textOfField(under, under.field)} is declared in these records.`;
  const quantity = quantitySummary(subject);
  if (quantity) return toMarkdown(quantity);
  if (under.token === 0 && under.plan.row) {
    const block = aboutBlock(subject);
    return [...(block ? [toMarkdown(block), "", "---", ""] : []), wordHover(under.plan.row)].join("\n");
  }
  return undefined;
}

/** @returns undefined over blank lines, comments, and words about which nothing is to be said */
export function hover(ctx: Context, path: string, position: Position): Hover | undefined {
  const under = underCursor(ctx, path, position);
  if (!under || under.token < 0 || (under.comment >= 0 && position.character >= under.comment)) return undefined;
  const { ask } = ctx.checker;
  const name = nameAtColumn(namesInLine(under, under.block, ask), position.character);
  const markdown = hoverText({ ctx, ask, under, scope: scopeOfBlock(under.block) }, name);
  if (markdown === undefined) return undefined;
  const token = under.tokens[under.token];
  const from = name?.from ?? token?.from ?? 0;
  const to = name?.to ?? token?.to ?? 0;
  return { range: rangeOn(position.line, from, to), markdown };
}
