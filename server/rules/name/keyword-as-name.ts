import type { Block } from "../../facts/types.ts";
import { rule } from "../rule.ts";
import { EVERYWHERE, isKeywordName } from "../spelling.ts";

interface Found {
  readonly kind: string;
  readonly word: string;
}

export default rule<(typeof EVERYWHERE)[number], Found>({
  id: "name/keyword-as-name",
  severity: "error",
  on: EVERYWHERE,
  reads: ["problems"],
  page: {
    what: "Something is given a name that is a word of the language.",
    why: "A line that names it would be read as saying something else.",
    remedy: "Choose another name; a capital or a digit is enough.",
    faulty: [{ text: 'instrument range "Feeler gauges"\n' }],
    sound: [{ text: 'instrument FG-1 "Feeler gauges"\n' }],
  },
  check(block: Block, _ask, report) {
    for (const problem of block.problems) {
      if (isKeywordName(block, problem))
        report(
          { at: problem.at, from: problem.from, to: problem.to },
          { kind: block.kind, word: problem.data[0] ?? "" },
          {},
        );
    }
  },
  say: ({ kind, word }) =>
    `"${word}" is a word of the language and cannot be the name of a block of kind "${kind}": lines that name it would be read as something else. Choose another name, such as ${word[0]?.toUpperCase()}${word.slice(1)}-1.`,
  repair: ({ word }, spot) => [
    {
      title: `Name it ${word[0]?.toUpperCase()}${word.slice(1)}-1`,
      grade: "review",
      edits: [{ kind: "replace", spot, text: `${word[0]?.toUpperCase()}${word.slice(1)}-1` }],
    },
  ],
});
