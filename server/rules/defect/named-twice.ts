import { scopeOf } from "../../facts/refs.ts";
import { defectStates } from "../../totals/defect-states.ts";
import { JOB } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly name: string;
  readonly place: string;
  readonly firstPlace: string;
  readonly firstIn: string;
  readonly free: string;
}

const FIRST = `${JOB}entry E1 2026-02-17 strip job J26-014\n  defect D1 baffle[4] "Cracked at the lower lug"\n`;
const second = (name: string): string =>
  `entry E2 2026-02-19 inspect job J26-014\n  defect ${name} piston[3] "Scuffed"\n`;

export default rule<"entry" | "run", Found>({
  id: "defect/named-twice",
  severity: "error",
  on: ["entry", "run"],
  reads: ["defects"],
  page: {
    what: "Two defects of one job have the same number.",
    why: "A line that rectifies or defers the number then speaks of both, and one of them goes out of sight.",
    remedy: "Give the later one a number of its own. A defect that came back is a new one, with a new number.",
    faulty: [{ text: `${FIRST}${second("D1")}` }],
    sound: [{ text: `${FIRST}${second("D2")}` }],
  },
  check(block, ask, report) {
    const scope = scopeOf(block);
    const states = ask.total(defectStates, scope);
    for (const defect of block.defects) {
      const first = states.find((one) => one.name === defect.name);
      if (!first || (first.ref === block.ref && first.at === defect.at)) continue;
      const stem = /^(.*?)(\d{1,6})$/u.exec(defect.name);
      const numbers = states
        .flatMap((one) => (stem && one.name.startsWith(stem[1]) ? [Number(one.name.slice(stem[1].length))] : []))
        .filter((n) => Number.isFinite(n));
      report(
        { at: defect.at, role: "name" },
        {
          name: defect.name,
          place: defect.place.text,
          firstPlace: first.place,
          firstIn: first.ref.slice(first.ref.lastIndexOf("/") + 1),
          free: stem ? `${stem[1]}${Math.max(...numbers) + 1}` : "",
        },
        {
          place: defect.place.text,
          related: [{ ref: first.ref, spot: { at: first.at, role: "name" }, says: "The first defect of this number" }],
        },
      );
    }
  },
  say: ({ name, place, firstPlace, firstIn, free }) =>
    `Defect ${name} at ${place} has the number of the one at ${firstPlace} in ${firstIn}, so a line about ${name} speaks of both. Give it a number of its own${free === "" ? "" : `, ${free} is free`}.`,
  repair({ free }, spot) {
    return free === ""
      ? []
      : [{ title: `Call it ${free}`, grade: "review", edits: [{ kind: "replace", spot, text: free }] }];
  },
});
