import { rule } from "../rule.ts";
import { EVERYWHERE, type Slip, slips } from "../spelling.ts";

export default rule<(typeof EVERYWHERE)[number], Slip>({
  id: "syntax/clause-missing",
  severity: "error",
  on: EVERYWHERE,
  reads: ["problems"],
  page: {
    what: "A header lacks a part that its block cannot do without.",
    why: "An entry that names no job belongs to no engine: nothing in it counts.",
    remedy: "Add the part that is named to the header.",
    faulty: [
      {
        text: `entry E1 2026-02-19 inspect "Barrels"
  check magnetic-plug ok
`,
      },
    ],
    sound: [
      {
        text: `engine C9-0412 Curlew-9
job J1 engine C9-0412
entry E1 2026-02-19 inspect "Barrels" job J1
  check magnetic-plug ok
`,
      },
    ],
  },
  check: (block, _ask, report) => slips(block, "clause-missing", report),
  say: ([clause = ""]) =>
    `The header says no ${clause.split(" ")[0]}, so what stands below counts for nothing. Add: ${clause}.`,
});
