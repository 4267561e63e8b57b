import { rule } from "../rule.ts";
import { EVERYWHERE, type Slip, slips } from "../spelling.ts";

export default rule<(typeof EVERYWHERE)[number], Slip>({
  id: "syntax/repeated-word",
  severity: "error",
  on: EVERYWHERE,
  reads: ["problems"],
  page: {
    what: "A part of a line that may stand once stands twice.",
    why: "Only one of the two can be meant, and the record does not say which.",
    remedy: "Take one of them out.",
    faulty: [
      {
        text: `instrument BG-2 "Bore gauge"
  range 50..100 mm
engine C9-0412 Curlew-9
job J26-014 engine C9-0412 limits B limits C
`,
      },
    ],
    sound: [
      {
        text: `engine C9-0412 Curlew-9
job J26-014 engine C9-0412 limits C
`,
      },
    ],
  },
  check: (block, _ask, report) => slips(block, "repeated-word", report),
  say: ([word = ""]) => `"${word}" stands twice on this line; only one can be meant. Take one out.`,
});
