/**
 * Two states of a shop compared by what they mean: a reviewer wants to know which readings, signatures, due items and findings are others, not which
 * lines moved.
 */
import type { Checker } from "../checking/checker.ts";
import { placeText } from "../facts/place.ts";
import type { Severity, WorkBlock } from "../facts/types.ts";
import { formatDate } from "../quantity/civil-date.ts";
import { type DueItem, dueItems, dueText } from "../totals/due-items.ts";
import { escapeMarkdown } from "./summary.ts";
import { count, measureText } from "./wording.ts";

export interface ChangedReading {
  readonly ref: string;
  readonly place: string;
  /** As text; undefined where there was, or is, none. */
  readonly before: string | undefined;
  readonly after: string | undefined;
}
export interface ChangedSign {
  readonly ref: string;
  readonly role: string;
  readonly person: string;
  readonly on: string;
  readonly change: "added" | "removed" | "broken" | "sealed" | "changed";
}
export interface ChangedDue {
  readonly engine: string;
  readonly name: string;
  readonly standing: string;
  readonly due: string;
}
export interface ChangedFinding {
  readonly code: string;
  readonly severity: Severity;
  readonly ref: string;
  readonly place: string;
  readonly message: string;
}
export interface StateChange {
  readonly blocksAdded: readonly string[];
  readonly blocksRemoved: readonly string[];
  readonly readings: readonly ChangedReading[];
  readonly signs: readonly ChangedSign[];
  readonly due: readonly ChangedDue[];
  readonly findingsNew: readonly ChangedFinding[];
  readonly findingsGone: readonly ChangedFinding[];
}

interface State {
  readonly refs: ReadonlySet<string>;
  readonly readings: ReadonlyMap<string, Omit<ChangedReading, "before" | "after"> & { readonly text: string }>;
  readonly signs: ReadonlyMap<
    string,
    Omit<ChangedSign, "change"> & { readonly seal: string; readonly broken: boolean }
  >;
  readonly due: ReadonlyMap<string, { readonly item: DueItem; readonly engine: string }>;
  readonly findings: ReadonlyMap<string, ChangedFinding>;
}

const isWork = (block: { readonly kind: string }): block is WorkBlock =>
  block.kind === "entry" || block.kind === "run" || block.kind === "release" || block.kind === "dispatch";

/** The same thing a second time in one block gets a number, so that none is lost. */
function counted(counts: Map<string, number>, key: string): string {
  const n = (counts.get(key) ?? 0) + 1;
  counts.set(key, n);
  return n === 1 ? key : `${key}|${n}`;
}

function stateOf(checker: Checker): State {
  const refs = new Set<string>();
  const readings: Map<string, Omit<ChangedReading, "before" | "after"> & { text: string }> = new Map();
  const signs: Map<string, Omit<ChangedSign, "change"> & { seal: string; broken: boolean }> = new Map();
  const counts = new Map<string, number>();
  const findings = new Map<string, ChangedFinding>();
  const brokenAt = new Set<string>();
  for (const one of checker.allFindings()) {
    if (one.finding.code === "sign/changed-after-seal" || one.finding.code === "sign/signature-not-verified")
      brokenAt.add(`${one.finding.ref}|${one.finding.spot.at}`);
    if (one.quiet) continue;
    const { code, ref, place, message } = one.finding;
    findings.set(counted(counts, `f|${code}|${ref}|${place}|${message}`), {
      code,
      severity: one.severity,
      ref,
      place,
      message,
    });
  }
  for (const document of checker.workspace.documents.values()) {
    for (const { facts } of document.blocks) {
      if (facts.kind === "preface" || facts.kind === "unnamed") continue;
      refs.add(facts.ref);
      if (!isWork(facts)) continue;
      for (const reading of facts.readings) {
        const place = placeText(reading.feature, reading.path) + (reading.state === "" ? "" : ` ${reading.state}`);
        const text = reading.measure
          ? `${reading.result === "below" ? "<" : ""}${measureText(reading.measure)}`
          : reading.result;
        readings.set(counted(counts, `r|${facts.ref}|${place}`), { ref: facts.ref, place, text });
      }
      for (const sign of facts.signs) {
        const { role, person, seal } = sign;
        signs.set(counted(counts, `s|${facts.ref}|${role}|${person}`), {
          ref: facts.ref,
          role,
          person,
          on: formatDate(sign.on),
          seal,
          broken: brokenAt.has(`${facts.ref}|${sign.at}`),
        });
      }
    }
  }
  const due = new Map(
    checker.ask
      .engines()
      .flatMap((engine) =>
        checker.ask
          .total(dueItems, engine.name)
          .map((item) => [`${engine.name}|${item.kind}|${item.name}`, { item, engine: engine.name }] as const),
      ),
  );
  return { refs, readings, signs, due, findings };
}

const presses = (item: DueItem): boolean =>
  item.verdict !== "ahead" && item.verdict !== "done" && item.verdict !== "unknown";

/** @param before and @param after checked as of the same day */
export function compareStates(before: Checker, after: Checker): StateChange {
  const [old, now] = [stateOf(before), stateOf(after)];
  const readings: ChangedReading[] = [];
  for (const [key, { ref, place, text }] of now.readings) {
    const was = old.readings.get(key)?.text;
    if (was !== text) readings.push({ ref, place, before: was, after: text });
  }
  for (const [key, { ref, place, text }] of old.readings)
    if (!now.readings.has(key)) readings.push({ ref, place, before: text, after: undefined });
  const signs: ChangedSign[] = [];
  for (const [key, { seal, broken, ...sign }] of now.signs) {
    const was = old.signs.get(key);
    if (broken && was?.broken !== true) signs.push({ ...sign, change: "broken" });
    else if (!was) signs.push({ ...sign, change: "added" });
    else if (was.seal === "" && seal !== "") signs.push({ ...sign, change: "sealed" });
    else if (was.seal !== seal || was.on !== sign.on) signs.push({ ...sign, change: "changed" });
  }
  for (const [key, { seal: _seal, broken: _broken, ...sign }] of old.signs)
    if (!now.signs.has(key)) signs.push({ ...sign, change: "removed" });
  const due: ChangedDue[] = [];
  for (const [key, { item, engine }] of now.due) {
    const was = old.due.get(key)?.item;
    if (presses(item) && (!was || !presses(was)))
      due.push({
        engine,
        name: item.name,
        standing: item.verdict.replaceAll("-", " "),
        due: item.governing ? dueText(item.governing) : item.reason,
      });
  }
  return {
    blocksAdded: [...now.refs].filter((ref) => !old.refs.has(ref)),
    blocksRemoved: [...old.refs].filter((ref) => !now.refs.has(ref)),
    readings,
    signs,
    due,
    findingsNew: [...now.findings].filter(([key]) => !old.findings.has(key)).map(([, one]) => one),
    findingsGone: [...old.findings].filter(([key]) => !now.findings.has(key)).map(([, one]) => one),
  };
}

/** Headings with their lines, what a reviewer has to look at first. */
function sections(change: StateChange): (readonly [string, readonly string[]])[] {
  const finding = (one: ChangedFinding): string => `${one.severity} ${one.code} in ${one.ref}: ${one.message}`;
  const sign = (one: ChangedSign): string => `${one.ref}: ${one.person} as ${one.role}, ${one.on}`;
  const signs = (kind: ChangedSign["change"]): string[] => change.signs.filter((one) => one.change === kind).map(sign);
  const changed = change.readings.filter((one) => one.before !== undefined && one.after !== undefined);
  const taken = change.readings.filter((one) => one.before === undefined);
  const gone = change.readings.filter((one) => one.after === undefined);
  const byRef = (list: readonly ChangedReading[]): string[] =>
    [...new Set(list.map((one) => one.ref))].map((ref) => {
      const own = list.filter((one) => one.ref === ref);
      return own.length > 6
        ? `${ref}: ${count(own.length, "reading")}`
        : `${ref}: ${own.map((one) => `${one.place} ${one.after ?? one.before ?? ""}`).join(", ")}`;
    });
  return [
    ["Seals and signatures broken", signs("broken")],
    ["Signatures taken away", signs("removed")],
    ["Signatures that read differently", signs("changed")],
    ["Entries and other blocks gone", change.blocksRemoved],
    ["Readings that read differently", changed.map((one) => `${one.ref} ${one.place}: ${one.before} -> ${one.after}`)],
    ["Readings gone", byRef(gone)],
    ["New findings", change.findingsNew.map(finding)],
    ["Newly due", change.due.map((one) => `${one.engine} ${one.name}: ${one.standing}, ${one.due}`)],
    ["Findings gone", change.findingsGone.map(finding)],
    ["New entries and other blocks", change.blocksAdded],
    ["New readings", byRef(taken)],
    ["Signatures added", signs("added")],
    ["Sealed", signs("sealed")],
  ];
}

function headline(change: StateChange): string {
  const broken = change.signs.filter((one) => one.change === "broken" || one.change === "removed").length;
  const errors = change.findingsNew.filter((one) => one.severity === "error").length;
  const parts = [
    ...(broken > 0 ? [`${count(broken, "signature")} broken or gone`] : []),
    count(change.readings.length, "reading differs", "readings differ"),
    `${count(change.findingsNew.length, "finding")} new${errors > 0 ? ` (${count(errors, "error")})` : ""}, ${change.findingsGone.length} gone`,
    `${count(change.due.length, "item")} newly due`,
  ];
  return parts.join("; ");
}

export function changeText(change: StateChange): string {
  const out = [headline(change)];
  for (const [heading, lines] of sections(change))
    if (lines.length > 0) out.push("", heading, ...lines.map((line) => `  ${line}`));
  return out.join("\n");
}

/** For a review comment; text from records is escaped, and a mention in it calls nobody. */
export function changeMarkdown(change: StateChange): string {
  const safe = (text: string): string => escapeMarkdown(text).replaceAll("@", "@\u200b").replaceAll("&", "&amp;");
  const out = [`**${safe(headline(change))}**`];
  for (const [heading, lines] of sections(change))
    if (lines.length > 0) out.push("", `### ${heading}`, "", ...lines.map((line) => `- ${safe(line)}`));
  return out.join("\n");
}
