/** Which measured part goes to which place, and the lines that would record it. */
import type { Ask } from "../checking/ask.ts";
import { matchable, matching } from "../totals/matching.ts";
import type { Summary } from "./summary.ts";
import type { Row } from "./wording.ts";

/** Figures of a job's limits that parts can be matched for. */
export function matchableFigures(ask: Ask, job: string): string[] {
  return [...new Set(matchable(ask, job).map((line) => line.place.feature))];
}

/**
 * The assignment of the job's measured parts for each figure.
 * @param figure only this one; all when left out
 */
export function matchReport(ask: Ask, job: string, figure?: string): Summary[] {
  return matchable(ask, job)
    .filter((line) => figure === undefined || line.place.feature === figure)
    .map((line): Summary => {
      const { assembly, moves, limits } = matching(ask, job, line);
      const sections = assembly.ok
        ? [
            { heading: "", rows: assembly.steps.map((step): Row => ["", step]) },
            { heading: "Left over", rows: assembly.spare.map((part): Row => ["", part]) },
            {
              heading:
                moves.length === 0 ? "" : "Lines for the entry, on neighbouring lines, so that parts can change places",
              rows:
                moves.length === 0
                  ? [["", "Every part stays where it is."] as Row]
                  : moves.map((move): Row => ["", move]),
            },
          ]
        : [
            {
              heading: "",
              rows: [
                ["", assembly.refused] as Row,
                ...("blockedPlaces" in assembly
                  ? [
                      ["blocked", assembly.blockedPlaces.join(", ")] as Row,
                      ["that fit there", assembly.fittingParts.join(", ") || "none"] as Row,
                    ]
                  : []),
              ],
            },
          ];
      return { title: `${line.place.text} of ${job}, new ${limits}`, sections };
    });
}
