import { rule } from "../rule.ts";
import { EVERYWHERE, put, type Slip, slips } from "../spelling.ts";

export default rule<(typeof EVERYWHERE)[number], Slip>({
  id: "syntax/unclosed-quote",
  severity: "error",
  on: EVERYWHERE,
  reads: ["problems"],
  page: {
    what: "Text in quotes does not end before the line does.",
    why: "The text is taken to the end of the line, and with it whatever was meant to follow the quote.",
    remedy: "Close the quote. A quote inside the text is doubled.",
    faulty: [
      {
        text: `person ATH "Ada Thorne
`,
      },
    ],
    sound: [
      {
        text: `person ATH "Ada Thorne"
`,
      },
    ],
  },
  check: (block, _ask, report) => slips(block, "unclosed-quote", report),
  say: () => "The quote is not closed, so the rest of the line is taken as its text. Close it where the text ends.",
  repair: (_data, spot) => [
    put({ at: spot.at, from: spot.to ?? 0, to: spot.to ?? 0 }, '"', "Close the quote at the end of the line"),
  ],
});
