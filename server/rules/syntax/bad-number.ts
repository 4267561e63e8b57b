import { rule } from "../rule.ts";
import { EVERYWHERE, put, type Slip, slips } from "../spelling.ts";

/** The one way to write a number whose point lacks digits on a side; other slips leave a choice. */
function inFull(text: string): string | undefined {
  const lacks = /^([+-]?)(\d*)\.(\d*)$/u.exec(text);
  const [, sign = "", whole = "", part = ""] = lacks ?? [];
  if (!lacks || (whole === "") === (part === "")) return undefined;
  return `${sign}${whole === "" ? "0" : whole}.${part === "" ? "0" : part}`;
}

export default rule<(typeof EVERYWHERE)[number], Slip>({
  id: "syntax/bad-number",
  severity: "error",
  on: EVERYWHERE,
  reads: ["problems"],
  page: {
    what: "A number is not written in full: digits are missing on one side of the point, it has an exponent, more than fifteen digits, or a fraction where a whole number is meant.",
    why: "A point that is easily missed turns .5 into 5, and digits past the fifteenth would be lost without a word.",
    remedy: "Write digits on both sides of the point and no exponent.",
    faulty: [
      {
        text: `engine-type Curlew-9
  bore .98 m
`,
      },
    ],
    sound: [
      {
        text: `engine-type Curlew-9
  bore 0.98 m
`,
      },
    ],
  },
  check: (block, _ask, report) => slips(block, "bad-number", report),
  say: ([text = "", wanted = "a number with digits on both sides of the point"]) =>
    `${text} is not read: write ${wanted}.`,
  repair: ([text = ""], spot) => {
    const full = inFull(text);
    return full === undefined ? [] : [put(spot, full, `Write ${full}`, "safe")];
  },
});
