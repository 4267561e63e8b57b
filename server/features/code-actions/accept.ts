/** Accepts a finding: a line in a later entry of the job. Who accepts and why stay open; the line says nothing until a person fills them in. */
import { shortRef } from "../../facts/refs.ts";
import { formatDate } from "../../quantity/civil-date.ts";
import { nextName } from "../../report/bench-sheet.ts";
import { familyOf, GUARDED_FAMILIES } from "../../totals/authority.ts";
import type { BlockEntry } from "../../workspace/workspace.ts";
import { beforeSigns, insertBelow } from "../edits.ts";
import type { CodeAction } from "../feature.ts";
import { rangeOn } from "../under-cursor.ts";
import type { Action, Selected } from "./context.ts";

/** The last entry of the job after the finding's block that nobody has signed. */
function openEntry({ ask, ctx, scope }: Selected, ref: string): BlockEntry | undefined {
  const work = ask.work(scope);
  const own = work.findIndex((head) => head.ref === ref);
  for (const head of work.slice(own + 1).toReversed()) {
    if (head.kind === "entry" && (ask.workBlock(head.ref)?.signs.length ?? 1) === 0)
      return ctx.checker.entryOf(head.ref);
  }
  return undefined;
}

/** How an acceptance names the block of a finding within its job. */
function refText(ref: string, job: string): string {
  return job !== "" && ref.startsWith(`${job}/`)
    ? shortRef(ref)
    : ref.includes("/") &&
        !/^(?:engine|instrument|stand|person|engine-type|task|bulletin|route|alert|account|job)\//u.test(ref)
      ? ref
      : shortRef(ref);
}

export const accept: Action = (selected) => {
  const { ask, ctx, findings, scope } = selected;
  if (scope === "" || scope.startsWith("engine:")) return [];
  return findings.flatMap((found): CodeAction[] => {
    const { code, ref, place, job } = found.finding;
    const family = familyOf(code);
    // Errors of these families are lowered by a signed concession alone; slips of spelling are put right, not accepted.
    if (
      (found.severity === "error" && GUARDED_FAMILIES.has(family)) ||
      family === "syntax" ||
      family === "internal" ||
      job !== scope
    )
      return [];
    const line = `accept ${code} ${refText(ref, job)}${place === "" ? "" : ` ${place}`} by ? ${formatDate(ask.asOf())} ""`;
    const open = openEntry(selected, ref);
    if (open) {
      return [
        {
          title: `Accept ${code}, with a reason, in ${open.facts.name}`,
          grade: "review",
          kind: "quickfix",
          finding: found,
          edits: { [open.document.path]: [insertBelow(open, beforeSigns(open), [line])] },
        },
      ];
    }
    const name = nextName(
      "E",
      ask.work(scope).map((head) => head.name),
    );
    const last = ctx.checker.workspace.document(found.path)?.lines ?? [];
    const end = (last.at(-1) ?? "").length;
    const text = `${end === 0 ? "\n" : "\n\n"}entry ${name} ${formatDate(ask.asOf())} review "Findings looked at" job ${scope}\n  ${line}\n`;
    return [
      {
        title: `Accept ${code}, with a reason, in a new entry ${name}`,
        grade: "review",
        kind: "quickfix",
        finding: found,
        edits: { [found.path]: [{ range: rangeOn(last.length - 1, end, end), text }] },
      },
    ];
  });
};
