/** Findings for people: `file:line:col`, the line and a caret, then a count. */
import type { LocatedFinding } from "../../checking/finding.ts";
import { SEVERITIES } from "../../checking/finding.ts";
import { type LoadedShop, shownPath } from "../shop.ts";
import { plain, style } from "../terminal.ts";

const COLOURS = { error: "red", warning: "yellow", information: "cyan", hint: "gray" } as const;
/** A longer line is shown around its finding. */
const WIDEST = 160;

/** Blanks as wide as the text, so that the caret stands under its column whatever the tabs. */
function under(text: string): string {
  return text.replace(/[^\t]/gu, " ");
}

function excerpt(line: string, from: number, to: number): string[] {
  const start = from > WIDEST - 40 ? from - 40 : 0;
  const cut = plain(line.slice(start, start + WIDEST));
  const before = plain(line.slice(start, from));
  const width = Math.max(1, Math.min(plain(line.slice(from, to)).length, WIDEST - before.length));
  return [`    ${start > 0 ? "…" : ""}${cut}`, `    ${start > 0 ? " " : ""}${under(before)}${"^".repeat(width)}`];
}

/**
 * @param shown what is printed
 * @param open all open findings of the paths asked for, which are counted
 */
export function writeText(
  shop: LoadedShop,
  shown: readonly LocatedFinding[],
  open: readonly LocatedFinding[],
  write: (text: string) => void,
): void {
  const out: string[] = [];
  for (const one of shown) {
    const place = `${plain(shownPath(shop.root, one.path))}:${one.line + 1}:${one.from + 1}`;
    const line = shop.checker.workspace.document(one.path)?.lines[one.line] ?? "";
    out.push(
      `${style("bold", place)}: ${style(COLOURS[one.severity], one.severity)} ${one.finding.code}: ${plain(one.finding.message)}`,
    );
    out.push(...excerpt(line, one.from, one.to));
    for (const other of one.related)
      out.push(
        `    ${style("dim", `see ${plain(shownPath(shop.root, other.path))}:${other.line + 1}:${other.from + 1}: ${plain(other.says)}`)}`,
      );
    if (one.quiet)
      out.push(
        `    accepted by ${plain(one.quiet.acceptedBy)} in ${plain(one.quiet.acceptedIn)}: ${plain(one.quiet.reason)}`,
      );
    out.push("");
  }
  const counts = SEVERITIES.map(
    (severity) => [severity, open.filter((one) => one.severity === severity).length] as const,
  );
  const files = shop.checker.workspace.documents.size;
  const lines = [...shop.checker.workspace.documents.values()].reduce(
    (sum, document) => sum + document.lines.length,
    0,
  );
  const said = counts
    .filter(([, count]) => count > 0)
    .map(([severity, count]) => `${count} ${severity}${count > 1 && severity !== "information" ? "s" : ""}`);
  out.push(
    `${said.length === 0 ? "No findings" : said.join(", ")} in ${files} file${files === 1 ? "" : "s"}, ${lines} lines.`,
    "",
  );
  write(out.join("\n"));
}
