import { rule } from "../rule.ts";
import { didYouMean, EVERYWHERE, offers, type Slip, slips } from "../spelling.ts";

export default rule<(typeof EVERYWHERE)[number], Slip>({
  id: "syntax/unknown-word",
  severity: "error",
  on: EVERYWHERE,
  reads: ["problems"],
  page: {
    what: "A line begins with a word that the language does not know.",
    why: "A line that is not read says nothing: a reading on it is not checked and is missing from every report.",
    remedy: "Write one of the words that may begin a line here, or begin the line with `note` if it is a remark.",
    faulty: [
      {
        text: `shop "Saltmarsh Engine Works"
  languge 1
`,
      },
    ],
    sound: [
      {
        text: `shop "Saltmarsh Engine Works"
  language 1
`,
      },
    ],
  },
  check: (block, _ask, report) => slips(block, "unknown-word", report),
  say: ([word = "", ...near]) =>
    `"${word}" begins no line that can be read, so nothing on this line is checked.${didYouMean(near)}`,
  repair: ([, ...near], spot) => offers(spot, near),
});
