import { placeText } from "../../facts/place.ts";
import { scopeOf } from "../../facts/refs.ts";
import { jobContext } from "../../totals/job-context.ts";
import { readingsOfBlock } from "../../totals/readings-of-block.ts";
import { BORES } from "../example-shops.ts";
import { few, spotOf, textOf, WORK } from "../limit-wording.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly places: readonly string[];
  readonly type: string;
  readonly revision: string;
  /** Why the lines that there are do not serve. */
  readonly but: string;
}

export default rule<(typeof WORK)[number], Found>({
  id: "limit/no-limit-known",
  severity: "information",
  on: WORK,
  reads: ["readings"],
  page: {
    what: "A reading has no limit to be checked against.",
    why: "It is kept, and nobody says whether it is good. Most often the feature or the place is spelled otherwise in the limits, or the part was reworked to a size that the limits do not have.",
    remedy: "Add the limit, or correct the feature, the place or the size.",
    faulty: [
      { text: `${BORES}entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.barrel[3] 98.031 mm with BG-2\n` },
    ],
    sound: [
      { text: `${BORES}entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.031 mm with BG-2\n` },
    ],
  },
  check(block, ask, report) {
    const { type, revision } = ask.total(jobContext, scopeOf(block));
    const known = ask.limits(type, revision);
    // An unknown type or revision is said by name; without any limits for the type one word at the job would be enough, and is said nowhere else.
    if (!known) return;
    for (const { feature, limits, readings, has } of readingsOfBlock(block, ask)) {
      if (
        !has.unlimited ||
        limits.statistics.length > 0 ||
        limits.readings.some((line) => line.condition !== undefined)
      )
        continue;
      if (known.limits.some((line) => line.formula.some((term) => term.place.feature === feature))) continue;
      const open = readings.filter(
        (one) => one.limitAt < 0 && one.status !== "superseded" && (one.result === "value" || one.result === "below"),
      );
      const first = open[0];
      if (!first) continue;
      const but =
        limits.readings.length === 0
          ? ""
          : first.size
            ? ` at size ${textOf(first.size)}`
            : first.state !== ""
              ? ` for a ${first.state} engine`
              : " at this place";
      const places = open.map((one) => placeText(feature, one.path));
      report(spotOf(first), { places, type, revision, but }, { place: places[0] });
    }
  },
  say: ({ places, type, revision, but }) =>
    `${few(places, 3)}: ${type} revision ${revision} has no limit${but}, so ${places.length === 1 ? "the reading is" : "the readings are"} kept and not checked. Add the limit, or correct the name.`,
});
