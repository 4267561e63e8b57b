/**
 * Findings as the protocol's diagnostics, written as text once. What does not move with the lines is kept per finding, so that publishing a long
 * file again after a keystroke joins strings and does not build objects.
 */
import type { Finding, LocatedFinding } from "../checking/finding.ts";
import type { Severity } from "../facts/types.ts";
import type { RulePageScheme } from "./protocol.ts";

/** Most findings that one file lists; more slow an editor down and are never read. */
export const MOST_FINDINGS = 2_000;

const SCHEME: RulePageScheme = "gudgeon-rule";
const NUMBERS: Readonly<Record<Severity, number>> = { error: 1, warning: 2, information: 3, hint: 4 };
const TAGS = { unnecessary: 1, deprecated: 2 } as const;

/** Where the page of a rule opens. */
export function pageUri(code: string): string {
  return `${SCHEME}:/${code}.md`;
}

/** The code whose page an address names. */
export function codeOfPage(uri: string): string | undefined {
  return /^gudgeon-rule:\/*([^?#]+)\.md$/u.exec(decodeURIComponent(uri))?.[1];
}

const kept = new WeakMap<Finding, { readonly severity: Severity; readonly text: string }>();

/** The part of a diagnostic that does not depend on where it stands. */
function fixedPart(one: LocatedFinding): string {
  const { finding, severity } = one;
  const known = kept.get(finding);
  if (known?.severity === severity) return known.text;
  const page = finding.rule ? `,"codeDescription":{"href":${JSON.stringify(pageUri(finding.code))}}` : "";
  const tag = finding.tag === undefined ? "" : `,"tags":[${TAGS[finding.tag]}]`;
  const text = `,"severity":${NUMBERS[severity]},"code":${JSON.stringify(finding.code)}${page},"source":"gudgeon","message":${JSON.stringify(finding.message)}${tag}`;
  kept.set(finding, { severity, text });
  return text;
}

function range(line: number, from: number, to: number): string {
  return `{"start":{"line":${line},"character":${from}},"end":{"line":${line},"character":${to}}}`;
}

export function diagnosticText(one: LocatedFinding, uriOf: (path: string) => string): string {
  const related = one.related.map((other) => {
    const location = `{"uri":${JSON.stringify(uriOf(other.path))},"range":${range(other.line, other.from, other.to)}}`;
    return `{"location":${location},"message":${JSON.stringify(other.says)}}`;
  });
  const also = related.length === 0 ? "" : `,"relatedInformation":[${related.join(",")}]`;
  return `{"range":${range(one.line, one.from, one.to)}${fixedPart(one)}${also}}`;
}

/** A diagnostic about a file as a whole: what could not be read or listed, and why. */
export function fileNote(code: string, message: string): string {
  return `{"range":${range(0, 0, 0)},"severity":2,"code":${JSON.stringify(code)},"source":"gudgeon","message":${JSON.stringify(message)}}`;
}

/** The findings to list when there are too many: the gravest, in their order. */
export function gravest(findings: readonly LocatedFinding[], most: number): LocatedFinding[] {
  const chosen = findings
    .map((one, i) => ({ one, i }))
    .sort((a, b) => NUMBERS[a.one.severity] - NUMBERS[b.one.severity] || a.i - b.i);
  return chosen
    .slice(0, most)
    .sort((a, b) => a.i - b.i)
    .map(({ one }) => one);
}
