import { rule } from "../rule.ts";
import { EVERYWHERE, put, type Slip, slips } from "../spelling.ts";

export default rule<(typeof EVERYWHERE)[number], Slip>({
  id: "syntax/bad-place",
  severity: "error",
  on: EVERYWHERE,
  reads: ["problems"],
  page: {
    what: "The brackets of a place hold a blank, or something that is no label, range or list.",
    why: "A place that cannot be read belongs to no part, so its reading is checked against no limit.",
    remedy: "Write cylinder.bore[3], [1..9], [1,3,5] or [3/front], without blanks.",
    faulty: [
      {
        text: `engine-type Curlew-9
  places cylinder[1, 3]
`,
      },
    ],
    sound: [
      {
        text: `engine-type Curlew-9
  places cylinder[1..9]
`,
      },
    ],
  },
  check: (block, _ask, report) => slips(block, "bad-place", report),
  say: ([text = "", reason = ""]) =>
    reason === ""
      ? `${text} is no place: inside the brackets stand labels, ranges and lists without blanks, as in [1..9] or [3/front].`
      : `${text} names ${reason}, more than any engine has.`,
  repair: (_data, spot, line) => {
    const from = spot.from ?? 0;
    const whole = /^[^\s[\]]+\[[^\]]*\]/u.exec(line.slice(from))?.[0];
    const tight = whole?.replaceAll(/\s+/gu, "");
    return whole === undefined || tight === undefined || tight === whole
      ? []
      : [put({ at: spot.at, from, to: from + whole.length }, tight, `Write ${tight}`)];
  },
});
