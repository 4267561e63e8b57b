/** Tables for places that nobody has measured: of one feature, or all that the step asks for. */
import { featuresToMeasure, gridLines, inspectionSheet } from "../../report/bench-sheet.ts";
import { beforeSigns, insertBelow, sealedTo } from "../edits.ts";
import type { CodeAction } from "../feature.ts";
import { leadWord, readLine } from "../under-cursor.ts";
import { type Action, refactor } from "./context.ts";

/** Only at a header, at a heading of a table, or where a finding says that something is not measured. */
export const addPlaces: Action = ({ ask, path, range, entry, work, scope, findings }) => {
  if (work?.kind !== "entry" || scope === "" || sealedTo(entry, true) >= 0) return [];
  const read = readLine(entry.document.lines[range.start.line] ?? "");
  const word = leadWord(read);
  const asks = findings.find(
    (one) => one.finding.code === "limit/not-measured" || one.finding.code === "limit/place-missing",
  );
  if (word !== "entry" && word !== "grid" && word !== "measure" && !asks) return [];
  const line = beforeSigns(entry);
  const found: CodeAction[] = [];
  const whole = inspectionSheet(scope, work.step, ask);
  if (word === "entry" && whole.length > 0)
    found.push(
      ...refactor(path, `Lay out what step ${work.step} still has to measure`, [insertBelow(entry, line, whole)], asks),
    );
  const named = /^[^[/]*/u.exec(read.tokens[1]?.text ?? "")?.[0] ?? "";
  const about = asks ? asks.finding.place.replace(/\[.*$/u, "") : "";
  for (const { feature } of featuresToMeasure(scope, work.step, ask)) {
    if (feature !== about && !((word === "grid" || word === "measure") && feature === named)) continue;
    const lines = gridLines(scope, feature, ask);
    if (lines.length > 0)
      found.push(
        ...refactor(
          path,
          `Lay out the places of ${feature} that nobody has measured`,
          [insertBelow(entry, line, lines)],
          asks,
        ),
      );
  }
  return found;
};
