/** Findings as workflow commands, which GitHub shows beside the lines of a change. */
import type { LocatedFinding } from "../../checking/finding.ts";
import { type LoadedShop, shownPath } from "../shop.ts";
import { plain } from "../terminal.ts";

const COMMAND = { error: "error", warning: "warning", information: "notice", hint: "notice" } as const;

/** A line break in a message would begin a line, and so perhaps a command, of its own. */
function data(text: string): string {
  return plain(text.replaceAll("%", "%25").replaceAll("\r", "%0D").replaceAll("\n", "%0A"));
}

/** A property also ends with a comma or the colons. */
function property(text: string): string {
  return data(text).replaceAll(":", "%3A").replaceAll(",", "%2C");
}

export function writeGithub(
  shop: LoadedShop,
  shown: readonly LocatedFinding[],
  _open: readonly LocatedFinding[],
  write: (text: string) => void,
): void {
  const lines = shown.map((one) => {
    const where = `file=${property(shownPath(shop.root, one.path))},line=${one.line + 1},endLine=${one.line + 1},col=${one.from + 1},endColumn=${one.to + 1}`;
    const accepted = one.quiet ? ` (accepted by ${one.quiet.acceptedBy} in ${one.quiet.acceptedIn})` : "";
    return `::${COMMAND[one.severity]} ${where},title=${property(one.finding.code)}::${data(one.finding.message + accepted)}\n`;
  });
  write(lines.join(""));
}
