import { rule } from "../rule.ts";
import { EVERYWHERE, put, type Slip, slips } from "../spelling.ts";

export default rule<(typeof EVERYWHERE)[number], Slip>({
  id: "syntax/bad-range",
  severity: "error",
  on: EVERYWHERE,
  reads: ["problems"],
  page: {
    what: "The lower end of a range is above its upper end, or one end is missing.",
    why: "Nothing lies inside such a range, so every reading would be out of limit, or none.",
    remedy: "Write the lower figure first; for one end write min or max.",
    faulty: [
      {
        text: `engine-type Curlew-9
instrument BG-2 "Bore gauge"
  range 100..50 mm
`,
      },
    ],
    sound: [
      {
        text: `engine-type Curlew-9
instrument BG-2 "Bore gauge"
  range 50..100 mm
`,
      },
    ],
  },
  check: (block, _ask, report) => slips(block, "bad-range", report),
  say: ([text = ""]) =>
    `${text} is no range: the lower figure stands first and both ends are given; for one end write min or max.`,
  repair: ([text = ""], spot) => {
    const [, low, high] = /^([+-]?[\d./]+?)\.\.([+-]?[\d./]+)$/u.exec(text) ?? [];
    return low === undefined || high === undefined ? [] : [put(spot, `${high}..${low}`, `Write ${high}..${low}`)];
  },
});
