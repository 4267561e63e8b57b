import { rule } from "../rule.ts";
import { EVERYWHERE, type Slip, slips } from "../spelling.ts";

export default rule<(typeof EVERYWHERE)[number], Slip>({
  id: "syntax/wrong-dimension",
  severity: "error",
  on: EVERYWHERE,
  reads: ["problems"],
  page: {
    what: "A unit of another kind stands where only one kind makes sense: a length where a torque is meant.",
    why: "Either the unit or the line is wrong, and the figure would be compared with nothing.",
    remedy: "Correct the unit, or move the figure to the line that it belongs to.",
    faulty: [
      {
        text: `engine-type Curlew-9
  bore 98 N.m
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
  check: (block, _ask, report) => slips(block, "wrong-dimension", report),
  say: ([unit = "", found = "", wanted = ""]) =>
    `${unit} is a unit of ${found}; here ${wanted} is meant, so the figure is not read.`,
});
