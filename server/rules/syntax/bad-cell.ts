import { rule } from "../rule.ts";
import { EVERYWHERE, type Slip, slips } from "../spelling.ts";

export default rule<(typeof EVERYWHERE)[number], Slip>({
  id: "syntax/bad-cell",
  severity: "error",
  on: EVERYWHERE,
  reads: ["problems"],
  page: {
    what: "A cell of a table is neither a number nor one of the marks that may stand for one.",
    why: "The cell is not read, so the place counts as not measured; its neighbours keep their columns.",
    remedy: "Write a number, -, ?, <0.02, go or no-go.",
    faulty: [
      {
        text: `engine C9-0412 Curlew-9
job J1 engine C9-0412
entry E1 2026-02-19 inspect job J1
  grid cylinder.bore/mm head mid
  1 98.012 good
`,
      },
    ],
    sound: [
      {
        text: `engine C9-0412 Curlew-9
job J1 engine C9-0412
entry E1 2026-02-19 inspect job J1
  grid cylinder.bore/mm head mid
  1 98.012 ?
`,
      },
    ],
  },
  check: (block, _ask, report) => slips(block, "bad-cell", report),
  say: ([text = "", column = ""]) =>
    `"${text}" is no reading for ${column}. Write a number, - (does not apply), ? (still to be taken), a bound such as <0.02, go or no-go.`,
});
