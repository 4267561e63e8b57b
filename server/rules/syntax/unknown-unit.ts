import { rule } from "../rule.ts";
import { didYouMean, EVERYWHERE, offers, type Slip, slips } from "../spelling.ts";

export default rule<(typeof EVERYWHERE)[number], Slip>({
  id: "syntax/unknown-unit",
  severity: "error",
  on: EVERYWHERE,
  reads: ["problems"],
  page: {
    what: "A unit is written that the language does not know.",
    why: "Without its unit a figure cannot be compared with a limit, so the check that it was written for does not happen.",
    remedy: "Write the unit in one of the usual spellings: mm, in, N.m, lbf.ft, psi, C.",
    faulty: [
      {
        text: `engine-type Curlew-9
  bore 98 mmm
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
  check: (block, _ask, report) => slips(block, "unknown-unit", report),
  say: ([unit = "", ...near]) => `"${unit}" is no unit that is known, so the figure is not checked.${didYouMean(near)}`,
  repair: ([, ...near], spot) => offers(spot, near),
});
