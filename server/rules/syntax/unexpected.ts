import { rule } from "../rule.ts";
import { didYouMean, EVERYWHERE, isKeywordName, offers, type Slip, slips } from "../spelling.ts";

export default rule<(typeof EVERYWHERE)[number], Slip>({
  id: "syntax/unexpected",
  severity: "error",
  on: EVERYWHERE,
  reads: ["problems"],
  page: {
    what: "A line could be read up to a point, and something else stands there than what may follow.",
    why: "What stands behind the break is not read, so the line counts as not written.",
    remedy: "Write what is expected at the mark; the reference shows each line with an example.",
    faulty: [
      {
        text: `shop "Saltmarsh Engine Works"
  stand-time perhaps
`,
      },
      {
        text: `shop "Saltmarsh Engine Works"
  stand-time count
`,
      },
    ],
    sound: [
      {
        text: `shop "Saltmarsh Engine Works"
  stand-time counts
`,
      },
    ],
  },
  check: (block, _ask, report) => {
    // A header whose name is a word of the language has a finding of its own, which says more.
    const [named] = block.problems.filter((problem) => isKeywordName(block, problem));
    slips(
      named ? { ...block, problems: block.problems.filter((problem) => problem !== named) } : block,
      "unexpected",
      report,
    );
  },
  say: ([found = "", expected = "", ...near]) =>
    found === ""
      ? `The line ends too early: ${expected} should follow.`
      : `"${found}" cannot stand here: expected ${expected}.${didYouMean(near)}`,
  repair: ([, , ...near], spot) => offers(spot, near),
});
