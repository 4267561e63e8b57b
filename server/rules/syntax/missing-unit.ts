import { rule } from "../rule.ts";
import { EVERYWHERE, type Slip, slips } from "../spelling.ts";

export default rule<(typeof EVERYWHERE)[number], Slip>({
  id: "syntax/missing-unit",
  severity: "error",
  on: EVERYWHERE,
  reads: ["problems"],
  page: {
    what: "A number stands where a quantity is wanted and has no unit.",
    why: "A bare figure is a guess: 40 may be newton metres or foot pounds. Every quantity says its unit, on it or in the heading of its column.",
    remedy: "Write the unit after the number.",
    faulty: [
      {
        text: `engine-type Curlew-9
  bore 98
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
  check: (block, _ask, report) => slips(block, "missing-unit", report),
  say: ([number = ""]) => `${number} has no unit, so it is not read. Write the unit after it.`,
});
