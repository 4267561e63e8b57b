import { parseDate } from "../../quantity/civil-date.ts";
import { rule } from "../rule.ts";
import { anyOf, EVERYWHERE, put, type Slip, slips } from "../spelling.ts";

/** The dates that a slip may mean: day first, month first, or the year in front with other marks or missing zeros. */
function candidates(text: string): readonly string[] {
  const parts = text.split(/[-./]/u);
  if (parts.length !== 3) return [];
  const [a = "", b = "", c = ""] = parts;
  const orders =
    a.length === 4
      ? [[a, b, c]]
      : c.length === 4
        ? [
            [c, b, a],
            [c, a, b],
          ]
        : [];
  const written = orders.map(
    ([year = "", month = "", day = ""]) => `${year}-${month.padStart(2, "0")}-${day.padStart(2, "0")}`,
  );
  return [...new Set(written)].filter((one) => one !== text && parseDate(one) !== undefined);
}

export default rule<(typeof EVERYWHERE)[number], Slip>({
  id: "syntax/bad-date",
  severity: "error",
  on: EVERYWHERE,
  reads: ["problems"],
  page: {
    what: "A date is not written as year-month-day, or the day does not exist.",
    why: "03/04/2026 is March in one country and April in another, and records are read in both.",
    remedy: "Write dates as 2026-03-02.",
    faulty: [
      {
        text: `person ATH "Ada Thorne"
  role fitter from 2024-02-30
`,
      },
      {
        text: `person ATH "Ada Thorne"
  role fitter from 8/1/2024
`,
      },
    ],
    sound: [
      {
        text: `person ATH "Ada Thorne"
  role fitter from 2024-02-29
`,
      },
    ],
  },
  check: (block, _ask, report) => slips(block, "bad-date", report),
  say: ([text = ""]) =>
    `${text} is no date: ${candidates(text).length > 0 ? `write ${anyOf(candidates(text))}` : "write year-month-day, a day that exists"}.`,
  repair: ([text = ""], spot) => candidates(text).map((one) => put(spot, one, `Write ${one}`)),
});
