/** Findings for programs. The shape is fixed: fields are added, never changed or taken away. */
import type { LocatedFinding } from "../../checking/finding.ts";
import type { LoadedShop } from "../shop.ts";

/** Lines and columns count from 1; columns are UTF-16 units; `endColumn` is one past the last. */
export function writeJson(
  shop: LoadedShop,
  shown: readonly LocatedFinding[],
  open: readonly LocatedFinding[],
  write: (text: string) => void,
): void {
  const findings = shown.map((one) => ({
    code: one.finding.code,
    severity: one.severity,
    message: one.finding.message,
    file: one.path,
    line: one.line + 1,
    column: one.from + 1,
    endColumn: one.to + 1,
    block: one.finding.ref,
    place: one.finding.place === "" ? undefined : one.finding.place,
    related: one.related.map((other) => ({
      file: other.path,
      line: other.line + 1,
      column: other.from + 1,
      endColumn: other.to + 1,
      message: other.says,
    })),
    accepted: one.quiet && { in: one.quiet.acceptedIn, by: one.quiet.acceptedBy, reason: one.quiet.reason },
  }));
  const count = (severity: string) => open.filter((one) => one.severity === severity).length;
  write(
    `${JSON.stringify({ version: 1, files: shop.checker.workspace.documents.size, errors: count("error"), warnings: count("warning"), findings }, undefined, 2)}\n`,
  );
}
