import { placeText } from "../../facts/place.ts";
import { formatDate } from "../../quantity/civil-date.ts";
import type { Measure } from "../../quantity/compare.ts";
import { readingsOfBlock } from "../../totals/readings-of-block.ts";
import { BORES } from "../example-shops.ts";
import { apart, spotOf, textOf, WORK } from "../limit-wording.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly place: string;
  readonly now: Measure | undefined;
  readonly before: Measure | undefined;
  readonly when: string;
}

export default rule<(typeof WORK)[number], Found>({
  id: "limit/readings-disagree",
  severity: "warning",
  on: WORK,
  reads: ["readings"],
  page: {
    what: "Two readings of one place disagree, and nothing was done there between them.",
    why: "Measuring until it fits is not a repair. Either one of the two is wrong, or work was done that is not recorded.",
    remedy:
      "Record the rework or the change of part, amend the reading that was wrong and say why, or accept the finding with the reason.",
    faulty: [
      {
        text: `${BORES}entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.031 mm with BG-2\nentry E2 2026-02-20 inspect job J26-014\n  measure cylinder.bore[3] 98.012 mm with BG-2\n`,
      },
    ],
    sound: [
      {
        text: `${BORES}entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.031 mm with BG-2\nentry E2 2026-02-20 inspect job J26-014\n  measure cylinder.bore[3] 98.033 mm with BG-2\n`,
      },
      {
        text: `${BORES}entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.031 mm with BG-2\nentry E2 2026-02-20 inspect job J26-014\n  amends E1 "Digits transposed"\n  measure cylinder.bore[3] 98.013 mm with BG-2\n`,
      },
    ],
  },
  check(block, ask, report) {
    for (const { feature, readings, has } of readingsOfBlock(block, ask)) {
      if (!has.contradicts) continue;
      for (const one of readings) {
        const earlier = one.contradicts;
        if (!earlier || one.status === "superseded") continue;
        const place = placeText(feature, one.path);
        report(
          spotOf(one),
          {
            place,
            now: one.measure,
            before: earlier.measure,
            when: earlier.date === undefined ? "before" : `on ${formatDate(earlier.date)}`,
          },
          { place, related: [{ ref: earlier.ref, spot: spotOf(earlier), says: "The earlier reading" }] },
        );
      }
    }
  },
  say: ({ place, now, before, when }) =>
    `${now && before && now.unit.dimension === before.unit.dimension ? `${place} is ${textOf(now)} here and was ${textOf(before)} ${when}, ${apart(now, before)} apart` : `${place} passes here and did not ${when}, or the other way round`}, with no work between. Measuring until it fits is not a repair: record the work, or amend the reading that was wrong.`,
});
