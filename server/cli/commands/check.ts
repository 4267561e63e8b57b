import type { LocatedFinding } from "../../checking/finding.ts";
import type { Severity } from "../../facts/types.ts";
import { type Command, readArguments, wholeNumber } from "../arguments.ts";
import { asOfDate, type LoadedShop, loadShop } from "../shop.ts";
import { plain, Refusal, write } from "../terminal.ts";

const LEVELS: readonly Severity[] = ["error", "warning", "information", "hint"];

type Writer = (
  shop: LoadedShop,
  shown: readonly LocatedFinding[],
  open: readonly LocatedFinding[],
  write: (text: string) => void,
) => void;

/** Each loaded only when it is asked for. */
const WRITERS: Readonly<Record<string, () => Promise<Writer>>> = {
  text: async () => (await import("../writers/text.ts")).writeText,
  json: async () => (await import("../writers/json.ts")).writeJson,
  sarif: async () => (await import("../writers/sarif.ts")).writeSarif,
  github: async () => (await import("../writers/github.ts")).writeGithub,
  junit: async () => (await import("../writers/junit.ts")).writeJunit,
};

export const command: Command = {
  usage: "gudgeon check [paths]",
  about: "Checks the records of a shop and prints what it finds.",
  options: [
    ["as-of DATE", "judge overdue and due as of this day instead of today"],
    [
      "format FORMAT",
      "how findings are printed: text, json, sarif (2.1.0), github (beside the lines of a change), junit",
    ],
    ["severity LEVEL", "least severity shown: error, warning, information, hint (all)"],
    ["max-warnings N", "exit 1 when there are more warnings than this"],
    ["quiet-too", "also list accepted findings, with who accepted them and why"],
  ],
  async run(args) {
    const { values, positionals } = readArguments(args, {
      "as-of": { type: "string" },
      format: { type: "string", default: "text" },
      severity: { type: "string", default: "hint" },
      "max-warnings": { type: "string" },
      "quiet-too": { type: "boolean", default: false },
    });
    const least = LEVELS.indexOf(values.severity as Severity);
    if (least < 0) throw new Refusal(`--severity wants one of ${LEVELS.join(", ")}, not "${values.severity}".`);
    const load = Object.hasOwn(WRITERS, values.format) ? WRITERS[values.format] : undefined;
    if (!load) throw new Refusal(`--format wants one of ${Object.keys(WRITERS).join(", ")}, not "${values.format}".`);
    const most = wholeNumber("max-warnings", values["max-warnings"]);
    const shop = await loadShop(positionals, asOfDate(values["as-of"]));
    const all = shop.checker.allFindings().filter((one) => shop.wanted(one.path));
    const open = all.filter((one) => !one.quiet);
    const shown = (values["quiet-too"] ? all : open).filter((one) => LEVELS.indexOf(one.severity) <= least);
    (await load())(shop, shown, open, write);
    for (const [rule, message] of shop.checker.failures)
      process.stderr.write(`gudgeon: the rule ${rule} failed: ${plain(message)}\n`);
    for (const { path, reason } of shop.unreadable)
      process.stderr.write(`gudgeon: ${plain(path)} could not be read: ${plain(reason)}\n`);
    if (shop.unreadable.length > 0) return 2;
    const warnings = open.filter((one) => one.severity === "warning").length;
    return open.some((one) => one.severity === "error") || (most !== undefined && warnings > most) ? 1 : 0;
  },
};
