import { rule } from "../rule.ts";
import { didYouMean, EVERYWHERE, offers, type Slip, slips } from "../spelling.ts";

export default rule<(typeof EVERYWHERE)[number], Slip>({
  id: "syntax/unnamed-block",
  severity: "error",
  on: EVERYWHERE,
  reads: ["problems"],
  page: {
    what: "A line looks like a header with a slip in its first word.",
    why: "It opens a block without a name, so that the lines below never join the block above by mistake; until it is put right they are not checked.",
    remedy: "Correct the first word of the line.",
    faulty: [
      {
        text: `engin C9-0412 Curlew-9
  owner "Fenland Flying Museum"
`,
      },
    ],
    sound: [
      {
        text: `engine C9-0412 Curlew-9
  owner "Fenland Flying Museum"
`,
      },
    ],
  },
  check: (block, _ask, report) => slips(block, "unnamed-block", report),
  say: ([word = "", ...near]) =>
    `"${word}" opens no block that is known, so the lines below belong to none and are not checked.${didYouMean(near)}`,
  repair: ([, ...near], spot) => offers(spot, near),
});
