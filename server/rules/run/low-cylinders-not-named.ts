/** A hydraulic-lock check whose text leaves out a cylinder that hangs below the horizontal. */
import { lowOf } from "../../totals/engine-shape.ts";
import { typeOfJob } from "../../totals/run-context.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly missing: readonly number[];
  readonly low: readonly number[];
  readonly about: string;
}

/** Cylinder numbers in a text: `4 5 6 7`, `4, 5`, `4 to 7`, `4-7`, `4..7`. */
function numbersIn(text: string): Set<number> {
  const found = new Set<number>();
  for (const [, first, last] of text.matchAll(/(\d{1,2})(?:\s*(?:to|-|\.\.|\u2013)\s*(\d{1,2}))?/gu)) {
    const from = Number(first);
    const to = last === undefined ? from : Number(last);
    for (let n = from; n <= to; n++) found.add(n);
  }
  return found;
}

export default rule({
  id: "run/low-cylinders-not-named",
  severity: "information",
  on: ["run", "entry"],
  reads: ["checks"],
  page: {
    what: "A `check hydraulic-lock` does not name every cylinder that hangs below the horizontal by the geometry of the engine type.",
    why: "The low cylinders are the ones that fill. A check that says which ones were looked at and drained can be believed; one that does not may have missed the lowest.",
    remedy:
      "Say in the check's text which low cylinders were looked at or drained, lowest first. Running an engine can hurt or kill: keep clear of the propeller and follow the maker's data and the local rules, which come before anything said here.",
    faulty: [
      {
        text: `engine-type Curlew-9
  layout radial 9
  numbering clockwise from rear
  rotation clockwise seen from rear
  lock-check after 4 h standing
engine C9-0412 Curlew-9
job J1 engine C9-0412
run R1 2026-04-11 job J1 by ATH second RPE
  check hydraulic-lock ok "By hand, two full turns, 5 6 drained"
`,
      },
    ],
    sound: [
      {
        text: `engine-type Curlew-9
  layout radial 9
  numbering clockwise from rear
  rotation clockwise seen from rear
  lock-check after 4 h standing
engine C9-0412 Curlew-9
job J1 engine C9-0412
run R1 2026-04-11 job J1 by ATH second RPE
  check hydraulic-lock ok "By hand, two full turns, 5 6 4 7 drained"
`,
      },
    ],
  },
  check(block, ask, report) {
    if (block.job === "") return;
    const checks = block.checks.filter((check) => check.name === "hydraulic-lock" && check.ok);
    if (checks.length === 0) return;
    const low = lowOf(typeOfJob(ask, block.job)).map((cylinder) => cylinder.number);
    for (const check of checks) {
      const named = numbersIn(check.about);
      const missing = low.filter((number) => !named.has(number));
      if (missing.length > 0)
        report(
          { at: check.at, ...(check.about === "" ? { role: "name" } : { role: "about" }) },
          { missing, low, about: check.about },
        );
    }
  },
  say: (d: Data) =>
    `The check does not name ${d.missing.length === 1 ? "cylinder" : "cylinders"} ${d.missing.join(", ")}; below the horizontal lie ${d.low.join(", ")}, lowest first. The low cylinders are the ones that fill: say which were looked at and drained.`,
});
