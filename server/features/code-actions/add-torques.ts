/** Lines for the fasteners that the step has to torque. The figure and the wrench stay `?`: only whoever pulls the wrench can write them. */

import { lubricationClause, torquesToDo } from "../../report/bench-sheet.ts";
import { count } from "../../report/wording.ts";
import { beforeSigns, insertBelow, sealedTo } from "../edits.ts";
import { leadWord, readLine } from "../under-cursor.ts";
import { type Action, refactor } from "./context.ts";

export const addTorques: Action = ({ ask, path, range, entry, work, scope, findings }) => {
  if (work?.kind !== "entry" || scope === "" || sealedTo(entry, true) >= 0) return [];
  const asks = findings.find((one) => one.finding.code === "torque/missing");
  const word = leadWord(readLine(entry.document.lines[range.start.line] ?? ""));
  if (word !== "entry" && word !== "torque" && !asks) return [];
  const todo = torquesToDo(scope, work.step, ask);
  const lines = todo.map((one) => `torque ${one.place} ? ${one.unit}${lubricationClause(one.lubrication)} with ?`);
  if (lines.length === 0) return [];
  return refactor(
    path,
    `Lay out the torques of ${count(
      todo.reduce((sum, one) => sum + one.missing, 0),
      "fastener",
    )} still to do`,
    [insertBelow(entry, beforeSigns(entry), lines)],
    asks,
  );
};
