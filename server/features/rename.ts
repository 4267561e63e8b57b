/**
 * Gives a name that the shop declares another spelling, wherever it stands. What was signed and sealed stays as it is: a rename that would change text
 * above a seal is refused, with the places that stand in its way.
 */
import { KEYWORDS, scan, scanned, T } from "../../grammar/tokens.ts";
import { shortRef } from "../facts/refs.ts";
import type { Block } from "../facts/types.ts";
import { lineOf } from "../workspace/workspace.ts";
import type { Context, Position, Range, TextEdit, WorkspaceEdits } from "./feature.ts";
import { everywhere, type FoundName, type NameAt, type NameKind, nameAtColumn, namesInLine } from "./names.ts";
import { isWorkBlock, rangeOn, type UnderCursor, underCursor } from "./under-cursor.ts";

export interface Refused {
  readonly refused: string;
}

/** Names of nothing that a line declares: changing them in one sweep would change what records say. */
const NOT_DECLARED: Partial<Record<NameKind, string>> = {
  feature:
    "Places are named by the engine type, its limits and every reading; change them where they are laid down, one revision at a time.",
  part: "A part number is the maker's, not the shop's.",
  batch: "A batch number is the maker's, not the shop's.",
  role: "A role is a word of the shop that nothing declares; change the lines that give it.",
  rule: "The codes of findings are fixed.",
};

interface Target {
  readonly kind: NameKind;
  readonly key: string;
  readonly at: NameAt;
}

/** What is renamed: a schedule without a variant goes by its type's name, so the type is meant. */
function targetAt(ctx: Context, under: UnderCursor, character: number): Target | undefined {
  const names = namesInLine(under, under.block, ctx.checker.ask);
  const at = nameAtColumn(names, character);
  if (!at) return undefined;
  if (at.kind === "run-in" && !at.key.includes("/")) return { kind: "engine-type", key: at.key, at };
  return { kind: at.kind, key: at.key, at };
}

/** All places of a name; those of a type include the schedule that goes by it. */
function placesOf(ctx: Context, { kind, key }: Target): FoundName[] {
  const found = everywhere(ctx, kind, key);
  if (kind === "engine-type") found.push(...everywhere(ctx, "run-in", key));
  const seen = new Set<string>();
  return found.filter((one) => {
    const mark = `${one.path}:${one.line}:${one.from}`;
    return !seen.has(mark) && seen.add(mark);
  });
}

/** Jobs whose records a block belongs to, or whose release relies on it. */
function jobsOf(ctx: Context, facts: Block): readonly string[] {
  const { ask } = ctx.checker;
  switch (facts.kind) {
    case "job":
      return [facts.name];
    case "engine":
      return ask.jobsOf(facts.name).map((job) => job.name);
    case "limits":
      return ask
        .jobs()
        .filter((job) => job.limits === facts.revision && ask.engine(job.engine)?.type === facts.type)
        .map((job) => job.name);
    default:
      return isWorkBlock(facts) && facts.job !== "" ? [facts.job] : [];
  }
}

/** Places in text that a seal covers: above a sealed signature, or in a block on which a sealed release relies. */
function sealed(ctx: Context, found: readonly FoundName[]): FoundName[] {
  const { ask } = ctx.checker;
  const releases = new Map<string, boolean>();
  const released = (job: string): boolean => {
    const known =
      releases.get(job) ??
      ask.facts(job, "signs").some(({ block, fact }) => block.kind === "release" && fact.seal !== "");
    releases.set(job, known);
    return known;
  };
  return found.filter(({ entry, line }) => {
    const { facts } = entry;
    if (isWorkBlock(facts) && facts.signs.some((sign) => sign.seal !== "" && line <= lineOf(entry, sign.at)))
      return true;
    return jobsOf(ctx, facts).some(released);
  });
}

export function prepareRename(
  ctx: Context,
  path: string,
  position: Position,
): { readonly range: Range; readonly name: string } | Refused | undefined {
  const under = underCursor(ctx, path, position);
  const target = under && targetAt(ctx, under, position.character);
  if (!under || !target) return undefined;
  const why = NOT_DECLARED[target.kind];
  if (why !== undefined) return { refused: why };
  const found = placesOf(ctx, target);
  if (!found.some((one) => one.declares))
    return { refused: `No line of these records declares ${target.at.name}, so there is nothing to rename.` };
  return (
    refusedForSeals(sealed(ctx, found), target.at.name) ?? {
      range: rangeOn(position.line, target.at.from, target.at.to),
      name: target.at.name,
    }
  );
}

function refusedForSeals(inTheWay: readonly FoundName[], name: string): Refused | undefined {
  if (inTheWay.length === 0) return undefined;
  const refs = [...new Set(inTheWay.map((one) => one.entry.facts.ref))];
  const shown = refs.slice(0, 4).join(", ") + (refs.length > 4 ? ` and ${refs.length - 4} more` : "");
  return {
    refused: `${name} stands in text that is sealed (${shown}). What was signed stays as it is; a seal over changed text would no longer hold.`,
  };
}

/** Whether a word reads as one name. @returns why not, or "" */
function spelling(name: string, kind: NameKind): string {
  if (name === "" || /\s/u.test(name)) return "A name has no blanks and is not empty.";
  scan(name);
  const { count, types } = scanned;
  if (KEYWORDS.includes(name)) return `${name} is a word of the language; a name must be another one.`;
  const first = types[0];
  // Serial numbers, jobs and steps may begin with a digit; all other names begin with a letter.
  const digits =
    kind === "engine" || kind === "job" || kind === "step" ? first === T.Number || first === T.DigitWord : false;
  if (count !== 1 || !(first === T.Name || digits))
    return `${name} is no name: a name begins with a letter and has letters, digits, -, _ and . between parts.`;
  return "";
}

/** Who has the name already, in any spelling of case. */
function taken(ctx: Context, { kind, key }: Target, newName: string): string {
  const { ask } = ctx.checker;
  const same = (other: string): boolean => other.toLowerCase() === newName.toLowerCase() && other !== shortRef(key);
  const scope = key.slice(0, Math.max(0, key.lastIndexOf("/")));
  switch (kind) {
    case "work":
      return (
        ask
          .work(scope)
          .map((head) => head.name)
          .find(same) ?? ""
      );
    case "defect":
      return (
        ask
          .facts(scope, "defects")
          .map(({ fact }) => fact.name)
          .find(same) ?? ""
      );
    case "concession":
      return (
        ask
          .facts(scope, "concessions")
          .map(({ fact }) => fact.name)
          .find(same) ?? ""
      );
    case "step":
      return (
        ask
          .route(scope)
          ?.steps.map((step) => step.name)
          .find(same) ?? ""
      );
    case "limits":
      return (
        ask
          .revisions(scope)
          .map((one) => one.revision)
          .find(same) ?? ""
      );
    case "run-in":
      return ask.names("run-in").map(shortRef).find(same) ?? "";
    case "person":
    case "instrument":
    case "stand":
    case "engine-type":
    case "task":
    case "bulletin":
    case "route":
    case "alert":
    case "engine":
    case "job": {
      const { refs, otherCase } = ask.declared(kind, newName);
      return refs.length > 0 && newName !== key ? newName : (otherCase.find((one) => one !== key) ?? "");
    }
    default:
      return "";
  }
}

export function rename(
  ctx: Context,
  path: string,
  position: Position,
  newName: string,
): { readonly edits: WorkspaceEdits } | Refused {
  const under = underCursor(ctx, path, position);
  const target = under && targetAt(ctx, under, position.character);
  if (!target) return { refused: "There is no name under the cursor." };
  const ready = prepareRename(ctx, path, position);
  if (ready && "refused" in ready) return ready;
  const wrong = spelling(newName, target.kind);
  if (wrong !== "") return { refused: wrong };
  const other = taken(ctx, target, newName);
  if (other !== "")
    return {
      refused: `${other} is declared already${other === newName ? "" : `; ${newName} would differ from it only in case`}.`,
    };
  const edits: Record<string, TextEdit[]> = {};
  for (const one of placesOf(ctx, target)) {
    edits[one.path] ??= [];
    edits[one.path]?.push({ range: rangeOn(one.line, one.from, one.to), text: newName });
  }
  return { edits };
}
