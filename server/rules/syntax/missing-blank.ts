import { findUnit } from "../../quantity/units.ts";
import { rule } from "../rule.ts";
import { EVERYWHERE, put, type Slip, slips } from "../spelling.ts";

/** Number and unit with a blank between. */
const parted = (text: string): string => text.replace(/^([+-]?\d+(?:\.\d+)?)/u, "$1 ");

export default rule<(typeof EVERYWHERE)[number], Slip>({
  id: "syntax/missing-blank",
  severity: "error",
  on: EVERYWHERE,
  reads: ["problems"],
  page: {
    what: "A number and its unit are written without a blank between.",
    why: "The two are read as one word, and the figure is lost.",
    remedy: "Put a blank between number and unit.",
    faulty: [
      {
        text: `engine-type Curlew-9
  bore 98mm
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
  check: (block, _ask, report) => slips(block, "missing-blank", report),
  say: ([text = ""]) => `${text} needs a blank between number and unit: ${parted(text)}.`,
  repair: ([text = ""], spot) => [
    put(spot, parted(text), `Write ${parted(text)}`, findUnit(parted(text).split(" ")[1] ?? "") ? "safe" : "review"),
  ],
});
