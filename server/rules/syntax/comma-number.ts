import { rule } from "../rule.ts";
import { anyOf, EVERYWHERE, put, type Slip, slips } from "../spelling.ts";

/** What the number may mean: one comma may be the decimal sign; commas before groups of three may part thousands. */
function readings(text: string): readonly string[] {
  const found: string[] = [];
  if (text.indexOf(",") === text.lastIndexOf(",") && !text.includes(".")) found.push(text.replace(",", "."));
  if (/^[+-]?\d{1,3}(,\d{3})+(\.\d+)?$/u.test(text) || found.length === 0) found.push(text.replaceAll(",", ""));
  return found;
}

export default rule<(typeof EVERYWHERE)[number], Slip>({
  id: "syntax/comma-number",
  severity: "error",
  on: EVERYWHERE,
  reads: ["problems"],
  page: {
    what: "A number is written with a comma.",
    why: "A comma is a decimal sign in one shop and a thousands sign in the next: 98,031 may be a bore or ninety-eight thousand. Nobody but the writer can tell.",
    remedy:
      "Write a point for decimals and nothing between thousands. The two repairs are for review, one at a time, never in bulk.",
    faulty: [
      {
        text: `engine-type Curlew-9
  bore 98,031 mm
`,
      },
    ],
    sound: [
      {
        text: `engine-type Curlew-9
  bore 98.031 mm
`,
      },
    ],
  },
  check: (block, _ask, report) => slips(block, "comma-number", report),
  say: ([text = ""]) =>
    `${text} has a comma, which could mean decimals or thousands, so it is not read. Write ${anyOf(readings(text))}.`,
  repair: ([text = ""], spot) =>
    readings(text).map((one) =>
      put(spot, one, one.includes(".") && !text.includes(".") ? `Decimal: ${one}` : `Thousands: ${one}`),
    ),
});
