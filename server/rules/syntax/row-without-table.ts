import { rule } from "../rule.ts";
import { EVERYWHERE, type Slip, slips } from "../spelling.ts";

export default rule<(typeof EVERYWHERE)[number], Slip>({
  id: "syntax/row-without-table",
  severity: "error",
  on: EVERYWHERE,
  reads: ["problems"],
  page: {
    what: "A row of figures stands where no table is open above it.",
    why: "A row has its meaning from its heading: without one nobody can say what was measured. Any line that is no row ends a table.",
    remedy: "Write the grid, log or compression line above the row, or move the row back below it.",
    faulty: [
      {
        text: `engine C9-0412 Curlew-9
job J1 engine C9-0412
entry E1 2026-02-19 inspect job J1
  1 98.012 98.015
`,
      },
    ],
    sound: [
      {
        text: `engine C9-0412 Curlew-9
job J1 engine C9-0412
entry E1 2026-02-19 inspect job J1
  grid cylinder.bore/mm head mid
  1 98.012 98.015
`,
      },
    ],
  },
  check: (block, _ask, report) => slips(block, "row-without-table", report),
  say: ([label = ""]) =>
    `Row ${label} has no grid, log or compression line above it, so its figures mean nothing. Put it below its heading.`,
});
