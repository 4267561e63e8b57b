import { rule } from "../rule.ts";
import { EVERYWHERE, type Slip, slips } from "../spelling.ts";

export default rule<(typeof EVERYWHERE)[number], Slip>({
  id: "syntax/cell-count",
  severity: "error",
  on: EVERYWHERE,
  reads: ["problems"],
  page: {
    what: "A row of a table has more or fewer cells than its heading has columns.",
    why: "A missing cell would push every figure behind it under the wrong heading. Cells are never shifted: the row is read from the left as it stands and is to be put right.",
    remedy: "Write one cell a column: - where none applies, ? where a reading is still to be taken.",
    faulty: [
      {
        text: `engine C9-0412 Curlew-9
job J1 engine C9-0412
entry E1 2026-02-19 inspect job J1
  grid cylinder.bore/mm head mid skirt
  1 98.012 98.015
`,
      },
    ],
    sound: [
      {
        text: `engine C9-0412 Curlew-9
job J1 engine C9-0412
entry E1 2026-02-19 inspect job J1
  grid cylinder.bore/mm head mid skirt
  1 98.012 98.015 ?
`,
      },
    ],
  },
  check: (block, _ask, report) => slips(block, "cell-count", report),
  say: ([found = "", expected = ""]) =>
    `The row has ${found} ${found === "1" ? "cell" : "cells"} and its heading ${expected} ${expected === "1" ? "column" : "columns"}. Write - where nothing applies and ? where a reading is still to be taken.`,
});
