import { rule } from "../rule.ts";
import { EVERYWHERE, put, type Slip, slips } from "../spelling.ts";

/** The trade name of a character that cannot be told from another by eye. */
function nameOf(char: string): string {
  if (/[\p{Zs}\ufeff\u200b]/u.test(char)) return "A blank that is not the plain one";
  if (/[\u2010-\u2015\u2212]/u.test(char)) return `The dash ${char}`;
  if (/[\u201c\u201d\u201e\u00ab\u00bb]/u.test(char)) return `The quotation mark ${char}`;
  return char === "\u00b0" ? "The degree sign" : `The character ${char}`;
}

export default rule<(typeof EVERYWHERE)[number], Slip>({
  id: "syntax/odd-character",
  severity: "information",
  on: EVERYWHERE,
  reads: ["problems"],
  page: {
    what: "A character that looks like another: a curly quote, a no-break blank, a long dash, a degree sign.",
    why: "Such characters come in with text that is pasted. They are read as what they look like here, but other tools and searches miss them.",
    remedy: "Put the plain character in its place; the repair is safe for a whole file.",
    faulty: [
      {
        text: `engine-type Curlew-9
  bore 98 mm
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
  check: (block, _ask, report) => slips(block, "odd-character", report),
  say: ([char = "", plain = ""]) =>
    `${nameOf(char)} is read as ${plain === "" ? "nothing" : plain === " " ? "a blank" : plain}. Write ${plain === "" ? "the unit without it" : plain === " " ? "a plain blank" : plain}.`,
  repair: ([, plain = ""], spot) => [
    put(spot, plain, plain === "" ? "Take it out" : plain === " " ? "Write a plain blank" : `Write ${plain}`, "safe"),
  ],
});
