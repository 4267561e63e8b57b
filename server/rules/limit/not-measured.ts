import { placeText } from "../../facts/place.ts";
import { featureCoverage } from "../../totals/coverage.ts";
import { jobContext } from "../../totals/job-context.ts";
import { mayBeUnread, needsOf } from "../../totals/later-steps.ts";
import { isNamedBy, workedLines } from "../../totals/limits-for.ts";
import { historyKey } from "../../totals/place-history.ts";
import { readingsOfBlock } from "../../totals/readings-of-block.ts";
import { ROUTED } from "../example-shops.ts";
import { few, spotOf, WORK } from "../limit-wording.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly places: readonly string[];
  readonly feature: string;
  /** The step that asks, or "" for a `?`. */
  readonly step: string;
  /** Later step that was signed. */
  readonly passedBy: string;
  readonly expected: number;
}

export default rule<(typeof WORK)[number] | "job", Found>({
  id: "limit/not-measured",
  severity: "hint",
  on: [...WORK, "job"],
  reads: ["readings", "route"],
  page: {
    what: "A reading is still to be taken: a ? stands in its place, or a step of the route asks for it and nothing stands there.",
    why: "It is work to do while the step is open. Once a later step is signed the engine went on without it, and what was not measured is not known: then it is an error.",
    remedy: "Take the reading, or write - where none applies.",
    faulty: [
      { text: `${ROUTED}entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] ?\n` },
      {
        text: `${ROUTED}person ATH "Ada Thorne"\n  role fitter from 2024-01-08\nentry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[1..8] 98.010 mm with BG-2\nentry E2 2026-02-27 close job J26-014\n  sign fitter ATH 2026-02-27\n`,
      },
    ],
    sound: [
      { text: `${ROUTED}entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[1..9] 98.010 mm with BG-2\n` },
    ],
  },
  check(block, ask, report) {
    if (block.kind !== "job") {
      for (const { feature, readings, has } of readingsOfBlock(block, ask)) {
        if (!has.todo) continue;
        const byLine = new Map<number, (typeof readings)[number][]>();
        for (const one of readings) {
          if (one.result !== "todo" || one.status === "superseded") continue;
          const line = byLine.get(one.at);
          if (line) line.push(one);
          else byLine.set(one.at, [one]);
        }
        for (const line of byLine.values()) {
          const first = line[0];
          if (!first) continue;
          const places = line.map((one) => placeText(feature, one.path));
          report(spotOf(first), { places, feature, step: "", passedBy: "", expected: 0 }, { place: places[0] });
        }
      }
      return;
    }
    const scope = block.name;
    const { type, revision } = ask.total(jobContext, scope);
    const limits = ask.limits(type, revision);
    if (!limits) return;
    const { features } = workedLines(limits);
    const spoken = new Set<string>();
    // Steps that were passed speak first: of several that ask for one place the worst is said.
    const needs = [...needsOf(scope, "limits", ask)].sort(
      (a, b) => Number(b.passedBy !== "") - Number(a.passedBy !== ""),
    );
    for (const { step, need, passedBy } of needs) {
      for (const feature of features) {
        if (spoken.has(feature) || !isNamedBy(feature, need.features)) continue;
        const lines = ask.total(featureCoverage, historyKey(scope, feature));
        if (lines.every((line) => line.missing.length === 0 && (passedBy === "" || line.todo.length === 0))) continue;
        const open = lines.flatMap((line) => [...line.missing, ...(passedBy === "" ? [] : line.todo)]);
        spoken.add(feature);
        if (mayBeUnread(scope, "", ["measure", "grid", "with"], ask)) continue;
        report(
          { at: 0, role: "name" },
          {
            places: open.map((path) => placeText(feature, path)),
            feature,
            step: step.name,
            passedBy,
            expected: lines.reduce((sum, line) => sum + line.expected, 0),
          },
          {
            place: feature,
            severity: passedBy === "" ? "hint" : "error",
            related: [{ ref: limits.ref, spot: { at: lines[0]?.limitAt ?? 0 }, says: "The limit" }],
          },
        );
      }
    }
  },
  say({ places, feature, step, passedBy, expected }) {
    if (step === "")
      return places.length === 1
        ? `${places[0]} is still to be measured.`
        : `${places.length} readings are still to be taken: ${few(places)}.`;
    const what =
      places.length === expected
        ? `${feature} is not measured at any of its ${expected} places`
        : `${feature} is not measured at ${places.length} of ${expected} places (${few(places)})`;
    return passedBy === ""
      ? `${what}; step ${step} asks for it. Measure, or write - where none applies.`
      : `${what}, which step ${step} asks for, and step ${passedBy} after it is signed. What was not measured is not known: measure, or write - where none applies.`;
  },
});
