/** Words of the trade and of the shop's own records: what checks, parts, batches and openings were called before. */
import { lubricationClause } from "../../report/bench-sheet.ts";
import { engineHours } from "../../totals/engine-hours.ts";
import { jobContext } from "../../totals/job-context.ts";
import { openings } from "../../totals/openings.ts";
import { routeProgress } from "../../totals/route-progress.ts";
import type { Completion } from "../feature.ts";
import { unquoted } from "../under-cursor.ts";
import { offer, type Typing } from "./context.ts";

export type Provider = (typing: Typing) => Completion[];

/** Names with a word about each. */
export function named(
  typing: Typing,
  names: readonly (readonly [name: string, detail: string])[],
  rank = 0,
): Completion[] {
  return names.map(([name, detail], i) => offer(typing, { label: name, kind: "name", detail }, rank, i));
}

export function steps(typing: Typing): Completion[] {
  const { ask, scope, block } = typing;
  if (block?.kind === "route")
    return named(
      typing,
      block.steps.map((step) => [step.name, ""]),
    );
  const { steps: all, next } = ask.total(routeProgress, scope);
  if (all.length > 0)
    return all.map((step, i) =>
      offer(
        typing,
        { label: step.name, kind: "name", detail: step.done ? "done" : step.started ? "begun" : "not begun" },
        step.name === next ? 0 : step.started && !step.done ? 1 : 2,
        i,
      ),
    );
  // The job is not said yet: steps of every route.
  return named(
    typing,
    [...new Set(ask.names("route").flatMap((name) => ask.route(name)?.steps.map((step) => step.name) ?? []))].map(
      (name) => [name, ""],
    ),
  );
}

const CHECK_NAMES = [
  "hydraulic-lock",
  "pre-oiling",
  "ignition-off",
  "leak-check",
  "magnetic-plug",
  "turning",
  "tool-count",
  "wire-locking",
  "packing",
  "preservation",
  "fluids-drained",
  "blanked",
];

function checkNames(typing: Typing): Completion[] {
  const { ask, scope, work } = typing;
  const step = ask.total(routeProgress, scope).steps.find((one) => one.name === work?.step);
  const wanted = (step?.needs ?? []).filter((need) => need.kind === "evidence" && !need.met).map((need) => need.text);
  const used = ask.jobs().flatMap((job) => ask.facts(job.name, "checks").map(({ fact }) => fact.name));
  return [
    ...named(
      typing,
      wanted.map((name) => [name, `needed by step ${work?.step}`]),
    ),
    ...named(
      typing,
      [...new Set([...used, ...CHECK_NAMES])].filter((name) => !wanted.includes(name)).map((name) => [name, ""]),
      1,
    ),
  ];
}

function partNumbers(typing: Typing): Completion[] {
  const { ask } = typing;
  const numbers = new Map<string, string>();
  for (const name of ask.names("engine-type"))
    for (const line of ask.engineType(name)?.lives ?? []) numbers.set(line.part, "life-limited");
  for (const engine of ask.engines())
    for (const line of engine.fits) numbers.set(line.part, numbers.get(line.part) ?? "");
  for (const job of ask.jobs())
    for (const { fact } of ask.facts(job.name, "fits"))
      numbers.set(fact.part, numbers.get(fact.part) ?? fact.place?.text ?? "");
  numbers.delete(unquoted(typing.typed)); // the line itself, whose number is being typed
  numbers.delete("");
  return [...numbers].map(([number, detail], i) =>
    offer(typing, { label: `"${number.replaceAll('"', '""')}"`, kind: "text", detail }, 0, i),
  );
}

export function batches(typing: Typing): Completion[] {
  const { ask } = typing;
  const suspect = new Set(
    ask
      .alerts()
      .flatMap((alert) => alert.suspects.map((line) => line.batch))
      .filter((batch) => batch !== ""),
  );
  const fitted = ask
    .jobs()
    .flatMap((job) => ask.facts(job.name, "fits").map(({ fact }) => fact.batch))
    .filter((batch) => batch !== "");
  return [...new Set([...fitted, ...suspect])].map((batch, i) =>
    offer(
      typing,
      { label: batch, kind: "name", detail: suspect.has(batch) ? "an alert names it" : "" },
      suspect.has(batch) ? 1 : 0,
      i,
    ),
  );
}

const METHODS: readonly (readonly [string, string])[] = [
  ["magnetic", "magnetic particles"],
  ["dye", "dye penetrant"],
  ["eddy", "eddy current"],
  ["ultrasonic", ""],
  ["x-ray", ""],
];

export const HEARD: readonly (readonly [string, string])[] = [
  ["exhaust", "the exhaust valve"],
  ["intake", "the inlet valve"],
  ["rings", "the breather: rings"],
  ["crack", ""],
  ["head-joint", ""],
  ["seat-joint", ""],
];

/** Names that are words of the trade or of the shop's own records rather than names of blocks. */
export const BY_ROLE: Readonly<Record<string, Provider>> = {
  "crack-test method": (typing) => named(typing, METHODS),
  "locked method": (typing) =>
    named(
      typing,
      [...new Set(typing.ask.revisions(typing.type).flatMap((one) => one.torques.map((line) => line.locking)))]
        .filter((text) => text !== "")
        .map((text) => [text, "named by the limits"]),
    ),
  "torque locking": (typing) =>
    named(typing, [
      ["wire", ""],
      ["split-pin", ""],
      ["tab", ""],
      ["lock-plate", ""],
      ["self-locking", ""],
    ]),
  "labour kind": (typing) => steps(typing),
  "rate kind": (typing) => steps(typing),
  "open what": (typing) =>
    named(
      typing,
      [...new Set(typing.ask.jobs().flatMap((job) => typing.ask.total(openings, job.name).map((one) => one.what)))].map(
        (what) => [what, ""],
      ),
    ),
  "close what": (typing) => {
    const all = typing.ask.total(openings, typing.scope);
    return all.map((one, i) =>
      offer(
        typing,
        { label: one.what, kind: "name", detail: one.closed ? "closed" : `opened in ${one.opened.ref}` },
        one.closed ? 1 : 0,
        i,
      ),
    );
  },
  "hours counter": (typing) =>
    named(typing, [
      ["tsn", "since new"],
      ["tso", "since overhaul"],
      ...Object.keys(ofEngine(typing))
        .filter((name) => name !== "tsn" && name !== "tso")
        .map((name) => [name, ""] as const),
    ]),
  "done counter": (typing) =>
    named(typing, [
      ["tsn", "since new"],
      ["tso", "since overhaul"],
    ]),
  "entry at": (typing) =>
    named(typing, [
      ["tsn", "since new"],
      ["tso", "since overhaul"],
    ]),
  "fit number": partNumbers,
  "remove number": partNumbers,
  "suspect part": partNumbers,
  "life part": partNumbers,
  "torque compound": (typing) =>
    named(
      typing,
      [...new Set(typing.ask.revisions(typing.type).flatMap((one) => one.torques.map((line) => line.lubrication)))]
        .filter((text) => lubricationClause(text).startsWith(" compound"))
        .map((text) => [`"${text}"`, "named by the limits"]),
    ),
  "check name": checkNames,
  "oil element": (typing) =>
    named(
      typing,
      ["Fe", "Cu", "Al", "Si", "Cr", "Pb", "Sn", "Ni", "Ag", "Mg"].map((name) => [name, ""]),
    ),
};

function ofEngine(typing: Typing): Readonly<Record<string, string>> {
  const { block, ask, scope } = typing;
  const engine = block?.kind === "engine" ? block.name : ask.total(jobContext, scope).engine;
  return engine === "" ? {} : ask.total(engineHours, engine).dimensions;
}
