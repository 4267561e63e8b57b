import { rule } from "../rule.ts";
import { didYouMean, EVERYWHERE, offers, type Slip, slips } from "../spelling.ts";

export default rule<(typeof EVERYWHERE)[number], Slip>({
  id: "syntax/unexpected",
  severity: "error",
  on: EVERYWHERE,
  reads: ["problems"],
  page: {
    what: "A line could be read up to a point, and something else stands there than what may follow.",
    why: "What stands behind the break is not read, so the line counts as not written.",
    remedy: "Write what is expected at the mark; the reference shows each line with an example.",
    faulty: [{ text: `shop "Saltmarsh Engine Works"
  stand-time perhaps
` }],
    sound: [{ text: `shop "Saltmarsh Engine Works"
  stand-time counts
` }],
  },
  check: (block, _ask, report) => slips(block, "unexpected", report),
  say: ([found = "", expected = "", ...near]) =>
    found === "" ? `The line ends too early: ${expected} should follow.` : `"${found}" cannot stand here: expected ${expected}.${didYouMean(near)}`,
  repair: ([, , ...near], spot) => offers(spot, near),
});
