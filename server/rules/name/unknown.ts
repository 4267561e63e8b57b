import { nearest } from "../../../grammar/nearest.ts";
import { scopeOf } from "../../facts/refs.ts";
import { referencesOf } from "../../totals/references.ts";
import { rule } from "../rule.ts";
import { anyOf, didYouMean, EVERYWHERE, offers } from "../spelling.ts";

interface Found {
  readonly what: string;
  readonly name: string;
  readonly near: readonly string[];
  /** Where such names are declared, for a reader who does not know. */
  readonly where: string;
}

const HEAD = "engine-type Curlew-9\nengine C9-0412 Curlew-9\njob J26-014 engine C9-0412\n";

export default rule<(typeof EVERYWHERE)[number], Found>({
  id: "name/unknown",
  severity: "error",
  on: EVERYWHERE,
  page: {
    what: "A line names a person, instrument, engine, job, task, entry or other thing that is declared nowhere.",
    why: "What is not declared has no dates, no calibration and no limits, so nothing about it can be checked.",
    remedy: "Correct the name, or declare it in a block of its own.",
    faulty: [
      {
        text: `${HEAD}instrument BG-2 "Bore gauge"\nentry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.031 mm with BG-3\n`,
      },
    ],
    sound: [
      {
        text: `${HEAD}instrument BG-2 "Bore gauge"\nentry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.031 mm with BG-2\n`,
      },
    ],
  },
  check(block, ask, report) {
    const scope = "date" in block ? scopeOf(block) : "";
    for (const { at, role, nth, what, name, known, candidates, where } of referencesOf(block, scope, ask)) {
      if (known) continue;
      report(
        { at, role, ...(nth === undefined ? {} : { nth }) },
        { what, name, near: nearest(name, candidates()).slice(0, 3), where },
      );
    }
  },
  say: ({ what, name, near, where }) =>
    `${what} ${name} is declared nowhere, so nothing about it can be checked.${near.length > 0 ? didYouMean(near) : ` Correct the name, or declare it: ${anyOf([where])}.`}`,
  repair({ name, near }, spot, line) {
    // The name may come from a line above (`with BG-3`): then there is nothing to replace here.
    const from = line.search(
      new RegExp(`(?<![\\w.-])${name.replaceAll(/[.*+?^${}()|[\]\\/]/gu, "\\$&")}(?![\\w.-])`, "u"),
    );
    return from < 0 ? [] : offers({ at: spot.at, from, to: from + name.length }, near);
  },
});
