/**
 * Findings as SARIF 2.1.0, for services and editors that gather reports of many checkers.
 *
 * Source: OASIS, Static Analysis Results Interchange Format (SARIF) Version 2.1.0; section numbers in the code.
 */
import { sep } from "node:path";
import type { LocatedFinding } from "../../checking/finding.ts";
import { repairsOf } from "../../features/code-actions/repairs.ts";
import { editsOf } from "../../features/edits.ts";
import { pageOf } from "../../report/rule-page.ts";
import type { AnyRule } from "../../rules/rule.ts";
import { type LoadedShop, shownPath } from "../shop.ts";
import { plain } from "../terminal.ts";

declare const GUDGEON_VERSION: string | undefined;

/** 3.27.10; there is no fourth level, so hints are notes too. */
const LEVEL = { error: "error", warning: "warning", information: "note", hint: "note" } as const;

/** A path as a relative reference of RFC 3986, so that no file name is taken for a scheme, a query or another host. */
export function pathAsUri(path: string): string {
  const parts = path.split(sep).map((part) => encodeURIComponent(part));
  // `a:b` at the front would be a scheme.
  return parts[0]?.includes("%3A") === true ? `./${parts.join("/")}` : parts.join("/");
}

/** Rows and columns count from 1 (3.30.5, 3.30.6). */
function location(shop: LoadedShop, place: { path: string; line: number; from: number; to: number }) {
  return {
    artifactLocation: { uri: pathAsUri(shownPath(shop.root, place.path)) },
    region: {
      startLine: place.line + 1,
      startColumn: place.from + 1,
      endLine: place.line + 1,
      endColumn: place.to + 1,
    },
  };
}

/** Repairs as fixes (3.55); one that would change sealed text is not offered. */
function fixesOf(shop: LoadedShop, one: LocatedFinding) {
  const entry = shop.checker.entryOf(one.finding.ref);
  if (!entry || entry.document.path !== one.path) return [];
  return repairsOf(one, entry).flatMap((repair) => {
    const edits = editsOf(entry, repair);
    if (!edits || edits.length === 0) return [];
    const replacements = edits.map(({ range, text }) => ({
      deletedRegion: {
        startLine: range.start.line + 1,
        startColumn: range.start.character + 1,
        endLine: range.end.line + 1,
        endColumn: range.end.character + 1,
      },
      insertedContent: { text },
    }));
    return [
      {
        description: { text: plain(repair.title) },
        artifactChanges: [{ artifactLocation: { uri: pathAsUri(shownPath(shop.root, one.path)) }, replacements }],
      },
    ];
  });
}

function ruleOf(code: string, rule: AnyRule | undefined) {
  if (!rule) return { id: code, shortDescription: { text: "A rule of Gudgeon could not judge a block." } };
  const { page } = rule;
  return {
    id: code,
    shortDescription: { text: page.what },
    fullDescription: { text: `${page.what} ${page.why}` },
    help: { text: page.remedy, markdown: pageOf(rule) },
    defaultConfiguration: { level: LEVEL[rule.severity] },
  };
}

export function writeSarif(
  shop: LoadedShop,
  shown: readonly LocatedFinding[],
  _open: readonly LocatedFinding[],
  write: (text: string) => void,
): void {
  const codes = [...new Set(shown.map((one) => one.finding.code))].sort();
  const indexOf = new Map(codes.map((code, i) => [code, i]));
  const results = shown.map((one) => {
    const fixes = fixesOf(shop, one);
    return {
      ruleId: one.finding.code,
      ruleIndex: indexOf.get(one.finding.code),
      level: LEVEL[one.severity],
      message: { text: plain(one.finding.message) },
      locations: [
        {
          physicalLocation: location(shop, one),
          logicalLocations: [
            { fullyQualifiedName: plain(one.finding.ref + (one.finding.place === "" ? "" : ` ${one.finding.place}`)) },
          ],
        },
      ],
      ...(one.related.length === 0
        ? {}
        : {
            relatedLocations: one.related.map((other, id) => ({
              id,
              physicalLocation: location(shop, other),
              message: { text: plain(other.says) },
            })),
          }),
      // What makes it the same finding after lines moved (3.27.17).
      partialFingerprints: {
        "gudgeonFinding/v1": [one.finding.code, one.finding.ref, one.finding.place, plain(one.finding.message)].join(
          "|",
        ),
      },
      ...(fixes.length === 0 ? {} : { fixes }),
      // An accepted finding is there, and said to be accepted, by whom and why (3.35).
      ...(one.quiet
        ? {
            suppressions: [
              {
                kind: "inSource",
                status: "accepted",
                justification: plain(`${one.quiet.acceptedBy} in ${one.quiet.acceptedIn}: ${one.quiet.reason}`),
              },
            ],
          }
        : {}),
    };
  });
  const rules = codes.map((code) => ruleOf(code, shown.find((one) => one.finding.code === code)?.finding.rule));
  const version = typeof GUDGEON_VERSION === "string" ? GUDGEON_VERSION : undefined;
  const notifications = [...shop.checker.failures.keys()].map((rule) => ({
    level: "warning",
    message: { text: `The rule ${rule} failed on at least one block.` },
  }));
  const unread = shop.unreadable.map(({ path, reason }) => ({
    level: "error",
    message: { text: plain(`${path} could not be read: ${reason}`) },
  }));
  const log = {
    $schema: "https://json.schemastore.org/sarif-2.1.0.json",
    version: "2.1.0",
    runs: [
      {
        tool: { driver: { name: "Gudgeon", ...(version === undefined ? {} : { version }), rules } },
        columnKind: "utf16CodeUnits",
        invocations: [
          { executionSuccessful: unread.length === 0, toolExecutionNotifications: [...notifications, ...unread] },
        ],
        results,
      },
    ],
  };
  write(`${JSON.stringify(log, undefined, 2)}\n`);
}
