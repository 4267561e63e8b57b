/** Corrects what was signed: a new entry that amends the old one and gives the line again, to be written anew. What was written stays. */
import { formatDate } from "../../quantity/civil-date.ts";
import { nextName } from "../../report/bench-sheet.ts";
import { sealedTo } from "../edits.ts";
import { headingOf, leadWord, rangeOn, readLine } from "../under-cursor.ts";
import { type Action, refactor } from "./context.ts";

/** Lines that hold a figure or a statement that may have to be corrected. */
const CORRECTED: ReadonlySet<string> = new Set([
  "measure",
  "torque",
  "check",
  "fit",
  "remove",
  "locked",
  "crack-test",
  "rework",
  "serial",
  "plate",
  "hours",
  "oil",
  "done",
  "embodied",
]);

export const supersede: Action = ({ ask, path, range, entry, work, scope }) => {
  const { document } = entry;
  if (work?.kind !== "entry" || work.job === "" || range.start.line > sealedTo(entry, false)) return [];
  const line = range.start.line;
  const read = readLine(document.lines[line] ?? "");
  const body: string[] = [];
  if (read.plan.kind === "row") {
    const heading = headingOf(document, entry, line);
    if (!heading) return [];
    body.push(heading.read.text.trim(), read.text.trim());
  } else if (CORRECTED.has(leadWord(read))) body.push(read.text.trim());
  else return [];
  const name = nextName(
    "E",
    ask.work(scope).map((head) => head.name),
  );
  const lines = [
    `entry ${name} ${formatDate(ask.asOf())} ${work.step} "Corrects ${work.name}" job ${work.job}`,
    `  amends ${work.name} ""`,
    ...body.map((text) => `  ${text}`),
  ];
  const last = document.lines.length - 1;
  const end = (document.lines[last] ?? "").length;
  // A file that ends with a line break has an empty last line: the blank line between blocks is there already but for one break.
  const before = end === 0 ? "\n" : "\n\n";
  return refactor(path, `Correct it in a new entry ${name} that amends ${work.name}`, [
    { range: rangeOn(last, end, end), text: `${before}${lines.join("\n")}\n` },
  ]);
};
