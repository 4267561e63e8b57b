/** A line for each role that a block still wants. Who signs stays `?`, so that nothing is signed by an editor. */
import { dayText, rolesToSign } from "../../report/bench-sheet.ts";
import { insertBelow, lastLineOf } from "../edits.ts";
import { leadWord, readLine } from "../under-cursor.ts";
import { type Action, refactor } from "./context.ts";

export const addSign: Action = ({ ask, path, range, entry, work, findings }) => {
  if (!work) return [];
  const word = leadWord(readLine(entry.document.lines[range.start.line] ?? ""));
  // Where the finding itself lays out the line this would be the same line twice.
  if (
    (entry.from !== range.start.line && word !== "sign") ||
    findings.some((one) => one.finding.code === "sign/missing")
  )
    return [];
  return rolesToSign(work, ask).flatMap((role) =>
    refactor(path, `Add a line for ${role} to sign`, [
      insertBelow(entry, lastLineOf(entry), [`sign ${role} ? ${dayText(work, ask)}`]),
    ]),
  );
};
