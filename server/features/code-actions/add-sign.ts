/** A line for each role that a block still wants. Who signs stays `?`, so that nothing is signed by an editor. */
import { dayText, rolesToSign } from "../../report/bench-sheet.ts";
import { insertBelow, lastLineOf } from "../edits.ts";
import { leadWord, readLine } from "../under-cursor.ts";
import { type Action, refactor } from "./context.ts";
import { repairsOf } from "./repairs.ts";

export const addSign: Action = ({ ask, path, range, entry, work, findings }) => {
  if (!work) return [];
  const word = leadWord(readLine(entry.document.lines[range.start.line] ?? ""));
  if (entry.from !== range.start.line && word !== "sign") return [];
  // Where only one person may sign the finding's own repair writes the whole line.
  const laid = findings
    .filter((one) => one.finding.code === "sign/missing")
    .flatMap((one) => repairsOf(one, entry))
    .flatMap((repair) => repair.edits.map((edit) => ("text" in edit ? edit.text : "")));
  return rolesToSign(work, ask)
    .filter((role) => !laid.some((line) => line.startsWith(`sign ${role} `)))
    .flatMap((role) =>
      refactor(path, `Add a line for ${role} to sign`, [
        insertBelow(entry, lastLineOf(entry), [`sign ${role} ? ${dayText(work, ask)}`]),
      ]),
    );
};
