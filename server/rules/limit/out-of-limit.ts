import { placeText } from "../../facts/place.ts";
import { scopeOf } from "../../facts/refs.ts";
import type { Measure } from "../../quantity/compare.ts";
import { serviceEnds } from "../../totals/limits-for.ts";
import { lineOf, readingsOfBlock } from "../../totals/readings-of-block.ts";
import { BORES } from "../example-shops.ts";
import { apart, boundText, limitLine, sourceText, spotOf, textOf, WORK } from "../limit-wording.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly place: string;
  readonly measure: Measure | undefined;
  readonly bound: Measure | undefined;
  readonly end: "low" | "high" | undefined;
  readonly limit: string;
  readonly source: string;
  readonly awaits: string;
  /** Name for a defect line; "" where the block is signed and takes no more lines. */
  readonly nextDefect: string;
}

export default rule<(typeof WORK)[number], Found>({
  id: "limit/out-of-limit",
  severity: "error",
  on: WORK,
  reads: ["readings", "signs"],
  page: {
    what: "A reading lies outside its limit, and nothing has been done about it yet.",
    why: "A worn part is no fault of the record, but an engine must not leave while one is open. Once the defect is rectified or the part replaced, and the place measured again inside its limits, or a concession is signed by someone who may, the reading is kept and quiet. Measuring until it fits is not a repair.",
    remedy: "Record the defect, rectify it and measure again, or have a concession signed.",
    faulty: [
      { text: `${BORES}entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.080 mm with BG-2\n` },
    ],
    sound: [
      { text: `${BORES}entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.060 mm with BG-2\n` },
      {
        text: `${BORES}entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.080 mm with BG-2\n  defect D1 cylinder.bore[3] "Worn"\nentry E2 2026-03-02 build job J26-014\n  rectify D1 "Liner renewed"\n  measure cylinder.bore[3] 98.012 mm with BG-2\n`,
      },
    ],
  },
  check(block, ask, report) {
    for (const { feature, limits, readings, has } of readingsOfBlock(block, ask)) {
      if (!has.out) continue;
      for (const one of readings) {
        if (one.verdict !== "out" || one.status === "superseded") continue;
        const line = lineOf(limits, one);
        const place = placeText(feature, one.path);
        const numbers = ask
          .facts(scopeOf(block), "defects")
          .map(({ fact }) => Number(/^D(\d{1,6})$/u.exec(fact.name)?.[1] ?? 0));
        report(
          spotOf(one),
          {
            place,
            measure: one.measure,
            bound: one.bound,
            end: one.end,
            limit: (line && serviceEnds(line)?.kind) ?? "limit",
            source: line ? sourceText(limits, line.reference) : "",
            awaits: one.awaits,
            nextDefect: block.signs.length > 0 ? "" : `D${Math.max(0, ...numbers) + 1}`,
          },
          { place, related: line ? limitLine(limits, line) : [] },
        );
      }
    }
  },
  say({ place, measure, bound, end, limit, source, awaits }) {
    const cure =
      awaits === ""
        ? "Rectify it and measure again, or have a concession signed."
        : `It was ${awaits} since: measure it again.`;
    if (!measure || !bound) return `${place} does not pass its gauge, so it must not be released as it is. ${cure}`;
    const way = end === "low" ? "under" : "over";
    return `${place} is ${textOf(measure)}, ${apart(measure, bound)} ${way} the ${limit} of ${boundText(bound, measure.unit)} (${source}), so it must not be released as it is. ${cure}`;
  },
  repair({ place, measure, bound, end, limit, nextDefect }) {
    if (nextDefect === "") return [];
    const about =
      measure && bound
        ? `${textOf(measure)}, ${apart(measure, bound)} ${end === "low" ? "under" : "over"} the ${limit}`
        : "Does not pass its gauge";
    return [
      {
        title: `Record it as defect ${nextDefect}`,
        grade: "review",
        edits: [{ kind: "append", text: `defect ${nextDefect} ${place} "${about}"` }],
      },
    ];
  },
});
