import { rule } from "../rule.ts";
import { anyOf, EVERYWHERE, type Slip, slips } from "../spelling.ts";

export default rule<(typeof EVERYWHERE)[number], Slip>({
  id: "syntax/wrong-block",
  severity: "error",
  on: EVERYWHERE,
  reads: ["problems"],
  page: {
    what: "A line stands in a block in which lines of its kind mean nothing.",
    why: "The line is not read. Most often a header above it is missing, and the line landed in the block before.",
    remedy: "Move the line to its block, or write the missing header above it.",
    faulty: [
      {
        text: `person ATH "Ada Thorne"
  bore 98 mm
`,
      },
    ],
    sound: [
      {
        text: `engine-type Curlew-9
  bore 98 mm
`,
      },
    ],
  },
  check: (block, _ask, report) => slips(block, "wrong-block", report),
  say: ([word = "", kind = "", ...allowed]) =>
    `A "${word}" line cannot stand in ${kind === "preface" ? "the text before the first header" : `a block of kind "${kind}"`}, so it is not read. It belongs in ${anyOf(allowed.map((one) => `"${one}"`))}.`,
});
